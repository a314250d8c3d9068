import { listOf, number, optional, record, that, words } from '../issues/checks.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import { carriesParts } from './carries-parts.ts';
import type { LaidBoard, Layout } from './layout.ts';
import { MOST_COPIES } from './limits.ts';
import { blanksPerBoard } from './whole-board.ts';

/** The whole boards of a stock that a layout takes: what lies on the rack is whole, what is laid out may be a piece of it. */

/** What a layout takes of one entry of the stock. */
export interface BoardsToTake {
  /** Id of the entry. */
  readonly stock: string;
  /** Number of whole boards to take from the rack. */
  readonly boards: number;
  /** What of them carries parts, in the order of the layout: strips, lengths and slices where they are cut up first. */
  readonly laid: readonly LaidBoard[];
}

const count = number({ least: 1, most: MOST_COPIES, whole: true });

/** What is read of a layout here: where its parts lie is no matter of what is taken. */
const takenCheck = record(
  {
    boards: listOf(
      record({
        id: words(),
        stock: words(),
        copies: count,
        pieces: optional(listOf(words())),
        placements: that(Array.isArray, 'a list'),
      }),
    ),
  },
  'Hand in a layout of `layOut` or `readLayout`.',
);

/**
 * The boards with something on them by entry of the stock, in the order of the layout.
 *
 * @throws FretlayError for what is no layout
 */
export function boardsToTake(layout: Pick<Layout, 'boards'>): BoardsToTake[] {
  throwOnErrors(takenCheck('layout', layout));
  const { boards } = layout;
  const used = new Map<string, LaidBoard[]>();
  for (const board of boards) {
    if (!carriesParts(board)) continue;
    const known = used.get(board.stock);
    if (known === undefined) used.set(board.stock, [board]);
    else known.push(board);
  }
  return [...used].map(([stock, laid]) => ({ stock, boards: countWhole(laid), laid }));
}

const piecesCheck = record(
  { strips: optional(count), lengths: optional(count), slices: optional(count) },
  'Hand in a board of a layout of `layOut` or `readLayout`.',
);

/**
 * True when boards are ripped, cross-cut or resawn before they are laid out: more pieces may then be sawn than boards taken.
 *
 * @throws FretlayError for what is no board
 */
export function isInPieces(board: Pick<LaidBoard, 'strips' | 'lengths' | 'slices'>): boolean {
  throwOnErrors(piecesCheck('board', board));
  const { slices = 1 } = board;
  return blanksPerBoard(board) > 1 || slices > 1;
}

/** Numbers of the single boards under one layout: a name is the stock id, a hyphen, the number, letters of blank and slice. */
export function boardNumbers({ id, stock, pieces = [id] }: LaidBoard): number[] {
  return pieces.map((name) => Number.parseInt(name.slice(stock.length + 1), 10));
}

/** Name of the board or blank that a slice, or of the board that a blank, is cut from; letters beyond z are written `s27`. */
export function withoutLetter(name: string): string {
  return name.replace(/(s\d+|[a-z])$/, '');
}

/** Boards sawn alike without names of their own are in copies of one name. */
function countWhole(laid: readonly LaidBoard[]): number {
  const named = new Set(laid.flatMap(boardNumbers)).size;
  return laid.reduce((sum, { copies, pieces }) => sum + (pieces === undefined ? copies - 1 : 0), named);
}
