import { FretlayError } from '../issues/fretlay-error.ts';
import type { Point, Ring } from './shapes.ts';

/**
 * The one integer grid for every call of clipper-lib and polygon-clipping: 1 unit = 0.1 micrometre. On whole
 * numbers both libraries are robust; on raw floats polygon-clipping fails on near-coincident edges.
 */
export const UNITS_PER_MM = 10_000;

/** Most that the distance of two sides of a shape strays when its points are rounded to the grid, mm. */
export const ROUNDING_OF_SIDES = 2 / UNITS_PER_MM;

/**
 * Farthest a coordinate may lie from the origin, mm: 1e9 grid units. clipper-lib 6.4.2 refuses only those above 4.5e15,
 * but above 4.7e7 (4.7 m) it turns to slow products of 128 bits.
 */
export const FARTHEST_MM = 100_000;

/** One coordinate in grid units, a whole number. Throws when it is not a number or out of range. */
export function toGrid(mm: number): number {
  // Written so that NaN fails too.
  if (!(Math.abs(mm) <= FARTHEST_MM)) {
    throw new FretlayError([
      {
        kind: 'coordinate-out-of-range',
        severity: 'error',
        message: 'a coordinate is outside the range the geometry is exact in',
        expected: `a number between -${FARTHEST_MM} and ${FARTHEST_MM} mm`,
        received: `${mm}`,
        remedy: 'Check the scale of the drawing.',
      },
    ]);
  }
  return Math.round(mm * UNITS_PER_MM);
}

/** A grid coordinate in mm. */
export function fromGrid(units: number): number {
  return units / UNITS_PER_MM;
}

/** A ring with its points on the grid, still in mm; points that fall on the one before them are left out. */
export function snapRing(ring: Ring): Ring {
  const snapped: Point[] = [];
  let lastX = Number.NaN;
  let lastY = Number.NaN;
  for (let i = 0; i < ring.length; i++) {
    const x = toGrid(ring[i][0]);
    const y = toGrid(ring[i][1]);
    if (x === lastX && y === lastY) continue;
    snapped.push([fromGrid(x), fromGrid(y)]);
    lastX = x;
    lastY = y;
  }
  while (snapped.length > 1) {
    const [x, y] = snapped[snapped.length - 1];
    if (x !== snapped[0][0] || y !== snapped[0][1]) break;
    snapped.pop();
  }
  return snapped;
}
