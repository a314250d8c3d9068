import { ringArea } from '../geometry/ring.ts';
import type { Board } from '../model/stock.ts';
import { boardFeet } from '../units/lumber.ts';

/** Exact board feet of one board: its whole outline, defects included, at its measured thickness. */
export function boardFeetOf(board: Board): number {
  return boardFeet(ringArea(board.outline), board.thickness);
}
