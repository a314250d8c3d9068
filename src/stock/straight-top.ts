import type { Board } from '../model/stock.ts';

/**
 * Whether the top edge of a board is straight too, so that parts may stand on it: it is said to be, is ripped off by the
 * trim, or is that of a whole sheet, which leaves the factory square (common practice, no source).
 */
export function hasStraightTop({
  straightTopEdge,
  sheet = false,
  keeper = false,
  trim,
}: Pick<Board, 'straightTopEdge' | 'sheet' | 'keeper' | 'trim'>): boolean {
  return straightTopEdge ?? ((sheet && !keeper) || (trim !== undefined && trim.topEdge > 0));
}
