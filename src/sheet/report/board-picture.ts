import { insidePoint } from '../../geometry/inside-point.ts';
import { boundsOf, boxesMeet } from '../../geometry/shapes.ts';
import { crossCutLines, ripsBeforeCrossCuts } from '../../model/cross-cuts.ts';
import type { LaidBoard, Placement } from '../../model/layout.ts';
import { line, type Mark, type MarkedDrawing, rectangle, rings } from '../marks/marks.ts';
import { textBox } from '../marks/text-width.ts';
import { pictureNumber } from './picture-number.ts';
import { groundMarks, type WoodLook } from './wood-looks.ts';

/**
 * A small picture of a board for the report: parts as solids, each with the number it has in the table of parts, and
 * the cross-cuts between its sections.
 *
 * @param numberOf number of a placement's kind in the table
 */
export function boardPicture(
  board: LaidBoard,
  look: WoodLook,
  numberOf: (placement: Placement) => number,
): MarkedDrawing {
  const box = boundsOf(board.usable.outline);
  const width = box.maxX - box.minX;
  // So that numbers read when the picture is about a page wide.
  const size = width / 60;
  const marks: Mark[] = [
    rings('picture-board', board.usable.outline),
    ...groundMarks(board.usable, look, width / 150),
    ...board.usable.openings.map((opening) => rings('defect', opening)),
    ...board.placements.map(({ region }) => rings(look.part, region.outline, ...region.openings)),
    ...[...ripsBeforeCrossCuts(board), ...crossCutLines(board)].map((each) =>
      line('picture-section', ...each),
    ),
    ...numberMarks(board.placements, numberOf, size),
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

/** The numbers of parts; one that would run into that of a roomier part is left out, for neither could be read. */
function numberMarks(
  placements: readonly Placement[],
  numberOf: (placement: Placement) => number,
  largest: number,
): Mark[] {
  const numbers = placements.map((placement) => {
    const inside = insidePoint(placement.region, 0.5);
    const mark = pictureNumber(numberOf(placement), inside, largest);
    // Figures do not reach below their line.
    return { mark, box: { ...textBox(mark), maxY: mark.at[1] }, room: inside.radius };
  });
  const kept = new Set<(typeof numbers)[number]>();
  for (const number of numbers.toSorted((a, b) => b.room - a.room)) {
    if (![...kept].some(({ box }) => boxesMeet(box, number.box))) kept.add(number);
  }
  return numbers.filter((number) => kept.has(number)).map(({ mark }) => mark);
}

/** A sample of the look of a wood, 12 mm by 6 mm. */
export function woodSample(look: WoodLook): MarkedDrawing {
  const board = rectangle(0, 0, 12, 6);
  return {
    ...{ x: -0.5, y: -0.5, width: 13, height: 7 },
    marks: [
      rings('picture-board', board),
      ...groundMarks({ outline: board, openings: [] }, look, 1.5),
      rings(look.part, rectangle(6, 0, 6, 6)),
    ],
  };
}
