import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Batch } from '../model/batch.ts';
import type { LayOutOptions } from '../model/laying-out.ts';
import type { Purchase } from '../model/purchase.ts';
import { sameSpecies } from '../model/same-wood.ts';
import type { Board } from '../model/stock.ts';
import { type LaidAlready, laidWhole, stillToLay } from '../nesting/groups/groups.ts';
import { inputIssues, offerIssues } from '../nesting/input-issues.ts';
import { leftOut } from '../nesting/laid/loss.ts';
import { layOutWith } from '../nesting/lay-out.ts';
import { compareLosses } from '../nesting/problem/compare-losses.ts';
import { ProblemBuilder } from '../nesting/problem/problem-spec.ts';
import {
  costOfItems,
  itemsBought,
  priceOfItems,
  ruleOfThumb,
  stockCountedWhole,
  stockToBuyFrom,
  stockWithMore,
} from '../stock/offers.ts';
import { cheaperWithWork, type LayQuickly } from './cheaper-with-work.ts';

/** What `layOut` gives of a batch. */
type LaidOut = Pick<Purchase, 'layout' | 'issues'>;

/**
 * The cheapest purchase that completes a batch, found by laying the batch out on the boards at hand and those a
 * supplier offers, not by a factor on the area. As good as the search: more effort may find a cheaper one.
 *
 * The batch is first laid out on the boards at hand. Parts that find room there stay as they lie and nothing is bought
 * for them, also where the boards for sale would make a higher stack or ask for less work; the others are laid out on
 * what is left and what is for sale. Only where they cannot be completed so are all parts laid out anew.
 *
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
  const own = await layOutWith(new ProblemBuilder(), batch, options);
  return own.layout.unplaced.length === 0
    ? nothingToBuy(own, options.signal?.aborted === true)
    : purchaseBeside(batch, offers, own, options);
}

/**
 * What to buy where the boards at hand are too few, as {@link whatToBuy} tells it. Nothing when it leaves out as much as
 * they do by themselves, as it may when the search is stopped: nobody pays for an emptier layout.
 *
 * @param own the batch as it is laid out on the boards at hand
 */
export async function purchaseBeside(
  batch: Batch,
  offers: readonly Board[],
  own: LaidOut,
  options: LayOutOptions,
): Promise<Purchase> {
  throwOnErrors(offerIssues(batch, offers));
  const search = { batch, offers, options, builder: new ProblemBuilder() };
  const whole = laidWhole(batch, own.layout);
  const decided = await cheapest(search, whole);
  // The boards of what lies at hand may be the only ones with room for a part that is left out.
  const mayHelp = !decided.completes && options.signal?.aborted !== true && holdsWoodOfOthers(batch, whole);
  const all = mayHelp ? await cheapest(search, { demands: [], boards: [] }) : decided;
  const best = compareLosses(leftOut([all.layout]), leftOut([decided.layout])) < 0 ? all : decided;
  const isStopped = options.signal?.aborted === true;
  const less = compareLosses(leftOut([best.layout]), leftOut([own.layout]));
  // Where nothing is bought the reasons of the copies left out speak of the boards for sale as well.
  if (less > 0 || (less === 0 && best.items.length > 0)) return nothingToBuy(own, isStopped);
  const { layout, issues, items, completes } = best;
  const quick = { ...options, effort: 0, onProgress: undefined, startWorker: undefined };
  const layQuickly: LayQuickly = (boards, already) =>
    layOutWith(search.builder, { ...batch, boards }, quick, { already, brief: true });
  const cheaper = isStopped ? [] : await cheaperWithWork(batch, offers, layout, layQuickly);
  return {
    items,
    total: priceOfItems(items),
    completes,
    ...(isStopped ? { isStopped } : {}),
    layout,
    issues,
    ruleOfThumb: ruleOfThumb(layout, offers),
    ...(cheaper.length === 0 ? {} : { cheaper }),
  };
}

/** What a search for a purchase is made of. */
interface PurchaseSearch {
  readonly batch: Batch;
  readonly offers: readonly Board[];
  readonly options: LayOutOptions;
  readonly builder: ProblemBuilder;
}

/** The cheapest purchase found that leaves what is laid out already as it lies. */
async function cheapest({ batch, offers, options, builder }: PurchaseSearch, already: LaidAlready) {
  let stock = stockToBuyFrom({ ...batch, demands: stillToLay(batch, already) }, offers);
  const buy = async (boards: readonly Board[]) => {
    const { layout, issues } = await layOutWith(builder, { ...batch, boards }, options, { already });
    const items = itemsBought(layout, offers);
    const completes = layout.unplaced.length === 0;
    return { layout, issues, items, completes, cost: costOfItems(items, offers) };
  };
  let first = await buy(stock);
  // Where nearly all of a cheap offer are taken, dearer boards may have been too, or copies left out, for want of more of it.
  let more = stockWithMore(stock, offers, first.layout);
  while (more !== undefined && !options.signal?.aborted) {
    const again = await buy(more);
    const less = compareLosses(leftOut([again.layout]), leftOut([first.layout]));
    if (less > 0 || (less === 0 && again.cost >= first.cost)) break;
    [first, stock] = [again, more];
    more = stockWithMore(stock, offers, first.layout);
  }
  // Completing comes before cost in both searches: what the first one leaves out the second one would too.
  const countedWhole =
    first.completes && !options.signal?.aborted ? stockCountedWhole(stock, offers, first.layout) : undefined;
  const second = countedWhole && (await buy(countedWhole));
  return second?.completes && second.cost < first.cost ? second : first;
}

/** True when something of what is laid out already is of one wood with something that is not. */
function holdsWoodOfOthers(batch: Batch, already: LaidAlready): boolean {
  const others = stillToLay(batch, already);
  return already.demands.some((own) => others.some((other) => sameSpecies(own.species, other.species)));
}

/**
 * That nothing is bought: the batch as it is laid out on the boards at hand.
 *
 * @param isStopped whether the search was stopped before it could be told what to buy
 */
export function nothingToBuy(own: LaidOut, isStopped: boolean): Purchase {
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
