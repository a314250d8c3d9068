import { anyInTheWay } from '../../geometry/any-in-the-way.ts';
import { distanceToSegment } from '../../geometry/ring.ts';
import {
  type Box,
  boundsOf,
  boxesMeet,
  boxRing,
  grownBox,
  type Line,
  type Point,
} from '../../geometry/shapes.ts';
import type { BoxedPart } from './boxed-part.ts';
import type { FreeSpace } from './free-space.ts';
import { crossesLine, nearestIn, stretchIn } from './straight-way.ts';

/** What stands on a board already, and whether a label and its leader keep clear of it. */

/** Free space around a label, mm. */
export const CLEARANCE = 0.7;

/** Leaders that run closer side by side than this could be taken for one, mm. */
const BETWEEN_LEADERS = 0.8;

/** What a label beside its part has to heed. */
export interface Surroundings {
  readonly waste: FreeSpace;
  readonly parts: readonly BoxedPart[];
  /** Boxes of all texts so far: those in parts too, for no leader is to run through one. */
  readonly texts: Box[];
  /** Leaders drawn so far, each a straight way with the box around it. */
  readonly leaders: Leader[];
}

interface Leader {
  readonly way: Line;
  readonly box: Box;
}

/** The texts and leaders that may bar a label which lies, with its leader, in a box. */
export function surroundingsIn(window: Box, { texts, leaders, ...rest }: Surroundings): Surroundings {
  return {
    ...rest,
    texts: texts.filter((other) => boxesMeet(other, window, CLEARANCE)),
    leaders: leaders.filter(({ box }) => boxesMeet(box, window, CLEARANCE + BETWEEN_LEADERS)),
  };
}

/**
 * True when neither a label stands on another text or a leader, nor its leader runs through a text or a leader.
 *
 * @param overTexts true when its leader may run through texts, though through no other leader
 */
export function isApart(
  box: Box,
  anchor: Point,
  { texts, leaders }: Surroundings,
  overTexts = false,
): boolean {
  const end = nearestIn(anchor, box);
  const way = boundsOf([anchor, end]);
  const grown = grownBox(box, CLEARANCE);
  const around = boundsOf([anchor, ...boxRing(grown)]);
  return (
    !anyInTheWay(
      texts,
      (other) =>
        boxesMeet(other, grown) ||
        (!overTexts && boxesMeet(other, way) && stretchIn(anchor, end, other) !== undefined),
    ) &&
    !anyInTheWay(
      leaders,
      // The boxes first: most leaders are far from here, and there may be hundreds.
      ({ way: other, box: far }) =>
        boxesMeet(far, around, BETWEEN_LEADERS) &&
        (stretchIn(other[0], other[1], grown) !== undefined ||
          crossesLine(anchor, end, other, false) ||
          ENDS.some((i) => distanceToLine([anchor, end][i], other) < BETWEEN_LEADERS) ||
          ENDS.some((i) => distanceToLine(other[i], [anchor, end]) < BETWEEN_LEADERS)),
    )
  );
}

/** Which end of a straight way. Two ways that do not cross are nearest to each other at an end of one of them. */
const ENDS = [0, 1] as const;

/** Distance from a point to a straight way, mm. */
function distanceToLine([x, y]: Point, [[ax, ay], [bx, by]]: Line): number {
  return distanceToSegment(x, y, ax, ay, bx, by);
}

/** The parts that a leader runs over; its own is one of them. */
export function partsUnder(anchor: Point, end: Point, { parts }: Surroundings): Surroundings['parts'] {
  const way = boundsOf([anchor, end]);
  return parts.filter(
    ({ box, placement }) => boxesMeet(box, way) && crossesLine(anchor, end, placement.region.outline, true),
  );
}
