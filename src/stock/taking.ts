import { ringArea } from '../geometry/ring.ts';
import type { Board } from '../model/stock.ts';

/** Which boards of the rack are taken first when several would do. */

/** What a maker may want of the choice of boards. */
export const TAKING_ORDERS = ['cheapest', 'keepers first', 'oldest', 'fewest boards'] as const;

/** One of them. */
export type TakingOrder = (typeof TAKING_ORDERS)[number];

/** Share of its area that a keeper counts with under `keepers first`: small, so that of several the smaller is taken. */
const KEEPER_WEIGHT = 0.05;

/** Under `oldest`, the newest board counts so many times as much for its area as the oldest. */
const NEWEST_WEIGHT = 10;

/**
 * Gives every board what taking it counts in the search, so that the cheapest choice is the one the maker wants.
 * `cheapest` leaves the prices to speak. Under `keepers first` keepers are filled before fresh boards, also where they
 * save none: what then is left of the fresh ones is larger, and the rack does not fill with small pieces.
 *
 * @param since date of every board as text that sorts by time; boards without one count as the oldest
 */
export function withTakingCosts(
  boards: readonly Board[],
  order: TakingOrder,
  since: ReadonlyMap<string, string> = new Map(),
): Board[] {
  const dates = [...new Set(boards.map(({ id }) => since.get(id) ?? ''))].sort();
  const age = (id: string) =>
    dates.length < 2 ? 0 : dates.indexOf(since.get(id) ?? '') / (dates.length - 1);
  if (order === 'cheapest') return [...boards];
  return boards.map((board) => {
    const area = ringArea(board.outline);
    const costs = {
      'keepers first': area * (board.keeper ? KEEPER_WEIGHT : 1),
      oldest: area * (1 + (NEWEST_WEIGHT - 1) * age(board.id)),
      'fewest boards': 1,
    };
    const takenFirst = order === 'keepers first' && board.keeper === true;
    return { ...board, takingCost: costs[order], ...(takenFirst ? { takenFirst } : {}) };
  });
}
