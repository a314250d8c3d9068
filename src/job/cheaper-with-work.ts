import type { Batch } from '../model/batch.ts';
import type { LaidBoard, Layout } from '../model/layout.ts';
import type { CheaperPurchase, Purchase } from '../model/purchase.ts';
import { partKey } from '../model/same-part.ts';
import type { Board } from '../model/stock.ts';
import { commonThickness, type LaidAlready, sharingAsLaid } from '../nesting/groups/groups.ts';
import { leftOut } from '../nesting/laid/loss.ts';
import { compareLosses } from '../nesting/problem/compare-losses.ts';
import { itemsBought, priceOfItems, stockToBuyFrom } from '../stock/offers.ts';
import { woodSteps } from '../stock/wood-choice.ts';
import { CLEARLY_LESS } from './clearly-less.ts';

/**
 * What a purchase could save where thicker boards are for sale too. Boards that ask for less work are bought first,
 * whatever they cost: whether an hour at the band saw is worth the difference only the maker can tell, so both sums are told.
 */

/** Lays out the demands that are not laid out already on the boards given, quickly. */
export type LayQuickly = (
  boards: readonly Board[],
  already: LaidAlready,
) => Promise<Pick<Purchase, 'layout'>>;

/**
 * The woods of a purchase that would cost clearly less on boards that have to be planed or resawn: for each, the offers of
 * least work are withheld and its parts laid out quickly on what is left, all other wood as it lies. What is told has been
 * laid out whole, so that it can be had for that price at most.
 *
 * @param batch demands, and the boards at hand
 * @param layout the batch on the boards that are bought
 */
export async function cheaperWithWork(
  batch: Batch,
  offers: readonly Board[],
  layout: Layout,
  layQuickly: LayQuickly,
): Promise<CheaperPurchase[]> {
  const cheaper: CheaperPurchase[] = [];
  const all = priceOfItems(itemsBought(layout, offers));
  const known = { ...batch, boards: [...batch.boards, ...offers] };
  for (const demands of sharingAsLaid(known, layout.boards)) {
    const parts = new Set(demands.map(partKey));
    const isOwn = ({ placements }: LaidBoard) => placements.some((copy) => parts.has(partKey(copy)));
    const rest = layout.boards.filter((board) => !isOwn(board));
    const already = { boards: rest, demands: batch.demands.filter((demand) => !demands.includes(demand)) };
    const beside = priceOfItems(itemsBought({ ...layout, boards: rest }, offers));
    if (beside === undefined || all === undefined || all === beside) continue;
    const paid = all - beside;
    const thickness = commonThickness(demands);
    const bought = new Set(layout.boards.filter(isOwn).map(({ stock }) => stock));
    const steps = woodSteps(offers, demands[0].species, thickness, batch.thicknessTolerance);
    let best: CheaperPurchase | undefined;
    for (let more = 1; more < steps.length; more++) {
      const withheld = new Set(steps.slice(0, more).flatMap((step) => step.map(({ board }) => board)));
      if (![...withheld].some(({ id }) => bought.has(id))) continue;
      const without = offers.filter((offer) => withheld.has(offer)).map(({ id }) => id);
      // Another wood of the batch is bought from them: they cannot be left out.
      if (rest.some(({ stock }) => without.includes(stock))) continue;
      const others = offers.filter((offer) => !withheld.has(offer));
      const found = await layQuickly(stockToBuyFrom({ ...batch, demands }, others), already);
      // Told only where as much of the batch is made with it.
      if (compareLosses(leftOut([found.layout]), leftOut([layout])) > 0) continue;
      const whole = priceOfItems(itemsBought(found.layout, offers));
      if (whole === undefined || whole - beside > (1 - CLEARLY_LESS) * paid) continue;
      if (best !== undefined && whole - beside >= best.total) continue;
      const own = found.layout.boards.filter(isOwn);
      best = {
        species: demands[0].species,
        thickness,
        paid,
        items: itemsBought({ ...layout, boards: own }, others),
        total: whole - beside,
        without,
        work: own.some(({ slices }) => slices !== undefined) ? 'resaw' : 'plane',
      };
    }
    if (best !== undefined) cheaper.push(best);
  }
  return cheaper;
}
