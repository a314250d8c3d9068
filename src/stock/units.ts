import type { Board } from '../model/stock.ts';

/** The single boards of a board entry, and the slices they are resawn into. */

/** One single board, or one slice of one. */
export interface StockUnit {
  /** Which of the boards of its entry, from 1. */
  readonly number: number;
  /** Which slice of it, from 1; undefined for a board that is not resawn. */
  readonly slice: number | undefined;
}

/** Boards of one kind that a problem looks at; more than any batch of a small shop uses. */
const MOST_OF_A_KIND = 60;

/** Name of a unit that is unique in the stock: `Walnut A-2`, or `Walnut A-2b` for a slice. */
export function unitName(board: Board, { number, slice }: StockUnit): string {
  return `${board.id}-${number}${slice === undefined ? '' : sliceLetter(slice)}`;
}

function sliceLetter(slice: number): string {
  return slice <= 26 ? String.fromCharCode(96 + slice) : `s${slice}`;
}

/** The units of a board entry that no one has taken, in their order. */
export function unitsOf(board: Board, slices: number | undefined, taken: ReadonlySet<string>): StockUnit[] {
  const units: StockUnit[] = [];
  for (let number = 1; number <= Math.floor(board.quantity) && units.length < MOST_OF_A_KIND; number++) {
    if (taken.has(unitName(board, { number, slice: undefined }))) continue;
    for (let i = 0; i < (slices ?? 1); i++)
      units.push({ number, slice: slices === undefined ? undefined : i + 1 });
  }
  return units;
}

/** Units in piles of `size` that are sawn together; what makes no full pile is left. */
export function pilesOf(units: readonly StockUnit[], size: number): StockUnit[][] {
  return Array.from({ length: Math.floor(units.length / size) }, (_, i) =>
    units.slice(i * size, (i + 1) * size),
  );
}
