import type { Batch } from '../model/batch.ts';
import type { LaidBoard, Layout } from '../model/layout.ts';
import { isSamePart } from '../model/same-part.ts';
import type { WoodBound } from '../model/wood-bound.ts';
import { unitName } from '../stock/units.ts';
import { groupSpec } from './group-problem.ts';
import { type Group, groupDemands } from './groups.ts';
import { areaNeeded, fewest, roomsOf } from './lower-bound.ts';

/**
 * A second opinion on a layout: what no layout of the batch can beat, by area, for every group of boards. Nothing is
 * said of wood of which copies found no place.
 */
export function woodBounds(batch: Batch, layout: Layout): WoodBound[] {
  return groupDemands(batch).flatMap((group) => boundOf(batch, group, layout));
}

function boundOf(batch: Batch, group: Group, { boards, unplaced }: Layout): WoodBound[] {
  const taken = boardsOf(group, boards);
  const isShort = unplaced.some((copy) => group.demands.some((demand) => isSamePart(copy, demand)));
  if (taken.length === 0 || isShort) return [];
  const spec = groupSpec(batch, group);
  const need = areaNeeded(spec);
  // The sections of a board make one room.
  const rooms = new Map<string, number>();
  const roomOfStock = new Map<string, number>();
  roomsOf(spec).forEach((room, k) => {
    const { board, units } = group.pieces[k];
    const name = unitName(board, units[0]);
    rooms.set(name, (rooms.get(name) ?? 0) + room);
    roomOfStock.set(board.id, rooms.get(name)!);
  });
  const used = taken.reduce((sum, { stock }) => sum + roomOfStock.get(stock)!, 0);
  const filled = Math.min(1, need / used);
  return [
    {
      species: group.species.trim(),
      thickness: group.thickness,
      boards: taken.reduce((sum, { copies }) => sum + copies, 0),
      atLeast: fewest([...rooms.values()], need) * group.stack,
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
