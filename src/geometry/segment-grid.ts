import { edgeEnds } from './edge-ends.ts';
import type { Ring } from './shapes.ts';

/**
 * The edges of rings in square cells, for the nearest point of an outline within a bounded distance. Flat arrays;
 * a look-up allocates nothing and leaves its answer in the fields `x`, `y`, `edge` and `distance`, mm. At least one
 * edge is needed: without any the grid would have no extent.
 */
export class SegmentGrid {
  /** Nearest point of the last look-up. */
  x = 0;
  y = 0;
  /** Its edge, numbered through all rings; -1 when none was near enough. */
  edge = -1;
  distance = Number.POSITIVE_INFINITY;

  readonly count: number;
  /** Ends of every edge, [ax, ay, bx, by] one after the other. */
  private readonly ends: Float64Array;
  /** Ring that every edge belongs to. */
  private readonly ringOf: Int32Array;
  private readonly cellSize: number;
  private readonly minX: number;
  private readonly minY: number;
  private readonly columns: number;
  private readonly rows: number;
  /** Edges of cell k: `members` from `first[k]` to `first[k + 1]`. */
  private readonly first: Int32Array;
  private readonly members: Int32Array;

  /** @param reach greatest distance that will be asked for, mm */
  constructor(rings: readonly Ring[], reach: number) {
    this.ends = edgeEnds(rings);
    this.ringOf = Int32Array.from(
      rings.flatMap((ring, number) => new Array<number>(ring.length).fill(number)),
    );
    this.count = this.ends.length / 4;
    let minX = Number.POSITIVE_INFINITY;
    let minY = Number.POSITIVE_INFINITY;
    let maxX = Number.NEGATIVE_INFINITY;
    let maxY = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < this.ends.length; i += 2) {
      minX = Math.min(minX, this.ends[i]);
      maxX = Math.max(maxX, this.ends[i]);
      minY = Math.min(minY, this.ends[i + 1]);
      maxY = Math.max(maxY, this.ends[i + 1]);
    }
    // As large as the reach, so that a look-up visits 3 x 3 cells at most; larger where that would make more than about
    // a million cells. The last term keeps a single point from having cells of no size.
    this.cellSize = Math.max(reach, (maxX - minX) / 1000, (maxY - minY) / 1000, 1e-6);
    this.minX = minX;
    this.minY = minY;
    this.columns = Math.floor((maxX - minX) / this.cellSize) + 1;
    this.rows = Math.floor((maxY - minY) / this.cellSize) + 1;
    this.first = new Int32Array(this.columns * this.rows + 1);
    // Counted first and filled after: the members of all cells lie in one array without a gap.
    this.forEachCell((cell) => this.first[cell + 1]++);
    for (let k = 0; k < this.columns * this.rows; k++) this.first[k + 1] += this.first[k];
    this.members = new Int32Array(this.first[this.columns * this.rows]);
    const next = this.first.slice();
    this.forEachCell((cell, edge) => {
      this.members[next[cell]++] = edge;
    });
  }

  /**
   * Finds the nearest point of the outlines to (x, y) that is nearer than `within` mm; true when there is one.
   *
   * @param except number of a ring that does not count
   */
  nearest(x: number, y: number, within: number, except = -1): boolean {
    this.edge = -1;
    this.distance = within;
    const c0 = Math.max(0, Math.floor((x - within - this.minX) / this.cellSize));
    const c1 = Math.min(this.columns - 1, Math.floor((x + within - this.minX) / this.cellSize));
    const r0 = Math.max(0, Math.floor((y - within - this.minY) / this.cellSize));
    const r1 = Math.min(this.rows - 1, Math.floor((y + within - this.minY) / this.cellSize));
    for (let row = r0; row <= r1; row++) {
      for (let column = c0; column <= c1; column++) {
        const cell = row * this.columns + column;
        for (let m = this.first[cell]; m < this.first[cell + 1]; m++) {
          const edge = this.members[m];
          if (this.ringOf[edge] !== except) this.tryEdge(edge, x, y);
        }
      }
    }
    return this.edge >= 0;
  }

  private tryEdge(edge: number, x: number, y: number): void {
    const ax = this.ends[4 * edge];
    const ay = this.ends[4 * edge + 1];
    const dx = this.ends[4 * edge + 2] - ax;
    const dy = this.ends[4 * edge + 3] - ay;
    const squared = dx * dx + dy * dy;
    const t = squared > 0 ? Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / squared)) : 0;
    const px = ax + t * dx;
    const py = ay + t * dy;
    const distance = Math.hypot(x - px, y - py);
    if (distance >= this.distance) return;
    this.distance = distance;
    this.edge = edge;
    this.x = px;
    this.y = py;
  }

  /** Number of the ring that the nearest point of the last look-up lies on. */
  get ring(): number {
    return this.ringOf[this.edge];
  }

  /** Visits every cell of an edge's box: more than the edge passes through, never fewer. */
  private forEachCell(visit: (cell: number, edge: number) => void): void {
    const { ends, cellSize, minX, minY, columns } = this;
    for (let edge = 0; edge < this.count; edge++) {
      const i = 4 * edge;
      const c0 = Math.floor((Math.min(ends[i], ends[i + 2]) - minX) / cellSize);
      const c1 = Math.floor((Math.max(ends[i], ends[i + 2]) - minX) / cellSize);
      const r0 = Math.floor((Math.min(ends[i + 1], ends[i + 3]) - minY) / cellSize);
      const r1 = Math.floor((Math.max(ends[i + 1], ends[i + 3]) - minY) / cellSize);
      for (let row = r0; row <= r1; row++) {
        for (let column = c0; column <= c1; column++) visit(row * columns + column, edge);
      }
    }
  }
}
