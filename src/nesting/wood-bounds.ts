import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Batch } from '../model/batch.ts';
import type { Layout } from '../model/layout.ts';
import { layoutCheck } from '../model/layout-checks.ts';
import { isSamePart } from '../model/same-part.ts';
import type { WoodBound } from '../model/wood-bound.ts';
import type { Group } from './groups/group.ts';
import { groupSpec } from './groups/group-problem.ts';
import { stackWays } from './groups/stack-ways.ts';
import { batchCheck } from './input-issues.ts';
import { areaNeeded, fewest, roomsOf } from './problem/lower-bound.ts';

/**
 * A second opinion on a layout: what no layout of the batch can beat, by area, for every group of boards. Nothing is
 * said of wood of which copies found no place.
 *
 * @throws FretlayError for what is no batch or no layout
 */
export function woodBounds(batch: Batch, layout: Layout): WoodBound[] {
  throwOnErrors([...batchCheck('batch', batch), ...layoutCheck('layout', layout)]);
  // Whole boards: what sections can hold, the boards they are cut from can hold too, and need not be parted for it.
  const whole: Batch = { ...batch, reach: undefined };
  return stackWays(whole).flatMap(({ ways, further }) => {
    // Boards one by one: what stacks of any height can hold, so many single boards can.
    const singles = [...ways, ...further].filter(([main]) => main.stack === 1).map(([main]) => main);
    // The least of the stock that holds all boards taken: wood that was not gone on to sets no bound.
    const single = singles.find((group) => holdsBoards(group, layout));
    return single === undefined ? [] : boundOf(whole, single, layout);
  });
}

function boundOf(batch: Batch, single: Group, { boards, unplaced }: Layout): WoodBound[] {
  const taken = boards.filter(({ placements }) => placements.some((placement) => isOf(single, placement)));
  if (taken.length === 0 || unplaced.some((copy) => isOf(single, copy))) return [];
  const spec = groupSpec(batch, single);
  const need = areaNeeded(spec);
  const rooms = roomsOf(spec);
  const roomOfStock = new Map(single.pieces.map(({ board }, k) => [board.id, rooms[k]]));
  const used = taken.reduce((sum, { stock, copies }) => sum + copies * roomOfStock.get(stock)!, 0);
  const filled = Math.min(1, need / used);
  return [
    {
      species: single.species.trim(),
      thickness: single.thickness,
      boards: taken.reduce((sum, { copies }) => sum + copies, 0),
      atLeast: fewest(rooms, need),
      filled,
      savedAtMost: 1 - filled,
    },
  ];
}

function holdsBoards(group: Group, { boards }: Layout): boolean {
  const ids = new Set(group.pieces.map(({ board }) => board.id));
  return boards
    .filter(({ placements }) => placements.some((placement) => isOf(group, placement)))
    .every(({ stock }) => ids.has(stock));
}

function isOf({ demands }: Group, copy: { readonly part: string; readonly layer: string }): boolean {
  return demands.some((demand) => isSamePart(copy, demand));
}
