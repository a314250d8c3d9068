import { regionArea } from '../../geometry/ring.ts';
import type { Batch } from '../../model/batch.ts';
import { carriesParts } from '../../model/carries-parts.ts';
import type { LaidBoard, Placement, Unplaced } from '../../model/layout.ts';
import { isSamePart } from '../../model/same-part.ts';
import { unitName } from '../../stock/units.ts';
import { boardNameOf, type Group, isFilledFirst, type StockPiece } from '../groups/group.ts';
import { containersOf } from '../groups/group-problem.ts';
import { isLaidAsPinned } from '../groups/pinned.ts';
import { shortEdge } from './edge-for-sets.ts';
import { onFirstPieces } from './first-pieces.ts';
import type { LaidGroup } from './laid-group.ts';
import { compareLosses, lossOf } from './loss.ts';

/**
 * Sets that stay on one board: board by board, those that give most wood for their cost first, as many whole sets
 * are laid as fit; copies of a set that is not whole are taken off again. Where one board for all the sets of the last ones
 * costs less than those, it takes their place.
 */

/** Lays a group out on the pieces it is given, with a share of the effort. */
export type LayGroup = (group: Group, share: number) => Promise<LaidGroup>;

/** Effort spent at most on one board in the place of several, as a share of what the layout before it has had. */
const SECOND_LOOK = 1;

/** See the top of the file. */
export async function laySetsTogether(batch: Batch, group: Group, lay: LayGroup): Promise<LaidGroup> {
  const inOrder = boardsByCost(batch, group);
  const inTurn = await filledInTurn(group, inOrder, lay);
  const done = setsOn(inTurn);
  const filled = done < group.sets ? inTurn : await endedOnOneBoard(group, inOrder, inTurn, lay);
  // Each board was laid out by itself: only now it is known which of those alike carry nothing.
  const taken = onFirstPieces(group.pieces, boardsOf(filled));
  return { boards: taken, unplaced: await unplacedFrom(batch, group, { boards: taken, done }, lay) };
}

/** A board of the stock, whole or in its sections. */
interface OneBoard {
  readonly pieces: readonly StockPiece[];
  /** What taking it counts. */
  readonly cost: number;
}

/** A board with the whole sets on it. */
interface FilledBoard extends OneBoard {
  readonly boards: readonly LaidBoard[];
  readonly sets: number;
}

function setsOn(filled: readonly FilledBoard[]): number {
  return filled.reduce((sum, { sets }) => sum + sets, 0);
}

function boardsOf(filled: readonly FilledBoard[]): LaidBoard[] {
  return filled.flatMap(({ boards }) => boards);
}

/** The boards in their order, each with as many of the sets still to lay as it holds. */
async function filledInTurn(
  group: Group,
  inOrder: readonly OneBoard[],
  lay: LayGroup,
): Promise<FilledBoard[]> {
  const filled: FilledBoard[] = [];
  for (const [i, board] of inOrder.entries()) {
    const done = setsOn(filled);
    if (done >= group.sets) break;
    // A board with pinned copies needs the sets they are part of, however many the boards before it could hold.
    const later = inOrder.slice(i + 1).reduce((sum, { pieces }) => sum + setsPinned(group, pieces), 0);
    const sets = Math.min(group.sets - done - later, mostByArea(group, board.pieces));
    if (sets > 0) filled.push(await filledWith(group, board, { done, sets }, lay));
  }
  return filled;
}

/** A board with as many of some sets as it holds, after those that are done. */
async function filledWith(
  group: Group,
  board: OneBoard,
  { done, sets }: { readonly done: number; readonly sets: number },
  lay: LayGroup,
): Promise<FilledBoard> {
  const firstSet = group.firstSet + done * group.stack;
  const found = await lay({ ...group, pieces: board.pieces, sets, firstSet }, sets / group.sets);
  const whole = wholeSets(group, found);
  const next = firstSet + whole * group.stack;
  const boards = found.boards.map((one) => withoutSetsFrom(one, next)).filter(carriesParts);
  return { ...board, boards, sets: whole };
}

/**
 * The same sets with the last boards given up for one that holds all that lies on them, where that is the cheaper layout:
 * the board that gives most wood for its cost is often larger, or smaller, than what is left asks for.
 */
async function endedOnOneBoard(
  group: Group,
  inOrder: readonly OneBoard[],
  inTurn: readonly FilledBoard[],
  lay: LayGroup,
): Promise<readonly FilledBoard[]> {
  const loss = (filled: readonly FilledBoard[]) => lossOf(group, { boards: boardsOf(filled), unplaced: [] });
  let best = inTurn;
  let effort = SECOND_LOOK;
  for (let from = inTurn.length - 1; from >= 0; from--) {
    const before = inTurn.slice(0, from);
    const sets = setsOn(inTurn) - setsOn(before);
    // What is pinned to a board stays on that board.
    if (inTurn.slice(from).some(({ pieces }) => isPinnedTo(pieces))) break;
    for (const board of othersByCost(group, inOrder, inTurn.slice(0, from + 1), sets)) {
      const saves = costOf([...before, board]) < costOf(best);
      if (!saves || sets / group.sets > effort) break;
      effort -= sets / group.sets;
      const next = await filledWith(group, board, { done: setsOn(before), sets }, lay);
      if (next.sets < sets) continue;
      if (compareLosses(loss([...before, next]), loss(best)) < 0) best = [...before, next];
      break;
    }
  }
  return best;
}

function costOf(boards: readonly OneBoard[]): number {
  return boards.reduce((sum, { cost }) => sum + cost, 0);
}

/** One board of each kind that is not taken and may hold so many sets, the cheapest first. */
function othersByCost(
  group: Group,
  inOrder: readonly OneBoard[],
  taken: readonly OneBoard[],
  sets: number,
): OneBoard[] {
  const gone = new Set(taken.map(({ pieces }) => pieces));
  const ofKind = new Map<StockPiece['kind'], OneBoard>();
  for (const board of inOrder) {
    const { pieces } = board;
    if (gone.has(pieces) || isPinnedTo(pieces) || mostByArea(group, pieces) < sets) continue;
    if (!ofKind.has(pieces[0].kind)) ofKind.set(pieces[0].kind, board);
  }
  return [...ofKind.values()].sort((a, b) => a.cost - b.cost);
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
  const why = `no board has room left for a whole set${pinsLeftOut(group, boards)}${shortEdge(batch, group)}`;
  return unplaced.map((copy) => ({ ...copy, why }));
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
