import { ROUNDING_OF_SIDES } from '../geometry/integer-grid.ts';
import { boundsOf, type Region, type Ring } from '../geometry/shapes.ts';
import type { Board } from '../model/stock.ts';
import { trimmedOutline } from './trim.ts';

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

/**
 * Where the straight edge of a board lies, mm. Where a crack or another defect runs all along it, what may be used ends before,
 * and no part stands there.
 *
 * @param usable what may be used of the board, mm
 */
export function straightEdgeAt(board: Board, usable: Region): number {
  const { outline } = board.defects.length === 0 ? usable : trimmedOutline(board);
  return boundsOf(outline).maxY;
}

/** Whether what may be used of a board reaches its straight edge; a waney one is reached where it is lowest. */
export function reachesStraightEdge(board: Board, usable: Region): boolean {
  return boundsOf(usable.outline).maxY >= straightEdgeAt(board, usable) - ROUNDING_OF_SIDES;
}

/** Share of its length over which an edge has to be level for parts to stand on it. */
const LEVEL_SHARE = 0.5;

/** How far a side may be off the height of its edge to be level with it, mm: by rounding, and no more. */
export const LEVEL = 1e-6;

/**
 * Whether an outline is level at a height, its least or its greatest y (mm), over half of its length at least.
 *
 * @param span between which two x it is looked at, mm; all of it when left out
 */
export function isLevelAt(
  outline: Ring,
  height: number,
  span?: readonly [from: number, to: number],
): boolean {
  const { minX, maxX } = boundsOf(outline);
  const [from, to] = span ?? [minX, maxX];
  const level = outline.reduce((length, [x, y], i) => {
    const [toX, toY] = outline[(i + 1) % outline.length];
    const lies = Math.abs(y - height) < LEVEL && Math.abs(toY - height) < LEVEL;
    const shared = Math.min(to, Math.max(x, toX)) - Math.max(from, Math.min(x, toX));
    return lies ? length + Math.max(0, shared) : length;
  }, 0);
  return level >= LEVEL_SHARE * (to - from);
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
