import { edgeEnds } from './edge-ends.ts';
import { regionBounds } from './ring.ts';
import type { Line, Region } from './shapes.ts';

/**
 * What lines leave of a region, seen in level rows: in each the stretches clear of lines, joined with those of the row
 * above that they meet. Lines may cross one another as often as they like: only their length costs time.
 */

/** Height of a row at most, mm, up to a metre: a way through between lines that is no wider may be missed. */
const ROW = 0.05;

/** Most rows: those of a region higher than a metre, which no saw parts so finely, are as much higher. */
const MOST_ROWS = 20_000;

/** Stretches of two rows that have no more than this in common, mm, meet in the point where a line goes on. */
const MEETING = 1e-6;

/**
 * Areas, mm2, of the pieces that open lines leave of a region, in no order.
 *
 * @param halfWidth how far a line reaches to either side and around its ends, mm; by up to a row's height more is taken
 */
export function partedAreas(region: Region, lines: readonly Line[], halfWidth: number): number[] {
  const { minY, maxY } = regionBounds(region);
  const rows = Math.min(MOST_ROWS, Math.ceil((maxY - minY) / ROW));
  const height = (maxY - minY) / rows;
  const edges = new Sweep(edgeEnds([region.outline, ...region.openings]), 0);
  const cuts = new Sweep(endsOf(lines), halfWidth);
  const pieces = new Pieces();
  for (let row = 0; row < rows; row++) {
    const top = minY + row * height;
    // The region as it is in the middle of a row, lines in all of its height: they end where the region does, or beyond.
    const middle = top + height / 2;
    const sides = edges.between(middle, middle);
    const taken = cuts.between(top - halfWidth, top + height + halfWidth);
    let next = 0;
    let clear = Number.NEGATIVE_INFINITY;
    for (let k = 0; k + 1 < sides.length; k += 2) {
      const right = sides[k + 1].left;
      clear = Math.max(clear, sides[k].left);
      for (; next < taken.length && taken[next].left < right; next++) {
        if (taken[next].left > clear) pieces.add(clear, taken[next].left);
        clear = Math.max(clear, taken[next].right);
      }
      if (clear < right) pieces.add(clear, right);
    }
    pieces.endRow();
  }
  return pieces.widths().map((width) => width * height);
}

/** Ends of every straight piece of the lines, [ax, ay, bx, by] one after the other. */
function endsOf(lines: readonly Line[]): number[] {
  return lines.flatMap((line) => line.slice(1).flatMap(([x, y], i) => [...line[i], x, y]));
}

/** A straight piece from its upper end down, and what it takes of the row at hand from left to right, mm. */
interface Straight {
  readonly x: number;
  readonly y: number;
  readonly endX: number;
  readonly endY: number;
  left: number;
  right: number;
}

/** Straight pieces, met from the top down. */
class Sweep {
  private readonly byTop: Straight[] = [];
  private next = 0;
  private active: Straight[] = [];
  private readonly halfWidth: number;

  constructor(ends: ArrayLike<number>, halfWidth: number) {
    this.halfWidth = halfWidth;
    for (let i = 0; i < ends.length; i += 4) {
      const [a, b] = ends[i + 1] <= ends[i + 3] ? [i, i + 2] : [i + 2, i];
      this.byTop.push({ x: ends[a], y: ends[a + 1], endX: ends[b], endY: ends[b + 1], left: 0, right: 0 });
    }
    this.byTop.sort((a, b) => a.y - b.y);
  }

  /** Those that come between two heights, from left to right; half-open, so that of edges that meet at a height one counts. */
  between(top: number, bottom: number): readonly Straight[] {
    const { byTop, halfWidth } = this;
    while (this.next < byTop.length && byTop[this.next].y <= bottom) this.active.push(byTop[this.next++]);
    this.active = this.active.filter(({ endY }) => endY > top);
    for (const straight of this.active) {
      const { x, y, endX, endY } = straight;
      const slope = endY > y ? (endX - x) / (endY - y) : 0;
      const a = y < top ? x + slope * (top - y) : x;
      const b = endY > bottom ? x + slope * (bottom - y) : endX;
      straight.left = Math.min(a, b) - halfWidth;
      straight.right = Math.max(a, b) + halfWidth;
    }
    // Nearly sorted from the row before, which is quick.
    return this.active.sort((a, b) => a.left - b.left);
  }
}

/** A stretch of a row, mm, and the piece it belongs to. */
interface Stretch {
  readonly left: number;
  readonly right: number;
  readonly piece: number;
}

/** Pieces as they grow row by row, in a forest: every one points to another that it hangs together with, or to itself. */
class Pieces {
  private readonly parent: number[] = [];
  /** What each has of all rows, mm. */
  private readonly width: number[] = [];
  private above: Stretch[] = [];
  private row: Stretch[] = [];
  private at = 0;

  /** Adds a stretch of the row at hand; they come from left to right. */
  add(left: number, right: number): void {
    const { above, width, parent } = this;
    while (this.at < above.length && above[this.at].right <= left + MEETING) this.at++;
    let piece = -1;
    for (let k = this.at; k < above.length && above[k].left < right - MEETING; k++) {
      const other = this.root(above[k].piece);
      if (piece < 0) piece = other;
      else if (other !== piece) {
        parent[other] = piece;
        width[piece] += width[other];
      }
    }
    if (piece < 0) {
      piece = parent.length;
      parent.push(piece);
      width.push(0);
    }
    width[piece] += right - left;
    this.row.push({ left, right, piece });
  }

  endRow(): void {
    this.above = this.row;
    this.row = [];
    this.at = 0;
  }

  widths(): number[] {
    return this.width.filter((_, piece) => this.parent[piece] === piece);
  }

  private root(piece: number): number {
    const { parent } = this;
    let root = piece;
    while (parent[root] !== root) {
      // Every second step is led past, which keeps the ways short.
      parent[root] = parent[parent[root]];
      root = parent[root];
    }
    return root;
  }
}
