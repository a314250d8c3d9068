import { combineRegions } from '../geometry/clipper.ts';
import { areCrossingFree } from '../geometry/crossing-free.ts';
import { insideRegion, locateInRing, regionsArea, ringPerimeter } from '../geometry/ring.ts';
import { type Box, boundsOf, boxesMeet, boxHolds, type Region } from '../geometry/shapes.ts';
import { TOUCHING_DEPTH } from './solids.ts';

/** Visits index pairs of boxes that meet, by a sweep along x. Of thousands of shapes one over the other they are millions. */
export function forMeetingPairs(boxes: readonly Box[], visit: (a: number, b: number) => void): void {
  const order = boxes.map((_, i) => i).sort((a, b) => boxes[a].minX - boxes[b].minX);
  const sides = (side: keyof Box) => Float64Array.from(order, (i) => boxes[i][side]);
  const [minX, minY, maxX, maxY] = [sides('minX'), sides('minY'), sides('maxX'), sides('maxY')];
  for (let a = 0; a < order.length; a++) {
    for (let b = a + 1; b < order.length && minX[b] <= maxX[a]; b++) {
      if (minY[b] <= maxY[a] && minY[a] <= maxY[b]) visit(order[a], order[b]);
    }
  }
}

/**
 * True when two regions overlap by more than a touch: a vertex well inside says so at once, else the overlap does.
 *
 * @param isTidy no line of the two crosses or touches another
 */
export function overlap(a: Region, b: Region, isTidy: boolean): boolean {
  // Asked first: the islands in the openings of a large shape would each be clipped against the whole of it.
  const mayBe = isTidy ? insideRegion(a.outline[0], b) || insideRegion(b.outline[0], a) : mayMeet(a, b);
  if (!mayBe) return false;
  return hasVertexInside(a, b) || hasVertexInside(b, a) || overlapDepth(a, b) > TOUCHING_DEPTH;
}

/** False only when two regions are certain to be apart: one far from the other, or in an opening of it. */
export function mayMeet(a: Region, b: Region): boolean {
  if (!boxesMeet(boundsOf(a.outline), boundsOf(b.outline))) return false;
  return !liesInOpening(a, b) && !liesInOpening(b, a);
}

function liesInOpening({ outline }: Region, { openings }: Region): boolean {
  const box = boundsOf(outline);
  return openings.some(
    (opening) =>
      boxHolds(boundsOf(opening), box) &&
      locateInRing(outline[0], opening) === 1 &&
      areCrossingFree([opening, outline]),
  );
}

/** Vertices tried for the quick answer. */
const TRIED_VERTICES = 12;

function hasVertexInside(a: Region, b: Region): boolean {
  const step = Math.max(1, Math.floor(a.outline.length / TRIED_VERTICES));
  return a.outline.some((point, i) => i % step === 0 && insideRegion(point, b, 2 * TOUCHING_DEPTH));
}

/** Mean depth in mm of the overlap of two regions: its area over half its outline. */
function overlapDepth(a: Region, b: Region): number {
  const shared = combineRegions('intersection', [a], [b]);
  const area = regionsArea(shared);
  const length = shared.reduce((sum, region) => sum + ringPerimeter(region.outline), 0);
  return length > 0 ? area / (length / 2) : 0;
}
