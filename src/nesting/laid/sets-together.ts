import { regionArea } from '../../geometry/ring.ts';
import type { Batch } from '../../model/batch.ts';
import type { LaidBoard, Placement, Unplaced } from '../../model/layout.ts';
import { isSamePart } from '../../model/same-part.ts';
import { unitName } from '../../stock/units.ts';
import { boardNameOf, type Group, type StockPiece } from '../groups/group.ts';
import { groupSpec } from '../groups/group-problem.ts';
import { isLaidAsPinned } from '../groups/pinned.ts';
import { onFirstPieces } from './first-pieces.ts';
import type { LaidGroup } from './laid-group.ts';

/**
 * Sets that stay on one board: board by board, those that give most wood for their cost first, as many whole sets
 * are laid as fit; copies of a set that is not whole are taken off again.
 */

/** Lays a group out on the pieces it is given, with a share of the effort. */
export type LayGroup = (group: Group, share: number) => Promise<LaidGroup>;

/** See the top of the file. */
export async function laySetsTogether(batch: Batch, group: Group, lay: LayGroup): Promise<LaidGroup> {
  const boards: LaidBoard[] = [];
  let done = 0;
  const inOrder = boardsByCost(batch, group);
  for (const [i, pieces] of inOrder.entries()) {
    if (done >= group.sets) break;
    // A board with pinned copies needs the sets they are part of, however many the boards before it could hold.
    const later = inOrder.slice(i + 1).reduce((sum, each) => sum + setsPinned(group, each), 0);
    const sets = Math.min(group.sets - done - later, mostByArea(group, pieces));
    if (sets <= 0) continue;
    const firstSet = group.firstSet + done * group.stack;
    const found = await lay({ ...group, pieces, sets, firstSet }, sets / group.sets);
    const whole = wholeSets(group, found);
    const next = firstSet + whole * group.stack;
    boards.push(...found.boards.map((board) => withoutSetsFrom(board, next)).filter(carriesSomething));
    done += whole;
  }
  // Each board was laid out by itself: only now it is known which of those alike carry nothing.
  const taken = onFirstPieces(group.pieces, boards);
  return { boards: taken, unplaced: await unplacedFrom(group, { boards: taken, done }, lay) };
}

/** The pieces of the group by the board they come from, boards of least cost for their area first. */
function boardsByCost(batch: Batch, group: Group): StockPiece[][] {
  const { containers } = groupSpec(batch, group);
  const boards = new Map<string, { pieces: StockPiece[]; cost: number; area: number }>();
  group.pieces.forEach((piece, k) => {
    const name = boardNameOf(piece);
    const board = boards.get(name) ?? { pieces: [], cost: 0, area: 0 };
    boards.set(name, {
      pieces: [...board.pieces, piece],
      cost: containers[k].cost,
      area: board.area + containers[k].area,
    });
  });
  return [...boards.values()].sort((a, b) => a.cost / a.area - b.cost / b.area).map(({ pieces }) => pieces);
}

/** Sets of which copies are pinned to a board. */
function setsPinned({ demands }: Group, pieces: readonly StockPiece[]): number {
  const copies = pieces.flatMap(({ pinned }) => pinned);
  const sets = demands.map((demand) => {
    const own = copies.filter((copy) => copy.demand === demand).length;
    return Math.ceil(own / demand.copiesPerSet);
  });
  return Math.max(0, ...sets);
}

/** No more sets lie on a board than its area holds. */
function mostByArea({ demands }: Group, pieces: readonly StockPiece[]): number {
  const set = demands.reduce((sum, { region, copiesPerSet }) => sum + copiesPerSet * regionArea(region), 0);
  const room = pieces.reduce((sum, { usable }) => sum + regionArea(usable), 0);
  return Math.floor(room / set);
}

/** Whole sets of a layout: copies are numbered from the left, so the first ones are whole. */
function wholeSets({ demands }: Group, { boards }: LaidGroup): number {
  const placements = boards.flatMap((board) => board.placements);
  const counts = demands.map((demand) => {
    const copies = placements.filter((placement) => isSamePart(placement, demand));
    return Math.floor(copies.length / demand.copiesPerSet);
  });
  return Math.min(...counts);
}

function withoutSetsFrom(board: LaidBoard, set: number): LaidBoard {
  return { ...board, placements: board.placements.filter((placement: Placement) => placement.set < set) };
}

function carriesSomething({ placements }: LaidBoard): boolean {
  return placements.length > 0;
}

/** Boards with whole sets on them, and how many those are. */
interface LaidSets {
  readonly boards: readonly LaidBoard[];
  readonly done: number;
}

/** What a layout without boards says of the sets that found no place. */
async function unplacedFrom(
  group: Group,
  { boards, done }: LaidSets,
  lay: LayGroup,
): Promise<readonly Unplaced[]> {
  if (done >= group.sets) return [];
  const firstSet = group.firstSet + done * group.stack;
  const { unplaced } = await lay({ ...group, pieces: [], sets: group.sets - done, firstSet }, 0);
  const why = `no board has room left for a whole set${pinsLeftOut(group, boards)}`;
  return unplaced.map((copy) => ({ ...copy, why: group.pieces.length === 0 ? copy.why : why }));
}

/** Names pinned copies that were taken off again: that they may lie where they are pinned had been looked at before. */
function pinsLeftOut({ pieces }: Group, boards: readonly LaidBoard[]): string {
  const lost = pieces.flatMap(({ board, pinned }) =>
    pinned
      .filter(({ pin }) => !isLaidAsPinned(pin, boards))
      .map(({ pin }) => `"${pin.part}" on ${unitName(board, { number: pin.number, slice: undefined })}`),
  );
  return lost.length === 0 ? '' : `, nor around what is pinned: ${lost.join(', ')}`;
}
