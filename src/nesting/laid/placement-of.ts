import { applyToPoint, placementMap } from '../../geometry/affine.ts';
import { UNITS_PER_MM } from '../../geometry/integer-grid.ts';
import type { Line, Point } from '../../geometry/shapes.ts';
import type { Demand } from '../../model/batch.ts';
import type { Placement } from '../../model/layout.ts';

/** A copy of a part put where it lies, on the grid that layouts are written on. */

/** Where a copy lies, as a placement says it. */
export type Lying = Pick<Placement, 'x' | 'y' | 'rotation' | 'turnedOver'>;

/** The copy of a part for a set, its true shape where it lies. */
export function placementOf(demand: Demand, { x, y, rotation, turnedOver }: Lying, set: number): Placement {
  const map = placementMap([x, y], rotation, turnedOver);
  const there = (line: Line): Point[] => line.map((point) => roundedPoint(applyToPoint(map, point)));
  return {
    part: demand.part,
    layer: demand.layer,
    set,
    x,
    y,
    rotation,
    turnedOver,
    region: { outline: there(demand.region.outline), openings: demand.region.openings.map(there) },
    veins: demand.veins.map(there),
  };
}

/** A length on the grid that layouts are written on, mm. */
export function rounded(mm: number): number {
  return Math.round(mm * UNITS_PER_MM) / UNITS_PER_MM;
}

/** Angles are written on a grid of 1e-6 degrees: sums of such that were on a coarser one come out short. */
export function roundedAngle(degrees: number): number {
  return Math.round(degrees * 1e6) / 1e6;
}

function roundedPoint(point: Point): Point {
  return [rounded(point[0]), rounded(point[1])];
}
