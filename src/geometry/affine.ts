import type { Point, Region, Ring } from './shapes.ts';
import { cosineAndSine } from './sine-and-cosine.ts';

/** An affine map as in SVG's matrix(a b c d e f): x' = a x + c y + e, y' = b x + d y + f. */
export type Affine = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

/** The map that changes nothing. */
export const IDENTITY: Affine = [1, 0, 0, 1, 0, 0];

/**
 * The map that does `inner` first and `outer` after it: for nested groups of a drawing `outer` is that of the group
 * around.
 */
export function compose(outer: Affine, inner: Affine): Affine {
  const [a, b, c, d, e, f] = outer;
  const [p, q, r, s, t, u] = inner;
  return [a * p + c * q, b * p + d * q, a * r + c * s, b * r + d * s, a * t + c * u + e, b * t + d * u + f];
}

/** Moves a point. */
export function applyToPoint(m: Affine, point: Point): Point {
  // By index and not destructured: a layout of many parts maps tens of thousands of points while somebody waits.
  const x = point[0];
  const y = point[1];
  return [m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]];
}

/** Moves a direction: the translation is left out. */
export function applyToVector(m: Affine, [x, y]: Point): Point {
  return [m[0] * x + m[2] * y, m[1] * x + m[3] * y];
}

/** Moves every point of a ring or line. */
export function applyToRing(m: Affine, ring: Ring): Ring {
  return ring.map((point) => applyToPoint(m, point));
}

/** Moves a region. */
export function applyToRegion(m: Affine, region: Region): Region {
  return {
    outline: applyToRing(m, region.outline),
    openings: region.openings.map((opening) => applyToRing(m, opening)),
  };
}

/** Factor that areas grow by, a ratio: negative when the map mirrors, 0 when it flattens everything to a line. */
export function determinant(m: Affine): number {
  return m[0] * m[3] - m[1] * m[2];
}

/** Rotation about the origin by degrees, clockwise as seen (x towards y). Quarter turns are exact. */
export function rotation(degrees: number): Affine {
  const [cos, sin] = cosineAndSine(degrees);
  return [cos, sin, -sin, cos, 0, 0];
}

/**
 * The map of a placement: turn over (mirror x) if asked, then rotate about the origin, then translate.
 *
 * @param at translation in mm
 * @param degrees rotation, clockwise as seen
 */
export function placementMap(at: Point, degrees: number, turnedOver: boolean): Affine {
  const [a, b, c, d] = rotation(degrees);
  return turnedOver ? [-a, -b, c, d, at[0], at[1]] : [a, b, c, d, at[0], at[1]];
}
