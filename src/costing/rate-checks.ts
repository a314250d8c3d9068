import { both, type Check, listOf, number, optional, record, text, that } from '../issues/checks.ts';
import { recordByHand } from '../issues/record-by-hand.ts';
import { layoutCheck } from '../model/layout-checks.ts';
import { glueGrams, range, workTimeCheck } from '../model/plan-checks.ts';
import { MONEY, pricedBoardCheck } from '../model/stock-checks.ts';
import type { Rates } from './rates.ts';

/** What rates and the plans they are put on have to be, so that no cost comes out negative, endless or not a number. */

/** The price is divided by what the fee leaves of it: a fee of all of it asks for an endless price. */
const fee = that(
  (value) => typeof value === 'number' && value >= 0 && value < 1,
  'a share of the price from 0 to below 1',
  'Write 6.5 % as 0.065.',
);

/** What each rate may be. */
export const RATE_CHECKS = {
  currency: text(),
  labourPerHour: number(MONEY),
  overhead: number({ least: 0, most: 10 }),
  perBlade: number(MONEY),
  patternPerSquareMetre: number(MONEY),
  gluePerKilogram: number(MONEY),
  finishPerSquareMetre: number(MONEY),
  perHole: number(MONEY),
  keeperCredit: number({ least: 0, most: 1 }),
  markup: number({ least: 0, most: 100 }),
  channels: listOf(recordByHand({ name: text('Name the place of sale.'), fee, perPiece: number(MONEY) })),
} as const satisfies Readonly<Record<keyof Rates, Check>>;

/** The rates of a caller; those that are left out are the common ones. */
export const rateCheck: Check = recordByHand(
  Object.fromEntries(Object.entries(RATE_CHECKS).map(([name, check]) => [name, optional(check)])),
  'See `Rates` for what things cost.',
);

const amount = number({ least: 0, most: 1e12 });

/**
 * What a batch is costed from. The layout is looked at whole, for its parts are what the paper is measured by; of the plans
 * only the fields that the costs are reckoned from.
 */
export const batchedCheck: Check = record({
  layout: both(
    layoutCheck,
    record({ figures: record({ completeSets: amount }), boards: listOf(record({ stock: text() })) }),
  ),
  stock: listOf(pricedBoardCheck, 'Hand in the boards of the batch that was laid out.'),
  plan: record(
    { blades: listOf(record({ blade: record({ name: text() }), worn: range })), holes: amount },
    'Hand in the plan of `planCuts`.',
  ),
  assembly: record({ glueGrams, surface: amount }, 'Hand in the plan of `planAssembly`.'),
  // The whole of it, for it is handed on with the costs, to be traced line by line.
  time: workTimeCheck,
});
