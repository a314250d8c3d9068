import { combineRegions } from '../geometry/clipper.ts';
import { regionArea } from '../geometry/ring.ts';
import type { Board, Usable } from '../model/stock.ts';

/**
 * What may be used of a board: its outline less its defects. A defect over the edge bites into the outline; when
 * defects part the board, the largest piece is what is used.
 */
export function usableOf(board: Board): Usable {
  const defects = board.defects.map((outline) => ({ outline, openings: [] }));
  const whole = { outline: board.outline, openings: [] };
  if (defects.length === 0) return whole;
  const pieces = combineRegions('difference', [whole], defects);
  return pieces.reduce((largest, piece) => (regionArea(piece) > regionArea(largest) ? piece : largest), {
    outline: [],
    openings: [],
  } as Usable);
}
