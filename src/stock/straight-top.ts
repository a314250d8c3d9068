import { ROUNDING_OF_SIDES } from '../geometry/integer-grid.ts';
import { boundsOf, type Region } from '../geometry/shapes.ts';
import type { Board } from '../model/stock.ts';

/**
 * Whether the top edge of a board is straight too, so that parts may stand on it: it is said to be, is ripped off by the
 * trim, or is that of a whole sheet, which leaves the factory square (common practice, no source). Where a crack or another
 * defect runs all along it, what may be used ends at that, and no part stands on it.
 *
 * @param usable what may be used of the board, mm
 */
export function hasStraightTop(board: Board, usable: Region): boolean {
  if (!isStraightAbove(board)) return false;
  const { outline, trim } = board;
  const edge = boundsOf(outline).minY + (trim?.topEdge ?? 0);
  return boundsOf(usable.outline).minY <= edge + ROUNDING_OF_SIDES;
}

/** Whether the top edge of a board is straight, sound or not. */
export function isStraightAbove({
  straightTopEdge,
  sheet = false,
  keeper = false,
  trim,
}: Pick<Board, 'straightTopEdge' | 'sheet' | 'keeper' | 'trim'>): boolean {
  return straightTopEdge ?? ((sheet && !keeper) || (trim !== undefined && trim.topEdge > 0));
}
