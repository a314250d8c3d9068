import type { Box, Line, Point } from '../../geometry/shapes.ts';
import { crossesLine } from './straight-way.ts';

/**
 * Sides of lines near a place, to be looked through some hundred times. One list serves all cuts of a board in turn: a
 * job has thousands of cuts with hundreds of sides around each, and lists of their own would be garbage many times the
 * size of its pages. In mm.
 */
export class Sides {
  /** ax, ay, bx, by of one side after the other; the first `#count` numbers are good. */
  #coordinates = new Float64Array(1 << 10);
  #count = 0;

  /** Begins anew. */
  empty(): void {
    this.#count = 0;
  }

  /** Adds the sides of a line, closed or not, that may reach into a window. */
  addNear({ minX, minY, maxX, maxY }: Box, line: Line, closed: boolean): void {
    // By index: this runs over every point near every cut of a job.
    for (let i = closed ? 0 : 1; i < line.length; i++) {
      const a = line[i === 0 ? line.length - 1 : i - 1];
      const b = line[i];
      if ((a[0] < minX && b[0] < minX) || (a[0] > maxX && b[0] > maxX)) continue;
      if ((a[1] < minY && b[1] < minY) || (a[1] > maxY && b[1] > maxY)) continue;
      this.#add(a, b);
    }
  }

  /**
   * True when any side comes into a box, by its sides: the box of a number is tried at hundreds of places. Sides wholly
   * to one side of it are done with at once; of the rest, one misses it when all corners lie on one side of it.
   */
  anyIn(minX: number, minY: number, maxX: number, maxY: number): boolean {
    const coordinates = this.#coordinates;
    const count = this.#count;
    for (let i = 0; i < count; i += 4) {
      const ax = coordinates[i];
      const ay = coordinates[i + 1];
      const bx = coordinates[i + 2];
      const by = coordinates[i + 3];
      if ((ax < minX && bx < minX) || (ax > maxX && bx > maxX)) continue;
      if ((ay < minY && by < minY) || (ay > maxY && by > maxY)) continue;
      const dx = bx - ax;
      const dy = by - ay;
      const corner = dx * (minY - ay) - dy * (minX - ax);
      const across = dy * (maxX - minX);
      const down = dx * (maxY - minY);
      const isLeft = corner > 0 && corner - across > 0 && corner + down > 0 && corner + down - across > 0;
      const isRight = corner < 0 && corner - across < 0 && corner + down < 0 && corner + down - across < 0;
      if (!isLeft && !isRight) return true;
    }
    return false;
  }

  /** True when the straight way between two points crosses any side. One that only touches an end may pass for either. */
  anyCrossedBy(from: Point, to: Point): boolean {
    const at = (i: number): Point => [this.#coordinates[i], this.#coordinates[i + 1]];
    for (let i = 0; i < this.#count; i += 4) {
      if (crossesLine(from, to, [at(i), at(i + 2)], false)) return true;
    }
    return false;
  }

  #add(a: Point, b: Point): void {
    if (this.#count === this.#coordinates.length) {
      const larger = new Float64Array(2 * this.#count);
      larger.set(this.#coordinates);
      this.#coordinates = larger;
    }
    this.#coordinates[this.#count] = a[0];
    this.#coordinates[this.#count + 1] = a[1];
    this.#coordinates[this.#count + 2] = b[0];
    this.#coordinates[this.#count + 3] = b[1];
    this.#count += 4;
  }
}
