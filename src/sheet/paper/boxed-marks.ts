import { type Box, boxRing, type Line } from '../../geometry/shapes.ts';
import type { BoardMarks } from '../board/board-marks.ts';
import { type DrawnMark, flatMarks, type MarkRole } from '../marks/marks.ts';
import { textBox } from '../marks/text-width.ts';

const INSIDE_OUT = [Infinity, Infinity, -Infinity, -Infinity];

/**
 * The marks of a drawing, none in a group, with the boxes around them: every page of a board asks which of them it
 * shows. The boxes lie side by side in one list, for as objects those of a job would be as many megabytes as all else
 * that is drawn.
 */
export class BoxedMarks {
  readonly marks: readonly DrawnMark[];
  /** The box that the whole drawing takes, mm. */
  readonly whole: Box;
  /** Where each page has its arrow for the grain; undefined where it has none. */
  readonly grainRow: Box | undefined;
  /** minX, minY, maxX, maxY of one mark after the other, mm. */
  readonly #boxes: Float64Array;

  constructor({ marks, box, grainRow }: BoardMarks) {
    this.marks = flatMarks(marks);
    this.whole = box;
    this.grainRow = grainRow;
    this.#boxes = new Float64Array(4 * this.marks.length);
    this.marks.forEach((mark, i) => {
      this.#boxes.set(INSIDE_OUT, 4 * i);
      if (mark.kind === 'text') this.#grow(i, boxRing(textBox(mark)));
      else if (mark.kind === 'line') this.#grow(i, mark.points);
      else for (const ring of mark.rings) this.#grow(i, ring);
    });
  }

  /** By index and into the list: this runs over every point of a job. */
  #grow(i: number, points: Line): void {
    const boxes = this.#boxes;
    for (let k = 0; k < points.length; k++) {
      const x = points[k][0];
      const y = points[k][1];
      if (x < boxes[4 * i]) boxes[4 * i] = x;
      if (y < boxes[4 * i + 1]) boxes[4 * i + 1] = y;
      if (x > boxes[4 * i + 2]) boxes[4 * i + 2] = x;
      if (y > boxes[4 * i + 3]) boxes[4 * i + 3] = y;
    }
  }

  /** The indices of marks in roles that are wanted. */
  indices(isWanted: (role: MarkRole) => boolean): number[] {
    const found: number[] = [];
    this.marks.forEach(({ role }, i) => {
      if (isWanted(role)) found.push(i);
    });
    return found;
  }

  /** The box around the mark of an index, without the width of its line, mm; of one without points it is inside out. */
  box(i: number): Box {
    const [minX, minY, maxX, maxY] = this.#boxes.subarray(4 * i, 4 * i + 4);
    return { minX, minY, maxX, maxY };
  }

  /** True when the box of the mark of an index is within `margin` mm of another one. */
  meets(i: number, { minX, minY, maxX, maxY }: Box, margin: number): boolean {
    const boxes = this.#boxes;
    return (
      boxes[4 * i] <= maxX + margin &&
      minX <= boxes[4 * i + 2] + margin &&
      boxes[4 * i + 1] <= maxY + margin &&
      minY <= boxes[4 * i + 3] + margin
    );
  }
}
