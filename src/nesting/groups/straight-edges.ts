import { boundsOf, type Region } from '../../geometry/shapes.ts';
import type { Board } from '../../model/stock.ts';
import { hasStraightTop, straightEdgeAt } from '../../stock/sound-edges.ts';

/** Where the edges of a board lie that parts may stand on, mm: a section of it may end before them. */
export interface StraightEdges {
  readonly straightEdge: number;
  /** Undefined where the top edge is not straight. */
  readonly straightTop: number | undefined;
}

/**
 * The edges of a board that parts may stand on.
 *
 * @param usable what may be used of the board, mm
 */
export function straightEdgesOf(board: Board, usable: Region): StraightEdges {
  return {
    straightEdge: straightEdgeAt(board, usable),
    straightTop: hasStraightTop(board, usable) ? boundsOf(usable.outline).minY : undefined,
  };
}
