import { boundsOf } from '../../geometry/shapes.ts';
import { type Check, listOf, number, optional, record, words } from '../../issues/checks.ts';
import type { Issue } from '../../issues/issue.ts';
import { LENGTH, SOME_LENGTH } from '../../issues/number-issue.ts';
import type { Batch, SawReach } from '../../model/batch.ts';
import type { LaidBoard, Layout } from '../../model/layout.ts';
import { USUAL_CROSSCUT_KERF } from '../../stock/keep-rule.ts';
import { breach, told } from './places.ts';
import { DISTANCE_TOLERANCE } from './tolerances.ts';

/** Whether a layout is what its batch asks for: one that contradicts itself nowhere may still be for another saw. */

const size = number(SOME_LENGTH);

/** A batch so far as a layout is checked by it. */
export const batchForm: Check = record(
  {
    boards: listOf(record({ id: words() })),
    kerf: number(LENGTH),
    pins: optional(listOf(record({ board: words() }))),
    keep: optional(record({ length: size, width: size })),
    crosscutKerf: optional(number(LENGTH)),
    reach: optional(record({ throat: optional(size), longest: optional(size) })),
  },
  'Hand in the batch that was laid out, with the boards bought for it.',
);

/** Least length of a section that is cut because of the throat, mm. */
const SHORTEST = 50;

/** Checks that what is sawn of a board turns in the saw, and that the saw has its kerf between two sections. */
export function checkAsBatched({ boards }: Layout, batch: Batch, breaches: Issue[]): void {
  const { reach, pins = [], crosscutKerf = USUAL_CROSSCUT_KERF } = batch;
  boards.forEach((board, i) => {
    const refuse = (field: string, expected: string, mm: number) =>
      breaches.push(
        breach(
          'not-as-batched',
          'the layout is not what its batch asks for',
          { board: board.id, field: `boards[${i}].${field}` },
          { expected, received: `${told(mm)} mm` },
        ),
      );
    // What is pinned to a board may need more than the saw has room for.
    const most = pins.some((pin) => pin.board === board.stock) ? undefined : longestSection(board, reach);
    const longest = longestSawn(board);
    if (most !== undefined && !(longest <= most + DISTANCE_TOLERANCE))
      refuse('sections', `each that carries parts at most ${told(most)} mm long`, longest);
    const { sections = [] } = board;
    sections.slice(1).forEach(({ from }, k) => {
      const gap = from - sections[k].to;
      if (!(gap >= crosscutKerf - DISTANCE_TOLERANCE))
        refuse(`sections[${k + 1}].from`, `a cut of ${told(crosscutKerf)} mm before it`, gap);
    });
  });
}

/**
 * Greatest length of a section, mm: one that turns round any of its points has a diagonal of the throat at most. On a board too
 * wide for that it is as long as the throat.
 */
function longestSection({ usable }: LaidBoard, reach: SawReach | undefined): number | undefined {
  if (reach === undefined) return undefined;
  const { throat = Number.POSITIVE_INFINITY, longest = Number.POSITIVE_INFINITY } = reach;
  const { minY, maxY } = boundsOf(usable.outline);
  const turning = Math.sqrt(Math.max(0, throat ** 2 - (maxY - minY) ** 2));
  return Math.min(longest, turning >= SHORTEST ? turning : throat);
}

/** Length of the longest section that carries parts, or of the whole board, mm: a rest that carries nothing is not turned. */
function longestSawn({ usable, placements, sections = [] }: LaidBoard): number {
  const { minX, maxX } = boundsOf(usable.outline);
  const places = placements.map(({ region }) => region.outline[0][0]);
  const sawn = (sections.length === 0 ? [{ from: minX, to: maxX }] : sections).filter(({ from, to }) =>
    places.some((x) => x >= from && x <= to),
  );
  return Math.max(0, ...sawn.map(({ from, to }) => to - from));
}
