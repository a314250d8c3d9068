import { ringArea } from '../geometry/ring.ts';
import { boundsOf } from '../geometry/shapes.ts';
import type { Board } from '../model/stock.ts';
import { MM_PER_UNIT } from '../units/length.ts';
import { boardFeet, SQUARE_MM_PER_SQUARE_FOOT } from '../units/lumber.ts';

/**
 * Lumber measure of boards: exact by volume, and by the tally rule. Both are right in the trade; a figure always
 * says which it is.
 *
 * Sources: widths to the nearest inch with an exact half taken alternately up and down, lengths to the foot below,
 * the tally practice of the National Hardwood Lumber Association as told by dealers; stock under an inch counted as
 * an inch from memory of the same.
 */

/** Exact volume in board feet (unit of 144 cubic inches) of one board, defects included, as measured; 0 for a sheet. */
export function boardFeetOf(board: Board): number {
  return board.sheet ? 0 : boardFeet(ringArea(board.outline), board.thickness);
}

/** Board feet a dealer charges for: the whole outline at the thickness it is sold by, never under an inch. */
export function boardFeetPaid(board: Board): number {
  const sold = Math.max(MM_PER_UNIT.in, board.nominal ?? board.thickness);
  return board.sheet ? 0 : boardFeet(ringArea(board.outline), sold);
}

/** Area of a board's outline in square feet (unit of 144 square inches), defects included. */
export function squareFeetOf(board: Board): number {
  return ringArea(board.outline) / SQUARE_MM_PER_SQUARE_FOOT;
}

/**
 * Cubic metres a dealer charges for: the whole outline at the thickness it is sold by, however thin. That nothing is added
 * to stock under an inch is common practice, no source. A sheet has its volume too: plywood is traded by it.
 */
export function cubicMetresPaid(board: Board): number {
  return (ringArea(board.outline) * (board.nominal ?? board.thickness)) / 1e9;
}

/** Area of a board's outline in square metres, defects included. */
export function squareMetresOf(board: Board): number {
  return ringArea(board.outline) / 1e6;
}

/**
 * Board feet of a tally of boards: every width to the nearest inch (exact halves alternately up and down), every
 * length to the foot below, thickness as sold and never under an inch. Sheets do not count.
 */
export function tallyBoardFeet(boards: readonly Board[]): number {
  let halves = 0;
  let total = 0;
  for (const board of boards) {
    if (board.sheet) continue;
    const box = boundsOf(board.outline);
    const inches = (box.maxY - box.minY) / MM_PER_UNIT.in;
    const isHalf = Math.abs(inches - Math.floor(inches) - 0.5) < 1e-6;
    const feet = Math.floor((box.maxX - box.minX) / MM_PER_UNIT.ft + 1e-6);
    const thickness = Math.max(1, (board.nominal ?? board.thickness) / MM_PER_UNIT.in);
    // Shares of a board, such as seven sevenths, may sum up to a hair more than the whole.
    for (let left = board.quantity; left > 1e-9; left--) {
      const booked = isHalf ? Math.floor(inches) + (halves++ % 2 === 0 ? 1 : 0) : Math.round(inches);
      // What is left may be a slice or a strip, a part of a board.
      total += Math.min(1, left) * ((booked * feet * thickness) / 12);
    }
  }
  return total;
}
