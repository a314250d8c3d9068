import { combineRegions } from '../geometry/clipper.ts';
import type { Board, Usable } from '../model/stock.ts';
import { largestOf, trimmedOutline } from './trim.ts';

/**
 * What may be used of a board: its trimmed outline less its defects. A defect over the edge bites into the outline;
 * when defects part the board, the largest piece is what is used.
 */
export function usableOf(board: Board): Usable {
  const trimmed = trimmedOutline(board);
  if (board.defects.length === 0 || trimmed.outline.length === 0) return trimmed;
  const defects = board.defects.map((outline) => ({ outline, openings: [] }));
  return largestOf(combineRegions('difference', [trimmed], defects));
}
