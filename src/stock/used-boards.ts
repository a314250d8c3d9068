import type { LaidBoard, Layout } from '../model/layout.ts';

/** Which single boards of the stock a layout takes. */

/** What a layout takes of one board entry. */
export interface UsedStock {
  /** Id of the entry. */
  readonly stock: string;
  /** Numbers of the single boards, from 1. */
  readonly numbers: readonly number[];
  /** Slices resawn from them that nothing lies on. */
  readonly freeSlices: number;
}

/** The boards taken, by entry, in the order of the layout, each with a count of the slices left over. */
export function usedStock({ boards }: Layout): UsedStock[] {
  const used = new Map<string, { numbers: Set<number>; slices: number; taken: number }>();
  for (const laid of boards) {
    const known = used.get(laid.stock) ?? { numbers: new Set<number>(), slices: laid.slices ?? 1, taken: 0 };
    for (const number of numbersOf(laid)) known.numbers.add(number);
    known.taken += laid.copies;
    used.set(laid.stock, known);
  }
  return [...used].map(([stock, { numbers, slices, taken }]) => ({
    stock,
    numbers: [...numbers].sort((a, b) => a - b),
    freeSlices: slices > 1 ? numbers.size * slices - taken : 0,
  }));
}

/** Numbers of the single boards under one layout: a name is the stock id, a hyphen, the number, a slice letter. */
function numbersOf({ id, stock, pieces = [id] }: LaidBoard): number[] {
  return pieces.map((name) => Number.parseInt(name.slice(stock.length + 1), 10));
}
