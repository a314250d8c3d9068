/**
 * Whether a board of one thickness can become wood of another: planed when it is a little thicker, resawn into
 * slices when it is much thicker, refused when it is too thin.
 */

/** What has to be done to a board to give wood of the thickness asked for. */
export type ThicknessFit =
  | { readonly work: 'none' }
  /** Plane `eachSide` mm off either face. */
  | { readonly work: 'plane'; readonly eachSide: number }
  /** Resaw into `slices`, then plane each to thickness; the surplus of one that is too thick to be planed is resawn off. */
  | { readonly work: 'resaw'; readonly slices: number }
  /** Too thin. */
  | { readonly work: 'refused' };

/** Width in mm of the cut when a board is resawn: 1/8 in, a circular saw; common practice, no source. */
export const RESAW_KERF = 3.175;

/** Planed off both faces of a slice together to clean them, mm: 1/16 in; common practice, no source. */
const SLICE_CLEANING = 1.5875;

/** Most that is planed off a board in all, mm: 1/4 in, more is resawn; common practice, no source. */
const MOST_PLANED = 6.35;

/** Comparisons of measured thicknesses, mm. */
const ROUNDING = 1e-9;

/** What it takes to get wood of `wanted` mm, give or take the tolerance, out of `thickness` mm. */
export function thicknessFit(thickness: number, wanted: number, tolerance: number): ThicknessFit {
  const excess = thickness - wanted;
  if (Math.abs(excess) <= tolerance + ROUNDING) return { work: 'none' };
  if (excess < 0) return { work: 'refused' };
  return excess <= MOST_PLANED + ROUNDING
    ? { work: 'plane', eachSide: excess / 2 }
    : { work: 'resaw', slices: Math.max(1, slicesIn(thickness, wanted)) };
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
  return excess <= MOST_PLANED + ROUNDING ? 0 : excess - SLICE_CLEANING - RESAW_KERF;
}
