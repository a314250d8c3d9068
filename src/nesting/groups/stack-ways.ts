import type { Batch, Demand } from '../../model/batch.ts';
import { isSamePart } from '../../model/same-part.ts';
import { unitName, unitsOf } from '../../stock/units.ts';
import { solidOf } from '../arrangement/solids.ts';
import { type Group, highestStack, type StockKind, slicesOf } from './group.ts';
import { commonThickness, demandsByBoards } from './groups.ts';
import { wholePieces, withPieces } from './pieces.ts';
import { ownPins, type PinnedCopy, pinsKeepApart } from './pinned.ts';

/**
 * How demands that share their boards may be sawn in stacks. A stack is sawn as often as it has copies, so the copies
 * come first: as few as the greatest height allows. The last of them may give more sets than are wanted; what is to
 * spare lowers the last piles (`laid/lower-piles.ts`), so that sets that make no full stack lie beside the others and
 * take no boards of their own.
 */

/** Ways to saw some demands, those with fewest copies first. */
export interface StackWays {
  /** Every way is laid out as one or two groups, one after the other. */
  readonly ways: Ways;
  /** Ways on boards that ask for more work, for copies that find no place: gone on to when all groups have had their own. */
  readonly further: readonly (readonly Group[])[];
}

type Ways = readonly [readonly Group[], ...(readonly Group[])[]];

/**
 * The demands of a batch by the boards they share, each with the ways to stack them: one when nothing is stacked. Those with
 * a pin in a pile come first: another group could take the boards that the pile is made of with the pinned one.
 */
export function stackWays(batch: Batch): StackWays[] {
  const all = demandsByBoards(batch).map(({ demands, stock, further }) => ({
    ways: waysOf(batch, demands, stock, demands[0].thickness),
    further: further.flatMap((step) => waysOf(batch, demands, step, commonThickness(demands))),
  }));
  return [...all.filter(hasPinnedPile), ...all.filter((own) => !hasPinnedPile(own))];
}

/** The group in all its ways, those on boards that ask for more work too. */
export function groupsOf({ ways, further }: StackWays): Group[] {
  return [...ways.flat(), ...further.flat()];
}

/** True when some board entry serves both in the first of their ways. */
export function shareBoards({ ways: [[a]] }: StackWays, { ways: [[b]] }: StackWays): boolean {
  const ids = new Set(a.stock.map(({ board }) => board.id));
  return b.stock.some(({ board }) => ids.has(board.id));
}

/** True when a copy is pinned to a board that is sawn with others. */
export function hasPinnedPile({ ways }: StackWays): boolean {
  return ways.flat().some(({ stack, pieces }) => stack > 1 && pieces.some(({ pinned }) => pinned.length > 0));
}

/** Names of the boards in the piles that copies are pinned in, as the first way to saw each of some groups has them. */
export function pinnedPiles(stacks: readonly StackWays[]): string[] {
  return stacks.filter(hasPinnedPile).flatMap(({ ways: [[main]] }) =>
    wholePieces(main, new Set())
      .filter(({ pinned }) => pinned.length > 0)
      .flatMap(({ board, units }) => units.map((unit) => unitName(board, { ...unit, slice: undefined }))),
  );
}

/**
 * Lower stacks are for a stock that is too small for the high ones: four boards make one pile of three or two of two.
 * Before the height is given up, the sets that make no full stack are tried on boards that make no full pile.
 */
function waysOf(
  batch: Batch,
  demands: readonly Demand[],
  stock: readonly StockKind[],
  thickness: number,
): Ways {
  const { sets, pins = [] } = batch;
  const most = Math.max(1, ...stock.map((kind) => unitsOf(kind.board, slicesOf(kind), new Set()).length));
  const highest = Math.max(1, Math.min(highestStack(demands[0]), sets, most));
  const group = (stack: number, copies: number, firstSet: number): Group =>
    withPieces(
      {
        species: demands[0].species,
        thickness,
        demands,
        stack,
        sets: copies,
        firstSet,
        lastSet: Math.min(sets, firstSet + stack * copies - 1),
        stock,
        pins,
        pieces: [],
      },
      new Set(),
    );
  const waysOfHeight = (height: number): Group[][] => {
    const copies = Math.max(1, Math.ceil(sets / height));
    // No higher than that number of copies asks for: four sets are two stacks of two, not one of three and one left.
    const stack = Math.max(1, Math.ceil(sets / copies));
    const full = Math.floor(sets / stack);
    const rest = sets - full * stack;
    const together = [group(stack, copies, 1)];
    return rest === 0 ? [together] : [together, [group(stack, full, 1), group(rest, 1, full * stack + 1)]];
  };
  const ways: Group[][] = [];
  for (let height = highest; height >= 1; height--) ways.push(...waysOfHeight(height));
  const [first, ...others] = ways.filter(([main]) => holdsPins(batch, main));
  // Boards one by one hold whatever may be pinned.
  return first === undefined ? [ways[ways.length - 1]] : [first, ...others];
}

/**
 * True when every pinned copy lies in one of the stacks, none on top of another, and none is a copy too many: what is
 * pinned to a board is sawn through the whole stack that the board is in.
 */
function holdsPins(batch: Batch, group: Group): boolean {
  const own = ownPins(group);
  if (own.length === 0) return true;
  const piles = pinnedByPile(group, new Set());
  if (piles.flat().length < own.length) return false;
  const isTooMany = group.demands.some(
    (demand) => own.filter((pin) => isSamePart(pin, demand)).length > group.sets * demand.copiesPerSet,
  );
  return !isTooMany && piles.every((pile) => pinsLieApart(batch, pile));
}

/** True when the boards that are not taken still make every pile of a group that a copy is pinned in. */
export function keepsPins(group: Group, taken: ReadonlySet<string>): boolean {
  const own = ownPins(group);
  return own.length === 0 || pinnedByPile(group, taken).flat().length >= own.length;
}

/** What is pinned on each pile that the boards make which are not taken. */
function pinnedByPile(group: Group, taken: ReadonlySet<string>): (readonly PinnedCopy[])[] {
  return wholePieces(group, taken).map(({ pinned }) => pinned);
}

function pinsLieApart(batch: Batch, pile: readonly PinnedCopy[]): boolean {
  const solids = pile.map(({ region }) => solidOf(region));
  return solids.every((a, i) => solids.slice(0, i).every((b) => pinsKeepApart(a, b, batch)));
}
