import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Batch } from '../model/batch.ts';
import type { LayOutOptions } from '../model/laying-out.ts';
import type { Purchase } from '../model/purchase.ts';
import type { Board } from '../model/stock.ts';
import { inputIssues, offerIssues } from '../nesting/input-issues.ts';
import { layOutWith } from '../nesting/lay-out.ts';
import { ProblemBuilder } from '../nesting/problem/problem-spec.ts';
import { costOfItems, itemsBought, ruleOfThumb, stockCountedWhole, stockToBuyFrom } from '../stock/offers.ts';

/**
 * The cheapest purchase that completes a batch, found by laying the batch out on the boards at hand and those a
 * supplier offers, not by a factor on the area. As good as the search: more effort may find a cheaper one.
 * Boards that are ripped are bought whole: where some of their strips are not needed the search is made a second time, with
 * the whole board to pay for a strip, and the cheaper of both purchases is taken.
 *
 * @param offers boards for sale; `quantity` is how many the supplier has
 * @throws FretlayError as `layOut` does, and when an offer makes no sense or has the id of another board
 */
export async function whatToBuy(
  batch: Batch,
  offers: readonly Board[],
  options: LayOutOptions = {},
): Promise<Purchase> {
  // Before anything is reckoned with them, and by the names that the caller knows them by.
  throwOnErrors(inputIssues(batch, options));
  throwOnErrors(offerIssues(batch, offers));
  const stock = stockToBuyFrom(batch, offers);
  const builder = new ProblemBuilder();
  const buy = async (boards: readonly Board[]) => {
    const { layout, issues } = await layOutWith(builder, { ...batch, boards }, options);
    const items = itemsBought(layout, offers);
    const completes = layout.unplaced.length === 0;
    return { layout, issues, items, completes, cost: costOfItems(items, offers) };
  };
  const first = await buy(stock);
  // Completing comes before cost in both searches: what the first one leaves out the second one would too.
  const countedWhole =
    first.completes && !options.signal?.aborted ? stockCountedWhole(stock, offers, first.layout) : undefined;
  const second = countedWhole && (await buy(countedWhole));
  const best = second?.completes && second.cost < first.cost ? second : first;
  const { layout, issues, items, completes } = best;
  const prices = items.flatMap(({ price }) => (price === undefined ? [] : [price]));
  return {
    items,
    total: prices.length === items.length ? prices.reduce((a, b) => a + b, 0) : undefined,
    completes,
    ...(options.signal?.aborted ? { isStopped: true } : {}),
    layout,
    issues,
    ruleOfThumb: ruleOfThumb(layout, offers),
  };
}

/**
 * That nothing is bought: the batch as it is laid out on the boards at hand.
 *
 * @param isStopped whether the search was stopped before it could be told what to buy
 */
export function nothingToBuy(own: Pick<Purchase, 'layout' | 'issues'>, isStopped: boolean): Purchase {
  return {
    items: [],
    total: 0,
    completes: own.layout.unplaced.length === 0,
    ...(isStopped ? { isStopped } : {}),
    layout: own.layout,
    issues: own.issues,
    ruleOfThumb: [],
  };
}
