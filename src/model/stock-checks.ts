import { ring } from '../geometry/point-checks.ts';
import { type Check, number, optional, record, text } from '../issues/checks.ts';
import { MOST_COPIES } from './limits.ts';

/** What a board of the stock has to be for its price and its size to be reckoned with. */

/** Far above any price in any currency; its cents are still counted exactly. */
export const MONEY = { least: 0, most: 1e9 };

/** A board of the stock: its price, and what strips and lengths of it were whole. */
export const pricedBoardCheck: Check = record({
  id: text(),
  species: text(),
  outline: ring,
  price: optional(number(MONEY)),
  strips: optional(number({ least: 1, most: MOST_COPIES, whole: true })),
  lengths: optional(number({ least: 1, most: MOST_COPIES, whole: true })),
  whole: optional(record({ outline: ring, price: optional(number(MONEY)) })),
});
