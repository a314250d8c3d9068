import type { CostLine } from '../model/estimate.ts';
import { toCents } from '../units/money.ts';

/** So fine is a price of pieces alike that does not come out to the cent: that of a thousand of them is right to the cent. */
const PARTS_OF_CENT = 1000;

/**
 * Prices of new entries that add up: a keeper is worth what the batch was credited with for it, a strip or slice on which
 * nothing lies its share of what its board cost, for no batch has paid for it. What rounding takes from the batch or from one
 * entry is given to the next of the same board, so that the rack is worth what was paid less what the batch was charged. One
 * entry has one price for all its pieces, for boards of two entries are never stacked: that of the last of a board has parts
 * of a cent where it does not come out. Of a board of 45.00 in seven strips two are charged at 12.86, and the five that are
 * left are 6.428 each.
 */
export class SharedPrices {
  readonly #known = new Map<string, { value: number; told: number; left: number }>();
  readonly #charged: (stock: string) => readonly CostLine[];
  readonly #entries: (stock: string) => number;

  /**
   * @param charged lines of the wood of a stock, as the batch is charged for it
   * @param entries number of entries that are made of a stock
   */
  constructor(charged: (stock: string) => readonly CostLine[], entries: (stock: string) => number) {
    this.#charged = charged;
    this.#entries = entries;
  }

  /** Price of each of the `copies` pieces of an entry that are worth `value` each. */
  next(stock: string, value: number, copies: number): number {
    const sums = this.#known.get(stock) ?? this.#begun(stock);
    this.#known.set(stock, sums);
    sums.value += copies * value;
    sums.left--;
    const due = Math.max(0, toCents(sums.value) - sums.told);
    const each = sums.left > 0 ? Math.round(due / copies) : due / copies;
    sums.told += copies * each;
    return Math.round(each * PARTS_OF_CENT) / (100 * PARTS_OF_CENT);
  }

  /** What the shares so far come to, the cents they were told as, and the entries to come. */
  #begun(stock: string): { value: number; told: number; left: number } {
    const lines = this.#charged(stock);
    return {
      value: lines.reduce((sum, { inputs }) => sum + inputs.reduce((all, each) => all * each.value, 1), 0),
      told: lines.reduce((sum, { cents }) => sum + cents.likely, 0),
      left: this.#entries(stock),
    };
  }
}
