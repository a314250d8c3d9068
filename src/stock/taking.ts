import { ringArea } from '../geometry/ring.ts';
import { speciesKey } from '../model/same-wood.ts';
import type { Board } from '../model/stock.ts';

/** Which boards of the rack are taken first when several would do. */

/** What a maker may want of the choice of boards. */
export const TAKING_ORDERS = ['cheapest', 'keepers first', 'oldest', 'fewest boards'] as const;

/** One of them. */
export type TakingOrder = (typeof TAKING_ORDERS)[number];

/**
 * Share of what a fresh board of its size counts that a keeper counts with under `keepers first`: small, so that of several
 * the smaller is taken. What the maker once paid for it does not bring it back, so its own price does not speak.
 */
const KEEPER_WEIGHT = 0.05;

/**
 * What a fresh board counts under `keepers first` besides its price, as a share of what its area costs at the mean price of
 * its wood: of boards at one price the smaller is taken. So small that no price is outweighed by it, to the cent.
 */
const SMALLER_OF_EQUALS = 1e-6;

/** Under `oldest`, the newest board counts so many times as much for its area as the oldest. */
const NEWEST_WEIGHT = 10;

/**
 * Gives every board what taking it counts in the search, so that the cheapest choice is the one the maker wants.
 * `cheapest` leaves the prices to speak. Under `keepers first` keepers are filled before fresh boards, also where they
 * save none: what then is left of the fresh ones is larger, and the rack does not fill with small pieces. Among the fresh
 * boards of a wood the prices speak, and the areas of those at one price, or of all where one has no price or all are free.
 * Under `fewest boards` the number of boards comes first, and of as many the cheaper or smaller ones.
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
  if (order === 'keepers first') return keepersFirst(boards);
  if (order === 'fewest boards') return fewestBoards(boards);
  return boards.map((board) => ({
    ...board,
    takingCost: ringArea(board.outline) * (1 + (NEWEST_WEIGHT - 1) * age(board.id)),
  }));
}

/** One for every board, and the share it has of the worth of its wood: all of them together less than one board more. */
function fewestBoards(boards: readonly Board[]): Board[] {
  return boards.map((board) => {
    const wood = boards.filter(({ species }) => speciesKey(species) === speciesKey(board.species));
    const arePriced = wood.every(({ price }) => price !== undefined);
    const worth = ({ price, outline }: Board) => (arePriced ? price! : ringArea(outline));
    const all = wood.reduce((sum, each) => sum + each.quantity * worth(each), 0);
    return { ...board, takingCost: 1 + (all > 0 ? worth(board) / (2 * all) : 0) };
  });
}

/** What fresh boards cost by their area, and a twentieth of it for keepers; one number of one kind for all of a wood. */
function keepersFirst(boards: readonly Board[]): Board[] {
  const fresh = new Map<string, FreshWood>();
  for (const { keeper, species, price, outline } of boards) {
    if (keeper) continue;
    const key = speciesKey(species);
    const { paid, area, arePriced } = fresh.get(key) ?? NO_WOOD;
    fresh.set(key, {
      paid: paid + (price ?? 0),
      area: area + ringArea(outline),
      arePriced: arePriced && price !== undefined,
    });
  }
  return boards.map((board) => {
    const { paid, area, arePriced } = fresh.get(speciesKey(board.species)) ?? NO_WOOD;
    // The search asks that all boards of a wood are counted in money, or none: one without a price makes it area for all.
    // Wood that is all free, as one's own, is of one price: what is left of it is larger when the smaller board is sawn.
    const priced = paid > 0 && arePriced;
    const perArea = priced && area > 0 ? paid / area : 1;
    const own = ringArea(board.outline);
    if (board.keeper) return { ...board, takingCost: KEEPER_WEIGHT * perArea * own, takenFirst: true };
    return { ...board, takingCost: priced ? board.price! + SMALLER_OF_EQUALS * perArea * own : own };
  });
}

/** Fresh boards of one species: what they cost together, their area in mm2, and whether each has a price. */
interface FreshWood {
  readonly paid: number;
  readonly area: number;
  readonly arePriced: boolean;
}

const NO_WOOD: FreshWood = { paid: 0, area: 0, arePriced: true };
