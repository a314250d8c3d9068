import type { Price } from '../model/estimate.ts';
import { toCents } from '../units/money.ts';
import type { Channel } from './rates.ts';

/**
 * The price of a piece in one place of sale, whole cents: cost with the markup, and so much more that it is left
 * when the channel has taken its share: (cost (1 + markup) + what it takes a piece) / (1 - fee).
 *
 * @param cost likely cost of a piece, cents
 * @param markup profit as a share of the cost: 1 doubles it
 */
export function priceFor(cost: number, markup: number, { name, fee, perPiece }: Channel): Price {
  const aside = toCents(perPiece);
  const wanted = cost * (1 + markup) + aside;
  // Up, or the profit would fall short by a cent; less a hair, or 2000.0000000001 would ask for a cent too much.
  const price = Math.ceil(wanted / (1 - fee) - 1e-6);
  const fees = toCents((price * fee) / 100) + aside;
  return {
    channel: name,
    price,
    fees,
    profit: price - fees - cost,
    inputs: [
      { name: 'cost of a piece', value: cost / 100, unit: '', from: 'estimate' },
      { name: 'markup', value: markup, unit: 'of the cost', from: 'costs: markup' },
      { name: 'fee', value: fee, unit: 'of the price', from: 'costs: channels' },
      { name: 'taken a piece', value: perPiece, unit: '', from: 'costs: channels' },
    ],
  };
}
