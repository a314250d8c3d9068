import { isPlanedOff, ROUNDING, slicesIn } from '../model/resawing.ts';

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

/** What it takes to get wood of `wanted` mm, give or take the tolerance, out of `thickness` mm. */
export function thicknessFit(thickness: number, wanted: number, tolerance: number): ThicknessFit {
  const excess = thickness - wanted;
  if (Math.abs(excess) <= tolerance + ROUNDING) return { work: 'none' };
  if (excess < 0) return { work: 'refused' };
  return isPlanedOff(excess)
    ? { work: 'plane', eachSide: excess / 2 }
    : { work: 'resaw', slices: Math.max(1, slicesIn(thickness, wanted)) };
}
