/** How thick wood is before it is planed, and what is planed or resawn off it. */

/** Width in mm of the cut when a board is resawn: 1/8 in, a circular saw; common practice, no source. */
const RESAW_KERF = 3.175;

/** Planed off both faces of a slice together to clean them, mm: 1/16 in; common practice, no source. */
const SLICE_CLEANING = 1.5875;

/** Most that is planed off a board in all, mm: 1/4 in, more is resawn; common practice, no source. */
const MOST_PLANED = 6.35;

/** Comparisons of measured thicknesses, mm. */
export const ROUNDING = 1e-9;

/** True for so many mm of surplus thickness as are planed off; more is resawn. */
export function isPlanedOff(excess: number): boolean {
  return excess <= MOST_PLANED + ROUNDING;
}

/** How many slices of `wanted` mm, cleaned, come out of a board when it is resawn. */
export function slicesIn(thickness: number, wanted: number): number {
  return Math.floor((thickness + RESAW_KERF + ROUNDING) / (wanted + SLICE_CLEANING + RESAW_KERF));
}

/** Thickness in mm, rough from the saw, of each of the slices that a board is resawn into, all alike. */
export function roughSlice(thickness: number, slices: number): number {
  return (thickness - (slices - 1) * RESAW_KERF) / slices;
}

/**
 * Thickness in mm, rough from the saw, of what is resawn off a slice, or a board that gives one, that is `rough` mm thick and
 * is to give wood of `wanted` mm; 0 where all of it is planed off.
 */
export function surplusOf(rough: number, wanted: number): number {
  const excess = rough - wanted;
  return isPlanedOff(excess) ? 0 : excess - SLICE_CLEANING - RESAW_KERF;
}
