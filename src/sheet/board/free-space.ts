import type { Box, Line, Point, Region } from '../../geometry/shapes.ts';

/** A place found: its upper left cell, and how far its centre lies from where it is wanted (squared, in cells). */
interface Candidate {
  readonly index: number;
  readonly distance: number;
}

/** Sides of an upright rectangle that wants a place, mm. */
export interface WantedSize {
  readonly width: number;
  readonly height: number;
}

/** Where a place is looked for. */
export interface Vicinity {
  readonly target: Point;
  /** Farthest the rectangle's centre may lie from the target along x or y, mm. */
  readonly reach: number;
}

/**
 * A map of where text may stand: square cells over a box, each free or taken. Whether an upright rectangle is
 * free is answered in constant time from sums over the cells (summed-area table, Crow 1984). The answer is on
 * the safe side: a rectangle called free touches nothing that was taken, with the distance asked for. The price is that
 * room narrower than a cell more than the rectangle may be missed.
 */
export class FreeSpace {
  readonly #box: Box;
  readonly #cell: number;
  readonly #columns: number;
  readonly #rows: number;
  readonly #free: Uint8Array;
  /** Taken cells above and to the left of each corner; made when first asked for after a change. */
  #sums: Int32Array | undefined;

  /**
   * @param box what the map covers, mm; all of it is taken at first
   * @param cell side of a cell in mm; grows where the map would have more than 4 million cells
   */
  constructor(box: Box, cell: number) {
    const area = Math.max(0, box.maxX - box.minX) * Math.max(0, box.maxY - box.minY);
    this.#box = box;
    this.#cell = Math.max(cell, Math.sqrt(area / 4e6));
    this.#columns = Math.max(1, Math.ceil((box.maxX - box.minX) / this.#cell));
    this.#rows = Math.max(1, Math.ceil((box.maxY - box.minY) / this.#cell));
    this.#free = new Uint8Array(this.#columns * this.#rows);
  }

  /** Frees every cell whose centre lies in the solid of the region. */
  freeInside(region: Region): void {
    this.#paint(region, 1);
  }

  /** Takes every cell whose centre lies in the solid of the region. */
  takeInside(region: Region): void {
    this.#paint(region, 0);
  }

  /** Takes every cell that any point of the line comes nearer to than `distance` mm. */
  takeAlong(line: Line, distance: number, closed: boolean): void {
    const pairs = closed ? line.length : line.length - 1;
    for (let i = 0; i < pairs; i++) this.#takeSegment(line[i], line[(i + 1) % line.length], distance);
    this.#sums = undefined;
  }

  /** Takes every cell that a rectangle touches. */
  takeBox(box: Box): void {
    const [c0, c1] = this.#span(box.minX, box.maxX, this.#box.minX, this.#columns);
    const [r0, r1] = this.#span(box.minY, box.maxY, this.#box.minY, this.#rows);
    // A box beside the map ends before its first cell, which `fill` would count from the last one back.
    if (c1 < c0) return;
    for (let row = r0; row <= r1; row++)
      this.#free.fill(0, row * this.#columns + c0, row * this.#columns + c1 + 1);
    this.#sums = undefined;
  }

  /** The free rectangle whose centre is nearest to `target`, or undefined when there is none. */
  nearest(size: WantedSize, target: Point): Box | undefined {
    let best: Candidate | undefined;
    for (const candidate of this.#fitting(size, { target, reach: Number.POSITIVE_INFINITY })) {
      if (best === undefined || candidate.distance < best.distance) best = candidate;
    }
    return best === undefined ? undefined : this.#boxAt(best.index, size);
  }

