import { FretlayError } from '../issues/fretlay-error.ts';
import type { Point } from './shapes.ts';

/**
 * The one integer grid for every call of clipper-lib and polygon-clipping: 1 unit = 0.1 micrometre. On whole
 * numbers both libraries are robust; on raw floats polygon-clipping fails on near-coincident edges.
 */
export const UNITS_PER_MM = 10_000;

/** Farthest a coordinate may lie from the origin, mm: keeps clipper-lib's products within its exact range. */
export const FARTHEST_MM = 100_000;

/** One coordinate in grid units, a whole number. Throws when it is not a number or out of range. */
export function toGrid(mm: number): number {
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

/** The grid point nearest to a point, still in mm. */
export function snapToGrid([x, y]: Point): Point {
  return [fromGrid(toGrid(x)), fromGrid(toGrid(y))];
}
