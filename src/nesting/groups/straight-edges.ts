import { boundsOf } from '../../geometry/shapes.ts';
import { hasStraightTop, straightEdgeAt } from '../../stock/sound-edges.ts';
import type { StockKind } from './group.ts';

/** Where the edges of a board lie that parts may stand on, mm: a section of it may end before them. */
export interface StraightEdges {
  readonly straightEdge: number;
  /** Undefined where the top edge is not straight. */
  readonly straightTop: number | undefined;
}

/** The edges of a kind of board that parts may stand on. */
export function straightEdgesOf({ board, usable }: Pick<StockKind, 'board' | 'usable'>): StraightEdges {
  return {
    straightEdge: straightEdgeAt(board, usable),
    straightTop: hasStraightTop(board, usable) ? boundsOf(usable.outline).minY : undefined,
  };
}
