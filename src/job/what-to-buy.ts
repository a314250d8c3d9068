import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Batch } from '../model/batch.ts';
import type { LayOutOptions } from '../model/laying-out.ts';
import type { Purchase } from '../model/purchase.ts';
import type { Board } from '../model/stock.ts';
import { inputIssues, offerIssues } from '../nesting/input-issues.ts';
import { layOut } from '../nesting/lay-out.ts';
import { itemsBought, ruleOfThumb, stockToBuyFrom } from '../stock/offers.ts';

/**
 * The cheapest purchase that completes a batch, found by laying the batch out on the boards at hand and those a
 * supplier offers, not by a factor on the area. As good as the search: more effort may find a cheaper one.
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
  const boards = stockToBuyFrom(batch, offers);
  const { layout, issues } = await layOut({ ...batch, boards }, options);
  const items = itemsBought(layout, offers);
  const prices = items.flatMap(({ price }) => (price === undefined ? [] : [price]));
  return {
    items,
    total: prices.length === items.length ? prices.reduce((a, b) => a + b, 0) : undefined,
    completes: layout.unplaced.length === 0,
    layout,
    issues,
    ruleOfThumb: ruleOfThumb(layout, offers),
  };
}
