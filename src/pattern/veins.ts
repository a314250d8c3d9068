import { clipLines } from '../geometry/clipper.ts';
import { lineLength } from '../geometry/ring.ts';
import { boundsOf, boxesMeet, type Line, type Region } from '../geometry/shapes.ts';

/** Pieces of a vein shorter than this, mm, are crumbs of clipping at an edge. */
const SHORTEST_VEIN = 0.1;

/** The pieces of an open line that lie in each region, and how much of its length lies in none, mm. */
export function veinPieces(
  line: Line,
  regions: readonly Region[],
): { pieces: Map<Region, Line[]>; outside: number } {
  const box = boundsOf(line);
  const pieces = new Map<Region, Line[]>();
  let inside = 0;
  for (const region of regions) {
    // Most veins lie in one part of many: clipping against the others would find nothing, slowly.
    if (!boxesMeet(box, boundsOf(region.outline))) continue;
    const found = clipLines([line], [region]).filter((piece) => lineLength(piece) >= SHORTEST_VEIN);
    if (found.length > 0) pieces.set(region, found);
    inside += found.reduce((sum, piece) => sum + lineLength(piece), 0);
  }
  // Parts that overlap would both claim a piece, so the rest may come out below 0.
  return { pieces, outside: Math.max(0, lineLength(line) - inside) };
}
