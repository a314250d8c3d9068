import { UNITS_PER_MM } from './integer-grid.ts';
import { SegmentGrid } from './segment-grid.ts';
import type { Point, Region, Ring } from './shapes.ts';

/** Points nearer to an edge than this, mm, touch it: two units of the integer grid, as far as rounding moves them across it. */
const TOUCHING = 2 / UNITS_PER_MM;

/** Corners of the rings of a region at which an opening touches the outline or another opening. */
export function touchingPoints({ outline, openings }: Region): Point[] {
  if (openings.length === 0) return [];
  const rings = [outline, ...openings];
  const grid = new SegmentGrid(rings, TOUCHING);
  return rings.flatMap((ring, number) => cornersOnOthers(ring, number, grid));
}

/** Corners of a ring on other rings of a grid, in which it has a number. */
export function cornersOnOthers(ring: Ring, number: number, grid: SegmentGrid): Point[] {
  return ring.filter(([x, y]) => grid.nearest(x, y, TOUCHING, number));
}
