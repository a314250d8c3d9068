/**
 * What things cost the maker, in whole units of the currency. The defaults only show what belongs in: prices differ
 * from place to place and year to year, so each should be the maker's own.
 */
export interface Rates {
  /** A sign or a word: `$`, `EUR`. */
  readonly currency: string;
  /** One hour of work. Craft pricing pages quote 12 to 50. */
  readonly labourPerHour: number;
  /** Share of materials and labour for rent, tools, power. Craft pricing pages quote 0.1 to 0.3. */
  readonly overhead: number;
  /** One blade worn out. */
  readonly perBlade: number;
  /** Paper, adhesive and tape for one square metre of pattern stuck on a board. */
  readonly patternPerSquareMetre: number;
  /** Glue, one kilogram of it. */
  readonly gluePerKilogram: number;
  /** Finish for one square metre of surface, all coats. */
  readonly finishPerSquareMetre: number;
  /** Wear of drills for one hole. */
  readonly perHole: number;
  /** Share of its part of the board's price that a kept offcut is credited with, 0 to 1. */
  readonly keeperCredit: number;
  /** Profit as a share of the cost: 1 doubles it. */
  readonly markup: number;
  /** Where pieces are sold. */
  readonly channels: readonly Channel[];
}

/** A place of sale. */
export interface Channel {
  readonly name: string;
  /** Share of the price it keeps, 0 to below 1. */
  readonly fee: number;
  /** What it takes for each piece besides, such as packing and post, in whole units of the currency as all rates. */
  readonly perPiece: number;
}

/**
 * Common practice, no source: but the labour and overhead lie in the ranges that craft pricing pages quote, and
 * the doubling of cost is the usual rule on them.
 */
export const COMMON_RATES: Rates = {
  currency: '$',
  labourPerHour: 25,
  overhead: 0.1,
  perBlade: 0.5,
  patternPerSquareMetre: 4,
  gluePerKilogram: 12,
  finishPerSquareMetre: 3,
  perHole: 0.01,
  keeperCredit: 0.5,
  markup: 1,
  channels: [{ name: 'direct', fee: 0, perPiece: 0 }],
};
