import { regionArea, ringArea } from '../geometry/ring.ts';
import type { Batch } from '../model/batch.ts';
import type { Layout } from '../model/layout.ts';
import type { PurchaseItem, ThumbRule } from '../model/purchase.ts';
import { sameSpecies, speciesKey } from '../model/same-wood.ts';
import type { Board } from '../model/stock.ts';
import { blanksPerBoard, wholeBoard } from '../model/whole-board.ts';
import { MM_PER_UNIT } from '../units/length.ts';
import { boardFeet } from '../units/lumber.ts';
import { boardFeetPaid } from './lumber-measure.ts';
import { usedStock } from './used-boards.ts';

/**
 * Boards a supplier offers, as stock for the search: what is at hand costs next to nothing, an offer its price, so
 * that the cheapest layout is the cheapest purchase.
 */

/** Parts usually fill at least this share of boards worth buying: bounds how many of one offer are looked at first. */
const USUAL_YIELD = 0.2;

/** How many times as many of an offer are looked at where nearly all of the first are taken. */
const MORE = 4;

/** Share of those looked at that counts as nearly all: a dearer board that holds more may stand for the last few. */
const NEARLY_ALL = 0.75;

/** What a board at hand counts beside an offer of the same area. */
const AT_HAND = 1e-4;

/** The boards at hand and the offers, each with what taking it counts. */
export function stockToBuyFrom(batch: Batch, offers: readonly Board[]): Board[] {
  const priced = offers.every(({ price }) => price !== undefined);
  const perArea =
    offers.reduce((sum, offer) => sum + costOf(offer, priced) / ringArea(offer.outline), 0) /
    Math.max(1, offers.length);
  const own = batch.boards.map((board) => ({
    ...board,
    takingCost: AT_HAND * perArea * ringArea(board.outline),
  }));
  const bought = offers.map((offer) => ({
    ...offer,
    quantity: Math.min(offer.quantity, usuallyEnough(batch, offer)),
    takingCost: costOf(offer, priced),
  }));
  return [...own, ...bought];
}

function costOf({ price, outline }: Board, priced: boolean): number {
  return priced ? price! : ringArea(outline);
}

/** As many boards of an offer as the parts of its wood usually need at most. */
function usuallyEnough({ demands, sets }: Batch, offer: Board): number {
  const area = demands
    .filter(({ species }) => sameSpecies(species, offer.species))
    .reduce((sum, { region, copiesPerSet }) => sum + sets * copiesPerSet * regionArea(region), 0);
  return 1 + Math.ceil(area / USUAL_YIELD / ringArea(offer.outline));
}

/**
 * The same stock with more of the offers of which a layout takes nearly all that were looked at: parts that stand on the straight
 * edges of wide boards, or frames, fill little of them.
 *
 * @param stock from `stockToBuyFrom`
 * @returns undefined when there are no more of them
 */
export function stockWithMore(
  stock: readonly Board[],
  offers: readonly Board[],
  layout: Layout,
): Board[] | undefined {
  const taken = new Map(usedStock(layout).map((used) => [used.stock, used.numbers.length]));
  const more = stock.map((board) => {
    const { quantity = 0 } = offers.find(({ id }) => id === board.id) ?? {};
    const used = (taken.get(board.id) ?? 0) * blanksPerBoard(board);
    return used >= NEARLY_ALL * board.quantity && quantity > board.quantity
      ? { ...board, quantity: Math.min(quantity, MORE * board.quantity) }
      : board;
  });
  return more.some((board, i) => board !== stock[i]) ? more : undefined;
}

/**
 * The same stock for a second search, its blanks counted as the whole board: where a board is bought for one strip, its
 * share of the price made it look cheap. Offers of whose boards every blank is used keep their share, it is what they cost.
 *
 * @param stock from `stockToBuyFrom`
 * @returns undefined when no board that is cut up first is bought in part, so that there is nothing to search for
 */
export function stockCountedWhole(
  stock: readonly Board[],
  offers: readonly Board[],
  layout: Layout,
): Board[] | undefined {
  const cut = new Set(offers.filter((offer) => blanksPerBoard(offer) > 1).map(({ id }) => id));
  const bought = usedStock(layout).filter((used) => cut.has(used.stock));
  const usedUp = bought.filter(({ free }) => free.every(({ slices }) => slices > 1));
  if (usedUp.length === bought.length) return undefined;
  for (const { stock: id } of usedUp) cut.delete(id);
  return stock.map((board) => {
    const { id, takingCost = 0 } = board;
    return cut.has(id) ? { ...board, takingCost: takingCost * blanksPerBoard(board) } : board;
  });
}

/** What a purchase costs in whole boards: money, or their area in mm2 where not every offer has a price. */
export function costOfItems(items: readonly PurchaseItem[], offers: readonly Board[]): number {
  const whole = offers.map(wholeBoard);
  const priced = whole.every(({ price }) => price !== undefined);
  return items.reduce((sum, item) => {
    const offer = whole.find(({ id }) => id === item.id);
    return sum + (offer === undefined ? 0 : item.boards * costOf(offer, priced));
  }, 0);
}

/** The sum of the prices; undefined when one is not stated. */
export function priceOfItems(items: readonly PurchaseItem[]): number | undefined {
  return items.some(({ price }) => price === undefined)
    ? undefined
    : items.reduce((sum, { price = 0 }) => sum + price, 0);
}

/** What a layout takes of the offers, in whole boards, rip cuts included. */
export function itemsBought(layout: Layout, offers: readonly Board[]): PurchaseItem[] {
  const used = usedStock(layout);
  return offers.flatMap((offer): PurchaseItem[] => {
    const boards = used.find(({ stock }) => stock === offer.id)?.numbers.length ?? 0;
    if (boards === 0) return [];
    const whole = wholeBoard(offer);
    const { id, species, price } = whole;
    return [
      {
        id,
        species,
        boards,
        boardFeet: boards * boardFeetPaid(whole),
        price: price === undefined ? undefined : boards * price,
      },
    ];
  });
}

/**
 * The usual rule of thumb, by species: net volume of the parts in units of a board foot, plus 20 % (30 % for common
 * grades). Of the parts on the boards that are bought only, and not of sheets, which nobody buys by the board foot.
 * Source: woodshoptips.com, tip 250; the percentage is added to the parts, it is not the share that is wasted.
 */
export function ruleOfThumb({ boards }: Layout, offers: readonly Board[]): ThumbRule[] {
  const bought = new Set(offers.filter(({ sheet }) => sheet !== true).map(({ id }) => id));
  const net = new Map<string, { species: string; feet: number }>();
  for (const { stock, species, copies, placements, thickness, planeTo = thickness } of boards) {
    if (!bought.has(stock) || placements.length === 0) continue;
    const known = net.get(speciesKey(species)) ?? { species: species.trim(), feet: 0 };
    const area = placements.reduce((sum, { region }) => sum + regionArea(region), 0);
    known.feet += boardFeet(copies * area, Math.max(MM_PER_UNIT.in, planeTo));
    net.set(speciesKey(species), known);
  }
  return [...net.values()].map(({ species, feet }) => ({
    species,
    net: feet,
    with20: 1.2 * feet,
    with30: 1.3 * feet,
  }));
}
