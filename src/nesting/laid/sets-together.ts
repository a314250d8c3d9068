import { regionArea } from '../../geometry/ring.ts';
import type { Batch } from '../../model/batch.ts';
import { carriesParts } from '../../model/carries-parts.ts';
import type { LaidBoard, Placement, Unplaced } from '../../model/layout.ts';
import { isSamePart } from '../../model/same-part.ts';
import { unitName } from '../../stock/units.ts';
import { boardNameOf, type Group, isFilledFirst, type StockPiece } from '../groups/group.ts';
import { containersOf } from '../groups/group-problem.ts';
import { isLaidAsPinned } from '../groups/pinned.ts';
import { boardsForSets } from '../problem/boards-for-sets.ts';
import { shortEdge } from './edge-for-sets.ts';
import { onFirstPieces } from './first-pieces.ts';
import type { LaidGroup } from './laid-group.ts';
import { NO_WHOLE_SET, STANDING, STANDING_ON_EITHER } from './laid-issues.ts';

/**
 * Sets that stay on one board. One board of every kind is laid out with as many whole sets as it holds; then the boards
 * that hold all sets for the least cost are taken, and what lies on one of a kind lies on the others too. Copies of a set
 * that is not whole are taken off again.
 */

/** Lays a group out on the pieces it is given, with a share of the effort. */
export type LayGroup = (group: Group, share: number) => Promise<LaidGroup>;

/** See the top of the file. */
export async function laySetsTogether(batch: Batch, group: Group, lay: LayGroup): Promise<LaidGroup> {
  const boards = boardsByCost(batch, group);
  // What is pinned to is sawn anyway.
  const begun = await filledBegun(
    group,
    boards.filter(({ pieces }) => isPinnedTo(pieces)),
    lay,
  );
  const fresh = boards.filter(({ pieces }) => !isPinnedTo(pieces));
  const filled = [...begun, ...(await filledFresh(group, fresh, setsOn(begun), lay))];
  // Each board was laid out by itself: only now it is known which of those alike carry nothing.
  const taken = onFirstPieces(group.pieces, boardsOf(filled));
  return {
    boards: taken,
    unplaced: await unplacedFrom(batch, group, { boards: taken, done: setsOn(filled) }, lay),
  };
}

/** A board of the stock, whole or in its sections. */
interface OneBoard {
  readonly pieces: readonly StockPiece[];
  /** What taking it counts. */
  readonly cost: number;
}

/** Boards that nothing is pinned to and that look alike, with what one of them holds. */
interface BoardsAlike {
  readonly boards: readonly OneBoard[];
  readonly laid: readonly LaidBoard[];
  readonly sets: number;
}

/** What lies on a board, and how many whole sets those are. */
interface FilledBoard {
  readonly boards: readonly LaidBoard[];
  readonly sets: number;
}

function setsOn(filled: readonly FilledBoard[]): number {
  return filled.reduce((sum, { sets }) => sum + sets, 0);
}

function boardsOf(filled: readonly FilledBoard[]): LaidBoard[] {
  return filled.flatMap(({ boards }) => boards);
}

/** Boards with pinned copies, each with as many of the sets as it holds. */
async function filledBegun(
  group: Group,
  boards: readonly OneBoard[],
  lay: LayGroup,
): Promise<readonly FilledBoard[]> {
  const filled: FilledBoard[] = [];
  for (const [i, board] of boards.entries()) {
    const done = setsOn(filled);
    // Those after it need the sets that their copies are part of, however many this one could hold.
    const later = boards.slice(i + 1).reduce((sum, { pieces }) => sum + setsPinned(group, pieces), 0);
    const sets = Math.min(group.sets - done - later, mostByArea(group, board.pieces));
    if (sets > 0) filled.push(await filledWith(group, board, { done, sets }, lay));
  }
  return filled;
}

/** The cheapest boards for the sets after those that are done; all of them where they do not hold those. */
async function filledFresh(
  group: Group,
  boards: readonly OneBoard[],
  before: number,
  lay: LayGroup,
): Promise<readonly FilledBoard[]> {
  const kinds = await kindsOf(group, boards, group.sets - before, lay);
  const counts = boardsForSets(
    kinds.map(({ boards: alike, sets }) => {
      const [{ cost, pieces }] = alike;
      return { holds: sets, count: alike.length, cost, first: isFilledFirst(pieces[0].kind, group.stock) };
    }),
    group.sets - before,
  );
  const filled: FilledBoard[] = [];
  for (const [k, kind] of kinds.entries()) {
    for (const board of kind.boards.slice(0, counts?.[k])) {
      const done = before + setsOn(filled);
      const sets = Math.min(group.sets - done, kind.sets);
      if (sets === 0) break;
      const again = repeated(group, board, kind, { done, sets });
      // A board that is not to be full is laid out by itself, for what is left of it to be larger.
      const own = sets < kind.sets ? await filledWith(group, board, { done, sets }, lay) : again;
      filled.push(own.sets < sets ? again : own);
    }
  }
  return filled;
}

