import { type Box, boxArea, boxesMeet, boxHolds, boxIntersection, grownBox } from '../../geometry/shapes.ts';
import type { Offcut } from '../../model/layout.ts';
import { keeperName } from '../board/keeper-marks.ts';
import type { MarkRole, TextMark } from '../marks/marks.ts';
import { textBox } from '../marks/text-width.ts';
import type { BoxedMarks } from './boxed-marks.ts';
import { SPARE } from './needed-windows.ts';

/** What a name is not set on: a leader may cross a keeper to its label beside the board. */
const BARRING: ReadonlySet<MarkRole> = new Set(['leader', 'label', 'reported-label', 'part-number']);

/** A page that is printed: what it shows of the board, and what is left of that once trimmed along its seams, mm. */
export interface TrimmedPage {
  readonly window: Box;
  readonly own: Box;
}

/**
 * Names of keepers of which no page shows the middle, by the page that shows most of them: the cut that parts a keeper off
 * would stand there unnamed.
 */
export function keeperNames<Page extends TrimmedPage>(
  offcuts: readonly Offcut[],
  marks: BoxedMarks,
  pages: readonly Page[],
): Map<Page, TextMark[]> {
  const barring = marks.indices((role) => BARRING.has(role));
  const names = new Map<Page, TextMark[]>();
  offcuts.forEach(({ rectangle }, i) => {
    const middle = keeperName(i, rectangle);
    if (middle === undefined || pages.some(({ window }) => boxHolds(window, textBox(middle)))) return;
    const pieces = pages
      .map((page) => ({ page, piece: boxIntersection(rectangle, grownBox(page.own, -SPARE)) }))
      .filter(({ piece }) => piece.minX < piece.maxX && piece.minY < piece.maxY)
      .sort((a, b) => boxArea(b.piece) - boxArea(a.piece));
    for (const { page, piece } of pieces) {
      const name = keeperName(i, piece);
      if (name === undefined || barring.some((mark) => boxesMeet(marks.box(mark), textBox(name), 1)))
        continue;
      names.set(page, [...(names.get(page) ?? []), name]);
      return;
    }
  });
  return names;
}
