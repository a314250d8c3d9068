import { locateInRing, ringArea, signedArea } from '../geometry/ring.ts';
import { boundsOf, boxHolds, type Ring } from '../geometry/shapes.ts';
import { forMeetingPairs } from './meeting-regions.ts';
import { LEAST_AREA, type Solid, TOUCHING_DEPTH } from './solids.ts';

/**
 * Lines inside a filled shape that make no opening in it. Under the fill rule `nonzero`, the usual one, a line is an
 * opening only where it runs the other way round than the line around it (SVG 2, 13.4.2): whoever draws an eye the same
 * way round as the bird sees no eye, and would not know why.
 */

/** Vertices of a line that are tried for whether it lies in another: it may have thousands. */
const TRIED = 12;

/**
 * How many of the lines of one shape lie in others and change nothing, for there is paint on both sides of them.
 *
 * @param rings the filled lines of a shape whose fill rule is `nonzero`, mm
 * @param solids what has become of them
 */
export function linesWithoutOpening(rings: readonly Ring[], solids: readonly Solid[]): number {
  // Most shapes have kept all their lines: those need no look, and may have thousands.
  const kept = solids.reduce((sum, { region }) => sum + 1 + region.openings.length, 0);
  if (kept >= rings.length) return 0;
  const boxes = rings.map(boundsOf);
  const turns = rings.map((ring) => Math.sign(signedArea(ring)));
  // How often the paint around a line winds about it, and whether any line holds it.
  const around = new Array<number>(rings.length).fill(0);
  const isInside = (inner: number, outer: number) =>
    boxHolds(boxes[outer], boxes[inner]) && liesIn(rings[inner], rings[outer]);
  forMeetingPairs(boxes, (i, j) => {
    if (isInside(i, j)) around[i] += turns[j];
    else if (isInside(j, i)) around[j] += turns[i];
  });
  return rings.filter(
    (ring, i) => around[i] !== 0 && around[i] + turns[i] !== 0 && ringArea(ring) > LEAST_AREA,
  ).length;
}

/** True when a line lies wholly inside another, by some of its vertices; one that is drawn twice does not. */
function liesIn(inner: Ring, outer: Ring): boolean {
  const step = Math.max(1, Math.floor(inner.length / TRIED));
  return inner.every((point, i) => i % step !== 0 || locateInRing(point, outer, TOUCHING_DEPTH) === 1);
}