/** The kinds of boards, one of each laid out with as many of some sets as it holds. */
async function kindsOf(
  group: Group,
  boards: readonly OneBoard[],
  wanted: number,
  lay: LayGroup,
): Promise<readonly BoardsAlike[]> {
  const kinds: [OneBoard, ...OneBoard[]][] = [];
  for (const board of boards) {
    const known = kinds.find(([first]) => areAlike(first, board));
    if (known === undefined) kinds.push([board]);
    else known.push(board);
  }
  const most = kinds.map(([{ pieces }]) => Math.min(wanted, mostByArea(group, pieces)));
  const all = most.reduce((sum, sets) => sum + sets, 0);
  const laid: BoardsAlike[] = [];
  for (const [k, alike] of kinds.entries()) {
    if (most[k] === 0) continue;
    const filled = await filledWith(group, alike[0], { done: 0, sets: most[k] }, lay, most[k] / all);
    laid.push({ boards: alike, laid: filled.boards, sets: filled.sets });
  }
  return laid;
}

function areAlike(a: OneBoard, b: OneBoard): boolean {
  return (
    a.pieces.length === b.pieces.length &&
    a.pieces.every(({ kind, usable }, i) => kind === b.pieces[i].kind && usable === b.pieces[i].usable)
  );
}

/** What lies on the board of a kind that was laid out, on another one and as the sets after those that are done. */
function repeated(
  group: Group,
  { pieces: [{ board, units }] }: OneBoard,
  { laid }: BoardsAlike,
  { done, sets }: { readonly done: number; readonly sets: number },
): FilledBoard {
  const names = units.map((unit) => unitName(board, unit));
  const next = group.firstSet + (done + sets) * group.stack;
  const boards = laid.map((one) => {
    const placements = one.placements.map((placement) => ({
      ...placement,
      set: placement.set + done * group.stack,
    }));
    return withoutSetsFrom({ ...one, id: names[0], pieces: names, placements }, next);
  });
  return { boards, sets };
}

/** A board with as many of some sets as it holds, after those that are done. */
async function filledWith(
  group: Group,
  { pieces }: OneBoard,
  { done, sets }: { readonly done: number; readonly sets: number },
  lay: LayGroup,
  share = sets / group.sets,
): Promise<FilledBoard> {
  const firstSet = group.firstSet + done * group.stack;
  const found = await lay({ ...group, pieces, sets, firstSet }, share);
  const whole = wholeSets(group, found);
  const next = firstSet + whole * group.stack;
  return { boards: found.boards.map((one) => withoutSetsFrom(one, next)).filter(carriesParts), sets: whole };
}

function isPinnedTo(pieces: readonly StockPiece[]): boolean {
  return pieces.some(({ pinned }) => pinned.length > 0);
}

/** The boards of the group: those to be filled first before others, and then those of least cost for their area. */
function boardsByCost(batch: Batch, group: Group): OneBoard[] {
  const containers = containersOf(batch, group);
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
  const turn = ({ pieces: [{ kind }] }: OneBoard) => (isFilledFirst(kind, group.stock) ? 0 : 1);
  return [...boards.values()].sort((a, b) => turn(a) - turn(b) || a.cost / a.area - b.cost / b.area);
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

/** Boards with whole sets on them, and how many those are. */
interface LaidSets {
  readonly boards: readonly LaidBoard[];
  readonly done: number;
}

/** What a layout without boards says of the sets that found no place. */
async function unplacedFrom(
  batch: Batch,
  group: Group,
  { boards, done }: LaidSets,
  lay: LayGroup,
): Promise<readonly Unplaced[]> {
  if (done >= group.sets) return [];
  const firstSet = group.firstSet + done * group.stack;
  const { unplaced } = await lay({ ...group, pieces: [], sets: group.sets - done, firstSet }, 0);
  if (group.pieces.length === 0) return unplaced;
  const overlong = shortEdge(batch, group);
  const edges = overlong === '' ? standing(group) : '';
  const why = `${NO_WHOLE_SET}${edges}${pinsLeftOut(group, boards)}${overlong}`;
  return unplaced.map((copy) => ({ ...copy, why }));
}

/** Says on which edges flat bottoms of a set have to lie: the board may be half empty behind them. */
function standing({ demands, pieces }: Group): string {
  if (!demands.some(({ rules }) => rules.restEdge)) return '';
  return pieces.every(({ kind }) => kind.edges.straightTop !== undefined) ? STANDING_ON_EITHER : STANDING;
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
