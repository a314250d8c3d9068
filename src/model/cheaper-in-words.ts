import { formatThickness } from '../units/distances.ts';
import type { DisplayUnit } from '../units/length.ts';
import { formatMoney, toCents } from '../units/money.ts';
import type { CheaperPurchase } from './purchase.ts';

const WORK = { plane: 'planed', resaw: 'resawn and planed' } as const;

/**
 * Boards that would do for less money and more work, with both sums: what the work is worth only the maker can tell. A
 * sentence without its stop.
 *
 * @param unit what the thickness is told in
 * @param currency sign or word of the prices
 * @param name an offer as it is to be called, by its id
 */
export function cheaperInWords(
  { species, thickness, paid, items, total, work }: CheaperPurchase,
  unit: DisplayUnit,
  currency: string,
  name: (id: string) => string,
): string {
  const money = (price: number) => formatMoney(toCents(price), currency);
  const boards = items.map(({ id, boards: count }) => `${count} of ${name(id)}`).join(' and ');
  return `${species.trim()} ${formatThickness(thickness, unit)} is bought for ${money(paid)}; ${boards} would do for ${money(total)}, by a quick layout, but would have to be ${WORK[work]}, the time for which is in neither sum`;
}
