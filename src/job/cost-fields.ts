import { z } from 'zod';
import { COMMON_RATES } from '../costing/rates.ts';
import { FOR_INCHES } from '../units/measure.ts';

/** What things cost the maker and how pieces are sold: the `costs` field of a job. */

const money = z.number().min(0).max(1_000_000);

/** A share, not a percentage: who writes 9.5 for 9.5 % is told so. */
function share(most: number, example: string) {
  return z
    .number()
    .min(0)
    .max(most, { error: `a share, at most ${most}: ${example}` });
}

const channel = z.strictObject({
  name: z.string().trim().min(1).max(80),
  fee: share(0.95, '0.065 for 6.5 %').default(0).describe('Share of the price it keeps: 0.065 for 6.5 %.'),
  perPiece: money.default(0).describe('What it takes for each piece besides, such as packing.'),
});

/** The `costs` field as it is written. */
const stated = z.strictObject({
  currency: z.string().trim().min(1).max(8).default(COMMON_RATES.currency).describe('A sign or a word.'),
  labourPerHour: money.default(COMMON_RATES.labourPerHour),
  overhead: share(10, '0.1 for 10 %')
    .default(COMMON_RATES.overhead)
    .describe('Share of materials and labour for rent, tools, power.'),
  perBlade: money.default(COMMON_RATES.perBlade),
  patternPerSquareMetre: money
    .optional()
    .describe(
      `Paper, adhesive and tape for a square metre of pattern; ${COMMON_RATES.patternPerSquareMetre} when left out.`,
    ),
  patternPerSquareFoot: money.optional().describe('The same for a square foot, instead.'),
  gluePerKilogram: money.optional().describe(`Glue; ${COMMON_RATES.gluePerKilogram} when left out.`),
  gluePerOunce: money.optional().describe('The same for an ounce of weight, instead.'),
  finishPerSquareMetre: money
    .optional()
    .describe(
      `Finish for a square metre of surface, all coats; ${COMMON_RATES.finishPerSquareMetre} when left out.`,
    ),
  finishPerSquareFoot: money.optional().describe('The same for a square foot, instead.'),
  perHole: money.default(COMMON_RATES.perHole).describe('Wear of drills for a hole.'),
  keeperCredit: share(1, '0.5 for 50 %')
    .default(COMMON_RATES.keeperCredit)
    .describe('Share of its price that a kept offcut is credited with.'),
  markup: share(100, '1 for 100 %').default(COMMON_RATES.markup).describe('Profit as a share of the cost.'),
  channels: z
    .array(channel)
    .min(1)
    .default([...COMMON_RATES.channels])
    .describe('Where pieces are sold.'),
  batchSizes: z
    .array(z.number().int().min(1).max(1000))
    .max(12)
    .default([1, 2, 5, 10, 20, 50])
    .describe('Numbers of sets to compare the cost of a piece for, from quick layouts; [] for none.'),
});

/** Rates that may be written for either unit: the metric field, the other, and which unit that counts in. */
const EITHER = [
  ['patternPerSquareMetre', 'patternPerSquareFoot', 'm2'],
  ['gluePerKilogram', 'gluePerOunce', 'kg'],
  ['finishPerSquareMetre', 'finishPerSquareFoot', 'm2'],
] as const;

/** The `costs` field: rates a foot or an ounce are turned to the metric ones that everything is reckoned with. */
export const costFields = stated.transform((costs, context) => {
  const rates = { patternPerSquareMetre: 0, gluePerKilogram: 0, finishPerSquareMetre: 0 };
  for (const [metric, other, unit] of EITHER) {
    const [one, instead] = [costs[metric], costs[other]];
    if (one !== undefined && instead !== undefined)
      context.addIssue({
        code: 'custom',
        path: [other],
        message: `expected one of "${metric}" and "${other}", not both: they state the same rate`,
        input: instead,
      });
    const [, times] = FOR_INCHES[unit];
    rates[metric] = one ?? (instead === undefined ? COMMON_RATES[metric] : instead * times);
  }
  const { patternPerSquareFoot, gluePerOunce, finishPerSquareFoot, ...others } = costs;
  return { ...others, ...rates };
});
