import { leavingLeastOut, onBestParting, quickly } from './first-layouts.ts';
import { arePriced } from './groups/group-problem.ts';
import { groupsOf, hasPinnedPile, type StackWays } from './groups/stack-ways.ts';
import { eachAndGoneOn, type LayWhole } from './in-turn.ts';
import { KnownByBoards } from './known-by-boards.ts';
import type { Laying } from './laying.ts';
import { compareLosses, type Loss } from './problem/compare-losses.ts';
import { searchGroup } from './search-group.ts';
import { type LaidParting, outlay, type Taking } from './taking.ts';
import type { SearchSettings } from './workers/search-pool.ts';

/** In which order groups that share boards are laid out: the first takes those that suit it best, the others the rest. */

/** Moves of a search that tells what an order costs, as a share of those a group is searched for in the end, and at least. */
const TRIED = 0.02;
const LEAST_TRIED = 200;

/** Orders of groups that share boards that are tried at most. */
const MOST_ORDERS = 24;

/**
 * Puts groups that share boards in the order in which brief searches leave least out and cost least. Tried are the order of
 * the batch, the other way round, and from the better of these on every group in the place of every other.
 *
 * @param settings of the search that comes after it
 * @param given quick layouts in the order of the batch, when there are any
 * @return the quick layouts in the order that is kept, when there are any
 */
export async function inCheaperOrder(
  laying: Laying,
  { seed, moves }: SearchSettings,
  given: readonly Taking[] | undefined,
): Promise<readonly Taking[] | undefined> {
  const { signal, stacks } = laying;
  const few = Math.min(moves, Math.max(LEAST_TRIED, TRIED * moves));
  const briefly = tried(laying, { seed, moves: few, brief: true });
  let order = stacks;
  for (const places of sharedPlaces(stacks)) {
    if (signal?.aborted) return given;
    const own = places.map((place) => stacks[place]);
    const cheapest = await cheapestOrder(own, signal, briefly);
    order = order.map((group, place) => cheapest[places.indexOf(place)] ?? group);
  }
  const isOther = order.some((group, place) => group !== stacks[place]);
  if (!isOther || signal?.aborted) return given;
  const quick = given && (await leavingLeastOut(laying, order, quickly(laying), 'every group'));
  if (signal?.aborted) return given;
  laying.stacks = order;
  return quick;
}

/**
 * Places of the groups that share boards with one another, also by a third one, or by what they go on to where their own
 * wood runs out; of one by itself nothing is said, nor of those with a pin in a pile, which stay in front.
 */
function sharedPlaces(stacks: readonly StackWays[]): number[][] {
  const serving = stacks.map(boardsFor);
  let found: number[][] = [];
  for (const [place, own] of serving.entries()) {
    const isShared = (others: readonly number[]) =>
      others.some((other) => [...serving[other]].some((id) => own.has(id)));
    const joined = found.filter(isShared).flat();
    const all = [...joined, place].sort((a, b) => a - b);
    found = [...found.filter((others) => !isShared(others)), all];
  }
  return found
    .map((places) => places.filter((place) => !hasPinnedPile(stacks[place])))
    .filter(({ length }) => length > 1);
}

/** Ids of the board entries that serve a group, in whatever way. */
function boardsFor(stack: StackWays): Set<string> {
  return new Set(groupsOf(stack).flatMap(({ stock }) => stock.map(({ board }) => board.id)));
}

/** Lays a group out by a brief search; once on the same boards, for they are what most orders leave it. */
function tried(laying: Laying, settings: SearchSettings): LayWhole {
  const { batch, builder, signal } = laying;
  const search = { settings, workers: [], signal, builder, onBetter: undefined };
  const lay = onBestParting(laying, (part, start) => searchGroup(batch, part, search, start));
  const known = new KnownByBoards<LaidParting>();
  return (whole, taken, beside) => known.get(whole, taken, () => lay(whole, taken, beside));
}

/** The cheapest of the orders that are tried. */
async function cheapestOrder(
  given: readonly StackWays[],
  signal: AbortSignal | undefined,
  lay: LayWhole,
): Promise<readonly StackWays[]> {
  const isPriced = given.flatMap(groupsOf).every(({ pieces }) => arePriced(pieces));
  let count = 0;
  let best: { readonly order: readonly StackWays[]; readonly loss: Loss } | undefined;
  const offer = async (order: readonly StackWays[]): Promise<boolean> => {
    count++;
    const loss = outlay(await eachAndGoneOn(order, signal, lay, 'every group'), isPriced);
    const isBetter = best === undefined || compareLosses(loss, best.loss) < 0;
    if (isBetter) best = { order, loss };
    return isBetter;
  };
  await offer(given);
  await offer(given.toReversed());
  for (let isBetter = given.length > 2; isBetter; ) {
    isBetter = false;
    for (let from = 0; from < given.length; from++) {
      for (let to = 0; to < given.length && count < MOST_ORDERS && !signal?.aborted; to++) {
        const { order } = best!;
        const moved = order.toSpliced(from, 1).toSpliced(to, 0, order[from]);
        if (to !== from && (await offer(moved))) isBetter = true;
      }
    }
  }
  return best!.order;
}
