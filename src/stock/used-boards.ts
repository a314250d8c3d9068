import { boardNumbers } from '../model/boards-to-take.ts';
import type { Layout } from '../model/layout.ts';

/** Which single boards of the stock a layout takes. */

/** What a layout takes of one board entry. */
export interface UsedStock {
  /** Id of the entry. */
  readonly stock: string;
  /** Numbers of the single boards, from 1. */
  readonly numbers: readonly number[];
  /** Strips ripped and slices resawn from them that nothing lies on. */
  readonly freePieces: number;
}

/** The boards taken, by entry, in the order of the layout, each with a count of the strips and slices left over. */
export function usedStock({ boards }: Layout): UsedStock[] {
  const used = new Map<string, { numbers: Set<number>; pieces: number; taken: number }>();
  for (const laid of boards) {
    const pieces = (laid.strips ?? 1) * (laid.slices ?? 1);
    const known = used.get(laid.stock) ?? { numbers: new Set<number>(), pieces, taken: 0 };
    for (const number of boardNumbers(laid)) known.numbers.add(number);
    known.taken += laid.copies;
    used.set(laid.stock, known);
  }
  return [...used].map(([stock, { numbers, pieces, taken }]) => ({
    stock,
    numbers: [...numbers].sort((a, b) => a - b),
    freePieces: pieces > 1 ? numbers.size * pieces - taken : 0,
  }));
}
