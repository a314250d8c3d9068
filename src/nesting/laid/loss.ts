import { regionArea } from '../../geometry/ring.ts';
import { boundsOf } from '../../geometry/shapes.ts';
import type { LaidBoard } from '../../model/layout.ts';
import { type PartName, partKey } from '../../model/same-part.ts';
import { boardNameOf, type Group, isFilledFirst } from '../groups/group.ts';
import { arePriced, wholeCost } from '../groups/group-problem.ts';
import type { Loss } from '../problem/compare-losses.ts';
import type { LaidGroup } from './laid-group.ts';

/**
 * What a layout of a group leaves out, costs, and takes up of its boards: the terms of the engine's score, for boards as
 * they will be cut. In order: sets that lack a copy; area of the copies left out, mm2; cost of the fresh boards; area cut
 * from those, mm2; cost of all boards; largest clear piece, mm2 and negative; length taken of the boards, mm.
 *
 * @param priced whether boards cost their price, or else their area
 */
export function lossOf(
  group: Group,
  { boards, unplaced }: LaidGroup,
  priced: boolean = arePriced(group.pieces),
): Loss {
  const kinds = new Map(group.pieces.map((piece) => [boardNameOf(piece), piece.kind]));
  const areas = new Map(group.demands.map((demand) => [partKey(demand), regionArea(demand.region)]));
  const areaOf = (copies: readonly PartName[]) =>
    copies.reduce((sum, copy) => sum + (areas.get(partKey(copy)) ?? 0), 0);
  const costOf = (taken: readonly LaidBoard[]) =>
    taken.reduce((sum, { id, copies }) => {
      const kind = kinds.get(id);
      return kind === undefined ? sum : sum + copies * wholeCost(kind, priced);
    }, 0);
  const fresh = boards.filter(({ id }) => {
    const kind = kinds.get(id);
    return kind === undefined || !isFilledFirst(kind, group.stock);
  });
  return [
    incompleteSets(unplaced),
    areaOf(unplaced),
    costOf(fresh),
    fresh.reduce((sum, { copies, placements }) => sum + copies * areaOf(placements), 0),
    costOf(boards),
    // One big keeper is worth more than several that are larger together.
    -Math.max(0, ...boards.map(largestClear)),
    boards.reduce((sum, board) => sum + board.copies * lengthTaken(board), 0),
  ];
}

/** What layouts of several groups leave out together: the number of sets that lack a copy, and that of the copies. */
export function leftOut(laid: readonly LaidGroup[]): Loss {
  const unplaced = laid.flatMap((group) => group.unplaced);
  return [incompleteSets(unplaced), unplaced.length];
}

function incompleteSets(unplaced: LaidGroup['unplaced']): number {
  return new Set(unplaced.map(({ set }) => set)).size;
}

/** Largest piece of a board that one cross-cut parts off clear of copies, from the box around it, mm2. */
function largestClear({ sections, placements, usable }: LaidBoard): number {
  const { minX, maxX, minY, maxY } = boundsOf(usable.outline);
  const boxes = placements.map(({ region }) => boundsOf(region.outline));
  const cells = sections === undefined || sections.length === 0 ? [{ from: minX, to: maxX }] : sections;
  const clear = cells.map(({ from, to }) => {
    const ends = boxes.filter((box) => box.minX < to && box.maxX > from).map((box) => box.maxX);
    return to - Math.max(from, ...ends);
  });
  return Math.max(...clear) * (maxY - minY);
}

/** Length of the sections of a board that carry something, or of the whole board, mm. */
function lengthTaken({ sections, placements, usable }: LaidBoard): number {
  const { minX, maxX } = boundsOf(usable.outline);
  const boxes = placements.map(({ region }) => boundsOf(region.outline));
  const carrying = (sections ?? []).filter(({ from, to }) =>
    boxes.some((box) => box.minX < to && box.maxX > from),
  );
  return carrying.length === 0 ? maxX - minX : carrying.reduce((sum, { from, to }) => sum + to - from, 0);
}
