import { edgeEnds } from './edge-ends.ts';
import { type InCells, inCells } from './in-cells.ts';
import type { Ring } from './shapes.ts';

/** Cells are never smaller than so many across the reach: a look-up would visit more cells than it meets edges. */
const MOST_CELLS_ACROSS_REACH = 8;

/** Cells for every edge at most, but where edges are long and stand close. */
const CELLS_OF_EDGE = 16;

/** About so many edges that run across it should share a cell. */
const EDGES_OF_CELL = 3;

/** Edges reach so far beyond where they pass through a row, in cells: more than rounding moves them. */
const HAIR = 1e-6;

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
  private readonly edges: InCells;

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
    const extent = Math.max(maxX - minX, maxY - minY);
    // As large as the reach, so that a look-up visits few cells; down to a mean edge, or to what a few edges of dense teeth
    // fill, where many would share one, and larger where that would make more than about a million cells, or dozens for every
    // edge: a box of four edges is built in microseconds. The last term is for a single point.
    const length = lengthOf(this.ends);
    const area = (maxX - minX) * (maxY - minY);
    const crowded = length > 0 ? (EDGES_OF_CELL * area) / length : 0;
    const roomy = Math.min(Math.sqrt(area / (CELLS_OF_EDGE * this.count)), crowded);
    const fine = Math.max(reach / MOST_CELLS_ACROSS_REACH, Math.min(length / this.count, crowded));
    this.cellSize = Math.max(Math.min(reach, fine), extent / 1000, roomy, 1e-6);
    this.minX = minX;
    this.minY = minY;
    this.columns = Math.floor((maxX - minX) / this.cellSize) + 1;
    this.rows = Math.floor((maxY - minY) / this.cellSize) + 1;
    this.edges = inCells(this.columns * this.rows, (visit) => this.forEachCell(visit));
  }

  /**
   * Finds the nearest point of the outlines to (x, y) that is nearer than `within` mm; true when there is one.
   *
   * @param except number of a ring that does not count
   */
  nearest(x: number, y: number, within: number, except = -1): boolean {
    this.edge = -1;
    this.distance = within;
    const { cellSize } = this;
    const column = Math.floor((x - this.minX) / cellSize);
    const row = Math.floor((y - this.minY) / cellSize);
    // Rings of cells around the one that holds the point, until all that follow are farther than the nearest edge found.
    for (let k = 0; (k - 1) * cellSize < this.distance; k++) {
      this.tryCells(row - k, column - k, column + k, x, y, except);
      if (k > 0) this.tryCells(row + k, column - k, column + k, x, y, except);
      for (let side = row - k + 1; side < row + k; side++) {
        this.tryCells(side, column - k, column - k, x, y, except);
        this.tryCells(side, column + k, column + k, x, y, except);
      }
    }
    return this.edge >= 0;
  }

  /** Looks at the edges of neighbouring cells of a row; cells beyond the grid hold none. */
  private tryCells(row: number, from: number, to: number, x: number, y: number, except: number): void {
    const c0 = Math.max(0, from);
    const c1 = Math.min(this.columns - 1, to);
    if (row < 0 || row >= this.rows || c0 > c1) return;
    // Cells of a row follow on one another, and so do their members.
    const { first, members } = this.edges;
    const end = first[row * this.columns + c1 + 1];
    for (let m = first[row * this.columns + c0]; m < end; m++) {
      const edge = members[m];
      if (this.ringOf[edge] !== except) this.tryEdge(edge, x, y);
    }
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
    // Roots are taken of the nearest alone: of a dense outline hundreds of edges are tried for each.
    const distanceSquared = (x - px) * (x - px) + (y - py) * (y - py);
    if (distanceSquared >= this.distance * this.distance) return;
    this.distance = Math.sqrt(distanceSquared);
    this.edge = edge;
    this.x = px;
    this.y = py;
  }

  /** Number of the ring that the nearest point of the last look-up lies on. */
  get ring(): number {
    return this.ringOf[this.edge];
  }

  /** Visits every cell that an edge passes through, and of each row at most a neighbour more. */
  private forEachCell(visit: (cell: number, edge: number) => void): void {
    const { ends, cellSize, minX, minY, columns } = this;
    for (let edge = 0; edge < this.count; edge++) {
      const i = 4 * edge;
      const isUp = ends[i + 1] <= ends[i + 3];
      // From the lower end to the upper, in cells.
      const x = (ends[isUp ? i : i + 2] - minX) / cellSize;
      const y = (ends[isUp ? i + 1 : i + 3] - minY) / cellSize;
      const endX = (ends[isUp ? i + 2 : i] - minX) / cellSize;
      const endY = (ends[isUp ? i + 3 : i + 1] - minY) / cellSize;
      const slope = endY > y ? (endX - x) / (endY - y) : 0;
      const lastRow = Math.floor(endY);
      for (let row = Math.floor(y); row <= lastRow; row++) {
        const from = row <= y ? x : x + slope * (row - y);
        const to = row >= lastRow ? endX : x + slope * (row + 1 - y);
        const c0 = Math.max(Math.floor(Math.min(from, to) - HAIR), 0);
        const c1 = Math.min(Math.floor(Math.max(from, to) + HAIR), columns - 1);
        for (let column = c0; column <= c1; column++) visit(row * columns + column, edge);
      }
    }
  }
}

function lengthOf(ends: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < ends.length; i += 4)
    sum += Math.hypot(ends[i + 2] - ends[i], ends[i + 3] - ends[i + 1]);
  return sum;
}
