import { regionBounds } from '../geometry/ring.ts';
import { boundsOf } from '../geometry/shapes.ts';
import type { LaidBoard } from './layout.ts';

/** An edge or end is trimmed where what may be used ends farther than this from it, mm: a tenth of the finest saw cut. */
const TRIMMED = 0.05;

/** How much is ripped off the edges of a board and cross-cut off its ends before the paper goes on, mm; 0 where nothing is. */
export interface TrimmedSides {
  readonly topEdge: number;
  readonly straightEdge: number;
  readonly leftEnd: number;
  readonly rightEnd: number;
}

/** What is trimmed off a board, by the outermost points of its outline; none of it where the outline is not stated. */
export function trimmedSides({ outline, usable }: Pick<LaidBoard, 'outline' | 'usable'>): TrimmedSides {
  if (outline === undefined) return { topEdge: 0, straightEdge: 0, leftEnd: 0, rightEnd: 0 };
  const [whole, left] = [boundsOf(outline), regionBounds(usable)];
  const trimmed = (gap: number) => (gap > TRIMMED ? gap : 0);
  return {
    topEdge: trimmed(left.minY - whole.minY),
    straightEdge: trimmed(whole.maxY - left.maxY),
    leftEnd: trimmed(left.minX - whole.minX),
    rightEnd: trimmed(whole.maxX - left.maxX),
  };
}
