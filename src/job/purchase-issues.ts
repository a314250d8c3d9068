import type { Issue } from '../issues/issue.ts';
import { cheaperInWords } from '../model/cheaper-in-words.ts';
import type { CheaperPurchase, Purchase } from '../model/purchase.ts';
import type { DisplayUnit } from '../units/length.ts';
import { formatMoney, toCents } from '../units/money.ts';

/** A part that is wider than the least width of a grade lies on no board of it, though the supplier has wider ones. */
const BY_SIZE = 'A grade is counted at its least width: enter wider boards of it by their size.';

/** That a purchase was searched for and none found: without it the copies left out would look like nobody had asked. */
const NOTHING_HELPS: Issue = {
  kind: 'to-buy-in-all',
  severity: 'warning',
  message: 'no board for sale has room for the copies that found no place',
  remedy: `Offer boards of another size or wood under "forSale": what keeps the copies out is told with them. ${BY_SIZE}`,
};

/** The same where nobody can know yet. */
const STOPPED_TOO_SOON: Issue = {
  kind: 'to-buy-in-all',
  severity: 'warning',
  message: 'the search was stopped before it found what to buy for the copies that found no place',
  remedy: 'Give it more time: the boards for sale may well have room for them.',
};

/**
 * What to buy, in words: one note for every offer taken, one for the sum beside the rule of thumb, and one for every wood
 * that would cost less with more work.
 *
 * @param currency sign or word of the prices
 * @param unit what thicknesses are told in
 */
export function purchaseIssues(
  { items, total, completes, isStopped = false, ruleOfThumb, cheaper = [] }: Purchase,
  currency: string,
  unit: DisplayUnit,
): Issue[] {
  if (items.length === 0) return completes ? [] : [isStopped ? STOPPED_TOO_SOON : NOTHING_HELPS];
  const money = (price: number) => formatMoney(toCents(price), currency);
  const bought = items.map(
    ({ id, boards, boardFeet, price }): Issue => ({
      kind: 'to-buy',
      severity: 'note',
      message: [
        `buy ${boards} of "${id}"`,
        boardFeet > 0 ? `, ${boardFeet.toFixed(2)} board feet` : '',
        price === undefined ? '' : `, for ${money(price)}`,
      ].join(''),
    }),
  );
  const thumb = ruleOfThumb.map(
    ({ species, net, with20, with30 }) =>
      `${species} ${net.toFixed(2)} in the parts, ${with20.toFixed(2)} with 20 % added, ${with30.toFixed(2)} with 30 %`,
  );
  // Where only sheets are bought there is none.
  const rule =
    thumb.length === 0 ? '' : `; the rule of thumb for what is bought, in board feet: ${thumb.join('; ')}`;
  const sum = total === undefined ? undefined : `${money(total)} in all`;
  const beside = sum === undefined ? 'this' : `this, ${sum},`;
  // A search that was stopped has not shown that more boards, or other ones, do not help.
  const short = isStopped
    ? `${beside} does not complete the batch, as far as the search came before it was stopped`
    : `even ${beside} does not complete the batch`;
  const whole = `this completes the batch${sum === undefined ? '' : ` for ${sum}`}`;
  return [
    ...bought,
    {
      kind: 'to-buy-in-all',
      severity: completes ? 'note' : 'warning',
      message: `${completes ? whole : short}${rule}`,
      ...(completes || isStopped
        ? {}
        : { remedy: `Offer larger boards under "forSale", or more of them. ${BY_SIZE}` }),
    },
    ...cheaper.map((less) => cheaperIssue(less, currency, unit)),
  ];
}

function cheaperIssue(less: CheaperPurchase, currency: string, unit: DisplayUnit): Issue {
  return {
    kind: 'to-buy-cheaper',
    severity: 'note',
    message: cheaperInWords(less, unit, currency, (id) => `"${id}"`),
    remedy: `To have it so, leave ${less.without.map((id) => `"${id}"`).join(' and ')} out of "forSale".`,
  };
}