  /**
   * The free rectangle nearest to the target that `accepts` agrees to. It is asked from near to far, some `patience`
   * times; when there are more places than that, evenly spread over all of them.
   */
  nearestAccepted(
    size: WantedSize,
    vicinity: Vicinity,
    accepts: (box: Box) => boolean,
    patience = 300,
  ): Box | undefined {
    const found = [...this.#fitting(size, vicinity)];
    // The index decides between places as near as each other, so that the same board gets the same sheet.
    found.sort((a, b) => a.distance - b.distance || a.index - b.index);
    const step = Math.max(1, Math.floor(found.length / patience));
    for (let i = 0; i < found.length; i += step) {
      const box = this.#boxAt(found[i].index, size);
      if (accepts(box)) return box;
    }
    return undefined;
  }

  /**
   * All places for a rectangle, with the squared distance of its centre from the target in cells. The rectangle is rounded
   * up to whole cells, and set in the middle of them: it has the rest of a cell free on either side.
   */
  *#fitting({ width, height }: WantedSize, { target, reach }: Vicinity): Generator<Candidate> {
    const sums = this.#summed();
    const stride = this.#columns + 1;
    const columns = Math.ceil(width / this.#cell);
    const rows = Math.ceil(height / this.#cell);
    const tx = (target[0] - this.#box.minX) / this.#cell - columns / 2;
    const ty = (target[1] - this.#box.minY) / this.#cell - rows / 2;
    const window = reach / this.#cell;
    const lastRow = Math.min(this.#rows - rows, Math.floor(ty + window));
    const lastColumn = Math.min(this.#columns - columns, Math.floor(tx + window));
    for (let row = Math.max(0, Math.ceil(ty - window)); row <= lastRow; row++) {
      for (let column = Math.max(0, Math.ceil(tx - window)); column <= lastColumn; column++) {
        const a = row * stride + column;
        const b = a + rows * stride;
        if (sums[b + columns] - sums[b] - sums[a + columns] + sums[a] !== 0) continue;
        yield { index: row * this.#columns + column, distance: (column - tx) ** 2 + (row - ty) ** 2 };
      }
    }
  }

  /** The rectangle in mm whose upper left cell is this one. */
  #boxAt(index: number, { width, height }: WantedSize): Box {
    const columns = Math.ceil(width / this.#cell);
    const rows = Math.ceil(height / this.#cell);
    const minX = this.#box.minX + ((index % this.#columns) + columns / 2) * this.#cell - width / 2;
    const minY = this.#box.minY + (Math.floor(index / this.#columns) + rows / 2) * this.#cell - height / 2;
    return { minX, minY, maxX: minX + width, maxY: minY + height };
  }

  /** One row and one column more than there are cells, both 0: no rectangle at an edge has to be a case of its own. */
  #summed(): Int32Array {
    if (this.#sums !== undefined) return this.#sums;
    const stride = this.#columns + 1;
    const sums = new Int32Array(stride * (this.#rows + 1));
    for (let row = 0; row < this.#rows; row++) {
      let taken = 0;
      for (let column = 0; column < this.#columns; column++) {
        taken += 1 - this.#free[row * this.#columns + column];
        sums[(row + 1) * stride + column + 1] = sums[row * stride + column + 1] + taken;
      }
    }
    this.#sums = sums;
    return sums;
  }

  #takeSegment([ax, ay]: Point, [bx, by]: Point, distance: number): void {
    // Half a diagonal more, so that no corner of a cell left free is nearer than asked for.
    const reach = distance + this.#cell * Math.SQRT1_2;
    const dx = bx - ax;
    const dy = by - ay;
    // A segment of no length is a point: the share along it is then 0 and not NaN.
    const squared = Math.max(Number.MIN_VALUE, dx * dx + dy * dy);
    const [c0, c1] = this.#span(
      Math.min(ax, bx) - reach,
      Math.max(ax, bx) + reach,
      this.#box.minX,
      this.#columns,
    );
    const [r0, r1] = this.#span(
      Math.min(ay, by) - reach,
      Math.max(ay, by) + reach,
      this.#box.minY,
      this.#rows,
    );
    for (let row = r0; row <= r1; row++) {
      const y = this.#box.minY + (row + 0.5) * this.#cell;
      for (let column = c0; column <= c1; column++) {
        // Short segments of a curve share most of their cells.
        if (this.#free[row * this.#columns + column] === 0) continue;
        const x = this.#box.minX + (column + 0.5) * this.#cell;
        const t = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / squared));
        const ex = x - ax - t * dx;
        const ey = y - ay - t * dy;
        if (ex * ex + ey * ey <= reach * reach) this.#free[row * this.#columns + column] = 0;
      }
    }
  }

  /** First and last cell between two coordinates, kept inside the map; last < first when they miss it. */
  #span(from: number, to: number, origin: number, count: number): [number, number] {
    const first = Math.max(0, Math.floor((from - origin) / this.#cell));
    const last = Math.min(count - 1, Math.floor((to - origin) / this.#cell));
    return [first, last];
  }

  /** Sets all cells whose centre is inside by the even-odd rule: between each odd crossing of their row and the next. */
  #paint(region: Region, value: 0 | 1): void {
    const rows = this.#crossings(region);
    rows.forEach((xs, row) => {
      xs.sort((a, b) => a - b);
      for (let i = 0; i + 1 < xs.length; i += 2) {
        const first = Math.max(0, Math.ceil((xs[i] - this.#box.minX) / this.#cell - 0.5));
        const last = Math.min(this.#columns - 1, Math.floor((xs[i + 1] - this.#box.minX) / this.#cell - 0.5));
        if (last >= first) {
          this.#free.fill(value, row * this.#columns + first, row * this.#columns + last + 1);
        }
      }
    });
    this.#sums = undefined;
  }

  /** Where the middle of each row crosses the rings of a region, by row; rows without a crossing are left out. */
  #crossings(region: Region): Map<number, number[]> {
    const rows = new Map<number, number[]>();
    for (const ring of [region.outline, ...region.openings]) {
      for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
        const [ax, ay] = ring[j];
        const [bx, by] = ring[i];
        const first = Math.ceil((Math.min(ay, by) - this.#box.minY) / this.#cell - 0.5);
        const last = Math.floor((Math.max(ay, by) - this.#box.minY) / this.#cell - 0.5);
        for (let row = Math.max(0, first); row <= Math.min(this.#rows - 1, last); row++) {
          const y = this.#box.minY + (row + 0.5) * this.#cell;
          // Half-open, so that a vertex that lies on the middle of a row counts once.
          if (ay > y === by > y) continue;
          const xs = rows.get(row) ?? [];
          xs.push(ax + ((y - ay) / (by - ay)) * (bx - ax));
          rows.set(row, xs);
        }
      }
    }
    return rows;
  }
}
