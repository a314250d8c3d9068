import { insidePoint } from '../../geometry/inside-point.ts';
import { boundsOf } from '../../geometry/shapes.ts';
import type { LaidBoard, Placement } from '../../model/layout.ts';
import type { MarkedDrawing, TextMark } from '../marks/marks.ts';
import { type Mark, rings, text } from '../marks/marks.ts';

/**
 * A small picture of a board for the report: parts as solids, each with the number it has in the table of parts.
 *
 * @param numberOf number of a placement's kind in the table
 */
export function boardPicture(board: LaidBoard, numberOf: (placement: Placement) => number): MarkedDrawing {
  const box = boundsOf(board.usable.outline);
  const width = box.maxX - box.minX;
  // So that numbers read when the picture is about a page wide.
  const size = width / 60;
  const marks: Mark[] = [
    rings('picture-board', board.usable.outline),
    ...board.usable.openings.map((opening) => rings('defect', opening)),
    ...board.placements.map(({ region }) => rings('picture-part', region.outline, ...region.openings)),
    ...board.placements.map((placement) => numberMark(placement, numberOf(placement), size)),
  ];
  const border = width / 200 + 1;
  return {
    x: box.minX - border,
    y: box.minY - border,
    width: width + 2 * border,
    height: box.maxY - box.minY + 2 * border,
    marks,
  };
}

function numberMark(placement: Placement, number: number, largest: number): TextMark {
  const { at, radius } = insidePoint(placement.region, 0.5);
  const size = Math.max(largest / 2, Math.min(largest, 1.2 * radius));
  return text('picture-number', `${number}`, [at[0], at[1] + 0.36 * size], size, 'middle');
}
