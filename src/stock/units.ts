import type { Board } from '../model/stock.ts';
import { blanksPerBoard } from '../model/whole-board.ts';

/**
 * The single boards of a board entry, with the blanks they are cut and the slices they are resawn into. Blanks are lettered strip
 * by strip from the top edge, the lengths of each from the left.
 */

/** One single board, one blank of one, or one slice of either. */
export interface StockUnit {
  /** Which of the boards, or of the blanks, of its entry, from 1. */
  readonly number: number;
  /** Which slice of it, from 1; undefined for a board that is not resawn. */
  readonly slice: number | undefined;
}

/** Boards of one kind that a problem looks at where its parts ask for no more; so many for every strip of a board. */
const USUAL_OF_A_KIND = 60;

/** The most of one kind that a problem looks at: beyond it a search would be slow. */
export const MOST_OF_A_KIND = 300;

/** Name of a unit that is unique in the stock: `Walnut A-2`, or `Walnut A-2b` for a blank or a slice. */
export function unitName(board: Board, { number, slice }: StockUnit): string {
  const blanks = blanksPerBoard(board);
  const whole = Math.ceil(number / blanks);
  const blank = blanks === 1 ? '' : letterOf(number - (whole - 1) * blanks);
  return `${board.id}-${whole}${blank}${slice === undefined ? '' : letterOf(slice)}`;
}

/** The number of the unit of an entry that has a name, as it is printed on sheets; undefined when none has. */
export function numberNamed(board: Board, name: string): number | undefined {
  if (!name.startsWith(`${board.id}-`)) return undefined;
  for (let number = 1; number <= board.quantity; number++)
    if (unitName(board, { number, slice: undefined }) === name) return number;
  return undefined;
}

/** The letter by which one of the blanks or slices of a board is named, counted from 1; beyond z `s27`. */
export function letterOf(place: number): string {
  return place <= 26 ? String.fromCharCode(96 + place) : `s${place}`;
}

/**
 * The units of a board entry that no one has taken, in their order.
 *
 * @param asked numbers that are among them however many come before
 * @param needed as many as the parts may ask for
 */
export function unitsOf(
  board: Board,
  slices: number | undefined,
  taken: ReadonlySet<string>,
  asked: ReadonlySet<number> = new Set(),
  needed = 0,
): StockUnit[] {
  const units: StockUnit[] = [];
  const most = Math.min(MOST_OF_A_KIND, Math.max(USUAL_OF_A_KIND * blanksPerBoard(board), needed));
  const last = Math.max(0, ...asked);
  for (let number = 1; number <= Math.floor(board.quantity); number++) {
    if (units.length >= most && number > last) break;
    if (units.length >= most && !asked.has(number)) continue;
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
