import { boundsOf } from '../geometry/shapes.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Batch, Demand } from '../model/batch.ts';
import type { LaidBoard, Layout } from '../model/layout.ts';
import { layoutCheck } from '../model/layout-checks.ts';
import { isSamePart } from '../model/same-part.ts';
import type { WoodBound } from '../model/wood-bound.ts';
import { ofOneOutline } from './groups/demands-alike.ts';
import type { Group } from './groups/group.ts';
import { groupSpec } from './groups/group-problem.ts';
import { sharingBoards } from './groups/groups.ts';
import { stackWays } from './groups/stack-ways.ts';
import { batchCheck } from './input-issues.ts';
import { fewest, leastWood, requirementsOf, sizesOf, spareOf } from './problem/lower-bound.ts';

/**
 * A second opinion on a layout: what no layout of the batch can beat, for every group of boards. Nothing is said of wood
 * of which copies found no place.
 *
 * @throws FretlayError for what is no batch or no layout
 */
export function woodBounds(batch: Batch, layout: Layout): WoodBound[] {
  throwOnErrors([...batchCheck('batch', batch), ...layoutCheck('layout', layout)]);
  // What was to be stacked and lies on single boards may share them with other parts.
  const single = new Set(
    sharingBoards(batch).flatMap(({ demands }) => (liesInStacks(demands, layout) ? [] : demands)),
  );
  const demands = batch.demands.map((demand) => (single.has(demand) ? { ...demand, stack: 1 } : demand));
  // Whole boards: what sections can hold, the boards they are cut from can hold too, and need not be parted for it.
  const whole: Batch = { ...batch, demands, reach: undefined };
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
  const spec = groupSpec(batch, single, ofOneOutline(single));
  const requirements = requirementsOf(spec);
  const [byArea, ...others] = requirements;
  const spare = spareOf(spec);
  const roomOfStock = new Map(single.pieces.map(({ board }, k) => [board.id, byArea.rooms[k]]));
  const inUse = taken.map((board) => ({ ...board, wood: woodInUse(board, spec.gap, spare) }));
  const wood = inUse.reduce((sum, board) => sum + board.copies * board.wood, 0);
  const room = inUse.reduce(
    (sum, board) => sum + board.copies * Math.min(board.wood, roomOfStock.get(board.stock)!),
    0,
  );
  const filled = Math.min(1, byArea.need / room);
  const areas = sizesOf(spec).map(({ length, width }) => length * width);
  const least = Math.max(
    ...others.filter(({ isByLength }) => isByLength).map((required) => leastWood(required, areas)),
  );
  return [
    {
      species: single.species.trim(),
      thickness: single.thickness,
      boards: taken.reduce((sum, { copies }) => sum + copies, 0),
      atLeast: Math.max(...requirements.map(fewest)),
      filled,
      savedAtMost: Math.max(0, 1 - Math.max(filled, least / wood)),
    },
  ];
}

/** Wood of a board from its first part to its last, with half a gap beyond either, over its whole width, mm2. */
function woodInUse({ usable, placements }: LaidBoard, gap: number, spare: number): number {
  const ends = placements.map(({ region }) => boundsOf(region.outline));
  const { minY, maxY } = boundsOf(usable.outline);
  const from = Math.min(...ends.map(({ minX }) => minX));
  const to = Math.max(...ends.map(({ maxX }) => maxX));
  return (to - from + gap) * (maxY - minY + spare);
}

function liesInStacks(demands: readonly Demand[], { boards }: Layout): boolean {
  return boards.some(
    ({ copies, placements }) =>
      copies > 1 && placements.some((copy) => demands.some((demand) => isSamePart(copy, demand))),
  );
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
