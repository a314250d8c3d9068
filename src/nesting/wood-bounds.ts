import type { Batch } from '../model/batch.ts';
import type { LaidBoard, Layout } from '../model/layout.ts';
import { isSamePart } from '../model/same-part.ts';
import type { WoodBound } from '../model/wood-bound.ts';
import { groupSpec } from './group-problem.ts';
import { type Group, groupDemands } from './groups.ts';
import { areaNeeded, fewest, roomsOf } from './lower-bound.ts';

/**
 * A second opinion on a layout: what no layout of the batch can beat, by area, for every group of boards. Nothing is
 * said of wood of which copies found no place.
 */
export function woodBounds(batch: Batch, layout: Layout): WoodBound[] {
  // Whole boards: what sections can hold, the boards they are cut from can hold too, and need not be parted for it.
  const whole: Batch = { ...batch, reach: undefined };
  return groupDemands(whole).flatMap((group) => boundOf(whole, group, layout));
}

function boundOf(batch: Batch, group: Group, { boards, unplaced }: Layout): WoodBound[] {
  const taken = boardsOf(group, boards);
  const isShort = unplaced.some((copy) => group.demands.some((demand) => isSamePart(copy, demand)));
  if (taken.length === 0 || isShort) return [];
  const spec = groupSpec(batch, group);
  const need = areaNeeded(spec);
  const rooms = roomsOf(spec);
  const roomOfStock = new Map(group.pieces.map(({ board }, k) => [board.id, rooms[k]]));
  const used = taken.reduce((sum, { stock }) => sum + roomOfStock.get(stock)!, 0);
  const filled = Math.min(1, need / used);
  return [
    {
      species: group.species.trim(),
      thickness: group.thickness,
      boards: taken.reduce((sum, { copies }) => sum + copies, 0),
      atLeast: fewest(rooms, need) * group.stack,
      filled,
      savedAtMost: 1 - filled,
    },
  ];
}

/** Boards that carry copies of the group, in stacks of its height. */
function boardsOf({ demands, stack }: Group, boards: readonly LaidBoard[]): LaidBoard[] {
  return boards.filter(
    ({ copies, placements }) =>
      copies === stack &&
      placements.some((placement) => demands.some((demand) => isSamePart(placement, demand))),
  );
}
