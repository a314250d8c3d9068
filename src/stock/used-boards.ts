import { begunPieces } from '../model/begun-pieces.ts';
import { boardNumbers, withoutLetter } from '../model/boards-to-take.ts';
import type { LaidBoard, Layout } from '../model/layout.ts';
import { blanksPerBoard } from '../model/whole-board.ts';

/** Which single boards of the stock a layout takes, and what of them it leaves untouched. */

/** What a layout takes of one board entry. */
export interface UsedStock {
  /** Id of the entry. */
  readonly stock: string;
  /** Numbers of the single boards, from 1. */
  readonly numbers: readonly number[];
  /** Blanks cut and slices resawn from them that nothing lies on, one item for each thickness. */
  readonly free: readonly FreePieces[];
}

/** Blanks or slices of one thickness that nothing lies on. */
export interface FreePieces {
  /** Number of slices that the board or blank they come from is resawn into; 1 for blanks as thick as the board. */
  readonly slices: number;
  /** How many there are. */
  readonly count: number;
}

/**
 * The boards taken, by entry, in the order of the layout, with the blanks and slices left over of each. Boards of one
 * entry may be used in different ways, one as it is and one resawn: every board or blank is counted by itself.
 */
export function usedStock({ boards }: Pick<Layout, 'boards'>): UsedStock[] {
  const byStock = new Map<string, LaidBoard[]>();
  for (const laid of boards) byStock.set(laid.stock, [...(byStock.get(laid.stock) ?? []), laid]);
  return [...byStock].map(([stock, laid]) => {
    const numbers = [...new Set(laid.flatMap(boardNumbers))].sort((a, b) => a - b);
    return { stock, numbers, free: freeOf(laid, numbers.length) };
  });
}

/** Names of the boards, or blanks where boards are cut up first, that are begun: of a slice, that of what it is resawn from. */
export function takenNames(boards: readonly LaidBoard[]): string[] {
  return boards.flatMap(({ id, pieces = [id], slices = 1 }) =>
    slices > 1 ? pieces.map(withoutLetter) : pieces,
  );
}

/** What is left of so many boards of one entry, fewer slices first. */
function freeOf(laid: readonly LaidBoard[], boards: number): FreePieces[] {
  const free = new Map<number, number>();
  const add = (slices: number, count: number) => free.set(slices, (free.get(slices) ?? 0) + count);
  // Every laid board of an entry is cut into the same number of blanks, so the first tells it for all.
  const blanks = blanksPerBoard(laid[0]);
  let begun = 0;
  for (const { slices, taken, begun: whole } of begunPieces(laid)) {
    begun += whole;
    if (slices > 1) add(slices, whole * slices - taken);
  }
  if (blanks > 1) add(1, boards * blanks - begun);
  return [...free]
    .filter(([, count]) => count > 0)
    .sort(([a], [b]) => a - b)
    .map(([slices, count]) => ({ slices, count }));
}
