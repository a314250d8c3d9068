import { compareLosses, type Loss, sumOf } from './compare-losses.ts';

/** Boards of several kinds that hold some whole sets for the least cost, where every board holds so many by itself. */

/** Boards of one kind. */
export interface BoardsOfKind {
  /** Sets that one of them holds. */
  readonly holds: number;
  /** How many there are. */
  readonly count: number;
  /** What one of them costs. */
  readonly cost: number;
  /** True for boards that are filled before others. */
  readonly first: boolean;
}

/** A choice of boards. */
interface Choice {
  /** What counts, in this order: cost of the boards that are not filled first, sets on those, cost of all. */
  readonly loss: Loss;
  /** Boards of every kind. */
  readonly counts: readonly number[];
}

/**
 * How many boards of every kind are taken for so many sets; undefined when all of them do not hold those. A knapsack with
 * several things of every kind, filled number by number (Bellman 1957).
 *
 * @param kinds those that are filled before others at the beginning
 */
export function boardsForSets(kinds: readonly BoardsOfKind[], sets: number): readonly number[] | undefined {
  let best: readonly (Choice | undefined)[] = [{ loss: [0, 0, 0], counts: kinds.map(() => 0) }];
  for (const [k, kind] of kinds.entries()) {
    const next = [...best];
    for (const [held, before] of best.entries()) {
      if (before === undefined) continue;
      for (let n = 1; n <= kind.count && held + (n - 1) * kind.holds < sets; n++) {
        const then = Math.min(sets, held + n * kind.holds);
        const loss = sumOf([before.loss, lossOfBoards(kind, n, then - held)]);
        const known = next[then];
        if (known !== undefined && compareLosses(loss, known.loss) >= 0) continue;
        next[then] = { loss, counts: before.counts.with(k, n) };
      }
    }
    best = next;
  }
  return best[Math.max(0, sets)]?.counts;
}

/** What so many boards with so many sets on them add to the loss of a choice. */
function lossOfBoards({ cost, first }: BoardsOfKind, boards: number, sets: number): Loss {
  return first ? [0, 0, boards * cost] : [boards * cost, sets, boards * cost];
}
