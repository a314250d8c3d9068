import { boundsOf, type Line } from '../../geometry/shapes.ts';
import type { LaidBoard, Placement } from '../../model/layout.ts';
import { MARK_STYLES } from '../marks/mark-styles.ts';
import { line, type Mark } from '../marks/marks.ts';
import { STANDING, straightEdge, topEdgeStoodOn } from './straight-edge.ts';

/** From an edge to the middle of the thick line outside of it, mm: no saw line is covered. */
const OUTSIDE = 0.7;

/** How far the thick line reaches out from its edge, mm. */
export const THICK_REACH = OUTSIDE + MARK_STYLES['rest-edge'].width / 2;

/** Thick lines outside the sides of an edge: below the straight one, above the top one. */
export function thickLines(sides: readonly Line[], edge: 'straight' | 'top'): Mark[] {
  const out = edge === 'straight' ? OUTSIDE : -OUTSIDE;
  return sides.map(([from, to]) => line('rest-edge', [from[0], from[1] + out], [to[0], to[1] + out]));
}

/** Least length along an edge that a part lies on it with, mm: a curve touches it in a point, and is sawn there too. */
const LEAST_BOTTOM = 1;

/** The edges of a board that one part lies on, each as far as its bottom reaches along it. */
export function edgesUnder(board: LaidBoard, placement: Placement): Record<'straight' | 'top', Line[]> {
  const { minY, maxY } = boundsOf(board.usable.outline);
  const along = (sides: readonly Line[] = [], height: number) => {
    const lying = placement.region.outline.filter(([, y]) => Math.abs(y - height) < STANDING).map(([x]) => x);
    return sides.flatMap(([from, to]): Line[] => {
      const left = Math.max(Math.min(...lying), Math.min(from[0], to[0]));
      const right = Math.min(Math.max(...lying), Math.max(from[0], to[0]));
      const side: Line = [
        [left, from[1]],
        [right, to[1]],
      ];
      return right - left < LEAST_BOTTOM ? [] : [side];
    });
  };
  return {
    straight: along(straightEdge(board), maxY),
    top: along(topEdgeStoodOn(board), minY),
  };
}
