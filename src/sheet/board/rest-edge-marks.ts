import { boundsOf, type Line } from '../../geometry/shapes.ts';
import type { LaidBoard, Placement } from '../../model/layout.ts';
import { MARK_STYLES } from '../marks/mark-styles.ts';
import { line, type Mark } from '../marks/marks.ts';
import { outlineBox } from './outline-box.ts';
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

/** The edges of a board that one part lies on, each as far as the part reaches along it. */
export function edgesUnder(board: LaidBoard, placement: Placement): Record<'straight' | 'top', Line[]> {
  const { minX, maxX, minY, maxY } = outlineBox(placement);
  const box = boundsOf(board.usable.outline);
  const along = (sides: readonly Line[] = []) =>
    sides.flatMap(([from, to]): Line[] => {
      const left = Math.max(minX, Math.min(from[0], to[0]));
      const right = Math.min(maxX, Math.max(from[0], to[0]));
      return left < right
        ? [
            [
              [left, from[1]],
              [right, to[1]],
            ],
          ]
        : [];
    });
  return {
    straight: maxY > box.maxY - STANDING ? along(straightEdge(board.usable)) : [],
    top: minY < box.minY + STANDING ? along(topEdgeStoodOn(board)) : [],
  };
}
