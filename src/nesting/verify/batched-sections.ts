import { boundsOf, middleOf } from '../../geometry/shapes.ts';
import type { Batch, SawReach } from '../../model/batch.ts';
import type { LaidBoard } from '../../model/layout.ts';
import { USUAL_CROSSCUT_KERF } from '../../stock/keep-rule.ts';
import { unitName } from '../../stock/units.ts';
import type { Tell } from './as-batched.ts';
import { isPieceOf } from './batched-settings.ts';
import { told } from './places.ts';
import { DISTANCE_TOLERANCE } from './tolerances.ts';

/** Whether what is sawn of a board turns in the saw. */

/** Least length of a section that is cut because of the throat, mm. */
const SHORTEST = 50;

/** Checks that what is sawn of a board turns in the saw, and that the saw has its kerf between two sections. */
export function checkBatchedSections(
  board: LaidBoard,
  batch: Pick<Batch, 'boards' | 'reach' | 'pins' | 'crosscutKerf'>,
  tell: Tell,
): void {
  const { reach, crosscutKerf = USUAL_CROSSCUT_KERF } = batch;
  // What is pinned to a board may need more than the saw has room for.
  const most = isPinnedTo(board, batch) ? undefined : longestSection(board, reach);
  const longest = longestSawn(board);
  if (most !== undefined)
    tell(
      longest <= most + DISTANCE_TOLERANCE,
      { field: 'sections' },
      `each that carries parts at most ${told(most)} mm long`,
      `${told(longest)} mm`,
    );
  const { sections = [] } = board;
  sections.slice(1).forEach(({ from }, k) => {
    const gap = from - sections[k].to;
    tell(
      gap >= crosscutKerf - DISTANCE_TOLERANCE,
      { field: `sections[${k + 1}].from` },
      `a cut of ${told(crosscutKerf)} mm before it`,
      `${told(gap)} mm`,
    );
  });
}

/** Whether a copy is pinned to a board, or to one of its pile: others of the entry are cut as if there were no pins. */
function isPinnedTo(board: LaidBoard, { boards, pins = [] }: Pick<Batch, 'boards' | 'pins'>): boolean {
  const entry = boards.find(({ id }) => id === board.stock);
  return pins.some(
    ({ board: id, number }) =>
      id === entry?.id && isPieceOf(board, unitName(entry, { number, slice: undefined })),
  );
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
  // By their middles: what touches the line between two sections lies in one of them alone.
  const places = placements.map(({ region }) => middleOf(boundsOf(region.outline))[0]);
  const sawn = (sections.length === 0 ? [{ from: minX, to: maxX }] : sections).filter(({ from, to }) =>
    places.some((x) => x >= from && x <= to),
  );
  return Math.max(0, ...sawn.map(({ from, to }) => to - from));
}
