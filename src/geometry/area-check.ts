import polygonClipping, { type MultiPolygon, type Ring as PairRing } from 'polygon-clipping';
import { fromGrid, toGrid } from './integer-grid.ts';
import { ringArea } from './ring.ts';
import type { Region, Ring } from './shapes.ts';

/**
 * The only door to polygon-clipping (Martinez, Rueda, Feito 2009): a second, independent engine for boolean
 * operations, used where a figure must not rest on one library alone: the area that regions cover together.
 */

/** Area in mm2 that regions cover together, overlaps counted once, and by how many mm2 their sum exceeds it. */
export function coveredArea(regions: readonly Region[]): { readonly area: number; readonly overlap: number } {
  if (regions.length === 0) return { area: 0, overlap: 0 };
  const polygons: MultiPolygon = regions.map((region) =>
    [region.outline, ...region.openings].map(closedGridRing),
  );
  // On the grid: on raw floats the library throws on edges that nearly meet.
  const united = polygonClipping.union([polygons[0]], ...polygons.slice(1).map((polygon) => [polygon]));
  const area = multiPolygonArea(united);
  const sum = multiPolygonArea(polygons);
  // Rounding may make the whole larger than its parts by a hair.
  return { area, overlap: Math.max(0, sum - area) };
}

function closedGridRing(ring: Ring): PairRing {
  const closed: PairRing = ring.map(([x, y]) => [toGrid(x), toGrid(y)]);
  if (closed.length > 0) closed.push(closed[0]);
  return closed;
}

function multiPolygonArea(polygons: MultiPolygon): number {
  let area = 0;
  for (const [outline, ...openings] of polygons) {
    area += gridRingArea(outline);
    for (const opening of openings) area -= gridRingArea(opening);
  }
  return area;
}

function gridRingArea(ring: PairRing): number {
  return ringArea(ring.slice(0, -1).map(([x, y]) => [fromGrid(x), fromGrid(y)] as const));
}
