import { boundsOf, type Point } from '../../geometry/shapes.ts';
import type { Issue } from '../../issues/issue.ts';
import type { Layout } from '../../model/layout.ts';
import { isSamePart } from '../../model/same-part.ts';
import { breach, isUpright, type MeasuredPlacement, nameOf, placeOf, told } from './places.ts';
import { type ReferenceRegion, referenceRegion } from './reference-geometry.ts';
import { DISTANCE_TOLERANCE } from './tolerances.ts';

/** How far parts are from one another, from the edge of the board and from its defects. */

/** How far beyond the distance asked for neighbours are measured, mm, so that the least distance can be told. */
const LOOK_AROUND = 2;

/** Least distances found so far, mm, and how many pairs were measured. */
export interface LeastDistances {
  /** Between two placements. */
  distance: number;
  /** From a placement to the edge of the usable board or a defect. */
  edge: number;
  pairs: number;
}

/**
 * Checks that every two placements of a board keep the distance of the layout, and notes the least one. Those in different
 * sections are sawn apart before either is sawn out: each keeps its distance to the cut, and that is all.
 */
export function checkDistances(
  layout: Layout,
  pieces: readonly MeasuredPlacement[],
  least: LeastDistances,
  breaches: Issue[],
): void {
  const gap = layout.kerf + layout.clearance;
  for (const [a, b] of closePairs(pieces, Math.max(0, gap) + LOOK_AROUND)) {
    if (areSawnApart(a, b)) continue;
    const { distance, at } = distanceBetween(a.region, b.region);
    least.pairs++;
    least.distance = Math.min(least.distance, distance);
    if (distance >= gap - DISTANCE_TOLERANCE) continue;
    breaches.push(
      breach(
        'parts-too-close',
        `too close to ${nameOf(b.placement)}`,
        { ...placeOf(a), at },
        {
          expected: `at least ${told(gap)} mm`,
          received: `${distance.toFixed(4)} mm`,
        },
      ),
    );
  }
}

/** True when a cross-cut between two sections has room between two parts of a board. */
function areSawnApart({ board, region: a }: MeasuredPlacement, { region: b }: MeasuredPlacement): boolean {
  const [left, right] = a.box[0] <= b.box[0] ? [a, b] : [b, a];
  return (board.sections ?? []).some(
    ({ from }, i, sections) =>
      i > 0 &&
      left.box[2] <= sections[i - 1].to + DISTANCE_TOLERANCE &&
      right.box[0] >= from - DISTANCE_TOLERANCE,
  );
}

/** Pairs whose boxes come within `reach` mm of each other, by a sweep along x. */
function* closePairs(
  pieces: readonly MeasuredPlacement[],
  reach: number,
): Generator<[MeasuredPlacement, MeasuredPlacement]> {
  const sorted = [...pieces].sort((a, b) => a.region.box[0] - b.region.box[0]);
  for (let i = 0; i < sorted.length; i++) {
    const [, minY, maxX, maxY] = sorted[i].region.box;
    for (let j = i + 1; j < sorted.length && sorted[j].region.box[0] <= maxX + reach; j++) {
      const other = sorted[j].region.box;
      if (other[1] <= maxY + reach && minY <= other[3] + reach) yield [sorted[i], sorted[j]];
    }
  }
}

/** Distance of two solids in mm; when they overlap, minus the depth of the overlap. */
export function distanceBetween(a: ReferenceRegion, b: ReferenceRegion): { distance: number; at: Point } {
  const nearest = a.boundaryDistance(b);
  if (!a.holdsVertexOf(b) && !b.holdsVertexOf(a) && nearest.distance > 0) return nearest;
  return { distance: -a.sharedDepth(b), at: nearest.at };
}

/** What a part may lie in: the usable board, without its margin along level edges for parts that stand there. */
function roomOf(
  layout: Layout,
  { board, placement }: MeasuredPlacement,
  usable: ReferenceRegion,
): ReferenceRegion {
  const content = layout.setContents.find((each) => isSamePart(each, placement));
  if (content?.restEdge !== true || layout.edgeMargin === 0) return usable;
  const { outline, openings } = board.usable;
  const { minY, maxY } = boundsOf(outline);
  const isOnTop = !isUpright(placement);
  const isLevel = (i: number) => {
    const [, y] = outline[(i + outline.length) % outline.length];
    return isOnTop ? y <= minY + DISTANCE_TOLERANCE : y >= maxY - DISTANCE_TOLERANCE;
  };
  // The margin is added beyond the level edges: a slanting one beside them stays where it is.
  const moved = outline.flatMap(([x, y], i): Point[] => {
    const beyond: Point = [x, isOnTop ? y - layout.edgeMargin : y + layout.edgeMargin];
    if (isLevel(i) && isLevel(i - 1)) return isLevel(i + 1) ? [beyond] : [beyond, [x, y]];
    return isLevel(i) && isLevel(i + 1) ? [[x, y], beyond] : [[x, y]];
  });
  return referenceRegion({ outline: moved, openings });
}

/** Checks that a placement lies in the usable board by the edge margin; its distance to the edge in mm, negative outside. */
export function checkInside(
  layout: Layout,
  measured: MeasuredPlacement,
  usable: ReferenceRegion,
  breaches: Issue[],
): number {
  const { region } = measured;
  const room = roomOf(layout, measured, usable);
  const nearest = room.boundaryDistance(region);
  // Boundaries apart, the outline inside, and no defect swallowed by the part: only then it is inside.
  const isInside = nearest.distance > 0 && room.holdsOutlineOf(region) && !region.holdsVertexOf(room);
  const sticksOut = isInside ? 0 : region.depthOutside(room);
  const distance = sticksOut === 0 ? nearest.distance : -sticksOut;
  if (!(distance >= layout.edgeMargin - DISTANCE_TOLERANCE)) {
    breaches.push(
      breach(
        'outside-usable-board',
        'a part comes too near the edge of the usable board or a defect, or lies outside',
        { ...placeOf(measured), at: nearest.at },
        { expected: `at least ${told(layout.edgeMargin)} mm`, received: `${distance.toFixed(4)} mm` },
      ),
    );
  }
  return distance;
}
