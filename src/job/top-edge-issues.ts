import { boundsOf } from '../geometry/shapes.ts';
import type { Issue } from '../issues/issue.ts';
import type { Demand } from '../model/batch.ts';
import type { Board } from '../model/stock.ts';
import { hasStraightTop, isLevelAt } from '../stock/sound-edges.ts';
import { usableOf } from '../stock/usable.ts';

/**
 * A warning for every board that is said to be straight above and is not as it is drawn, where parts are to stand on edges: a
 * traced edge is off by tenths of a millimetre, nothing would stand there, and nothing else would tell why.
 */
export function topEdgeIssues(boards: readonly Board[], demands: readonly Demand[], file: string): Issue[] {
  if (!demands.some(({ rules }) => rules.restEdge)) return [];
  return boards.flatMap((board): Issue[] => {
    const { id, straightTopEdge } = board;
    const usable = usableOf(board);
    if (straightTopEdge !== true || usable.outline.length === 0) return [];
    const isSound = hasStraightTop(board, usable);
    if (isSound && isLevelAt(usable.outline, boundsOf(usable.outline).minY)) return [];
    return [
      {
        kind: 'top-edge-not-straight',
        severity: 'warning',
        message: `the board is said to have a straight top edge, and ${isSound ? 'as it is drawn that is not level over half of its length' : 'a defect runs all along that'}: nothing stands there`,
        remedy:
          'Say how much of it is ripped off: "topEdge" under "trim". Parts then stand on the edge that is ripped.',
        where: { file, board: id, field: 'straightTopEdge' },
      },
    ];
  });
}
