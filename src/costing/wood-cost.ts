import type { Issue } from '../issues/issue.ts';
import { carriesParts } from '../model/carries-parts.ts';
import type { CostLine } from '../model/estimate.ts';
import type { BoardAreas, LaidBoard, Layout } from '../model/layout.ts';
import type { Board } from '../model/stock.ts';
import { boardsIn, wholeBoard } from '../model/whole-board.ts';
import { costLine } from './cost-line.ts';
import type { Rates } from './rates.ts';

/** The wood of a batch: its lines, and how much of their likely cost went into parts. */
export interface WoodCost {
  readonly lines: readonly CostLine[];
  /** Cents of wood that ends up in parts; the rest of the lines is waste. */
  readonly inParts: number;
  readonly issues: readonly Issue[];
}

/**
 * The wood of a batch: every board that carries something at its whole price, waste and all, less a credit for the
 * offcuts that are worth keeping. Of a board that is ripped or resawn each strip and slice counts its share.
 */
export function woodCost(layout: Layout, stock: readonly Board[], rates: Rates): WoodCost {
  const lines: CostLine[] = [];
  const issues: Issue[] = [];
  let inParts = 0;
  for (const entry of stock) {
    const piece = wholeBoard(entry);
    const used = layout.boards.filter((board) => board.stock === piece.id && carriesParts(board));
    if (used.length === 0) continue;
    if (piece.price === undefined) {
      issues.push(unpriced(piece));
      continue;
    }
    // A piece of a shop's own rack may have cost 0, which is a price; only one that is not stated is missing.
    lines.push(...linesOf(piece, piece.price, used, rates));
    inParts += 100 * piece.price * boardsOf(used, shareOf('parts'));
  }
  issues.push(...unknownBoards(layout, stock));
  return { lines, inParts: Math.round(inParts), issues };
}

function linesOf(
  piece: Board,
  price: number,
  used: readonly LaidBoard[],
  { keeperCredit }: Rates,
): CostLine[] {
  const each = { name: 'price of one', value: price, unit: 'a board', from: `boards: ${piece.id}` };
  const bought = costLine(`Board ${piece.id}, ${piece.species}`, [
    { name: 'boards', value: boardsOf(used, () => 1), unit: '', from: 'layout' },
    each,
  ]);
  const kept = boardsOf(used, shareOf('keepers'));
  if (kept === 0 || keeperCredit === 0) return [bought];
  const credit = costLine(`Offcuts kept of ${piece.id}`, [
    { name: 'boards kept', value: kept, unit: '', from: 'layout: offcuts by area' },
    each,
    { name: 'credit', value: -keeperCredit, unit: 'of the price', from: 'costs: keeperCredit' },
  ]);
  return [bought, credit];
}

/** Whole boards bought for these, each times a share of it. */
function boardsOf(used: readonly LaidBoard[], share: (board: LaidBoard) => number): number {
  return used.reduce((sum, board) => sum + boardsIn(board) * share(board), 0);
}

/** Share of a board's whole area that is parts or kept; none when the layout does not say where its area goes. */
function shareOf(use: 'parts' | 'keepers'): (board: { readonly areas?: BoardAreas }) => number {
  return ({ areas }) => (areas === undefined ? 0 : areas[use] / areas.board);
}

/** Boards of the layout that are none of the stock: without a word their wood would cost nothing. */
function unknownBoards(layout: Layout, stock: readonly Board[]): Issue[] {
  const known = new Set(stock.map(({ id }) => id));
  const used = layout.boards.filter(carriesParts).map(({ stock: id }) => id);
  return [...new Set(used)]
    .filter((id) => !known.has(id))
    .map((id) => ({
      kind: 'board-without-price',
      severity: 'warning',
      message: 'the stock has no board of this id: its wood is missing from the costs',
      remedy: 'Hand in the boards of the batch that was laid out, those bought for it too.',
      where: { board: id },
    }));
}

function unpriced({ id }: Board): Issue {
  return {
    kind: 'board-without-price',
    severity: 'note',
    message: 'the board has no price: its wood is missing from the costs',
    remedy: 'Give the board a "price".',
    where: { board: id },
  };
}
