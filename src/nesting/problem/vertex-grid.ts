import { type InCells, inCells } from '../../geometry/in-cells.ts';
import { boundsOf, type Ring } from '../../geometry/shapes.ts';

/** Cells along either side of a grid at most: more would only be empty. */
const MOST_CELLS = 500;

/**
 * The vertices of rings in square cells, row by row: whether one lies in a small triangle then costs a look at a few of
 * them. Vertices are numbered through all rings, in their order.
 */
export class VertexGrid {
  private readonly x: Float64Array;
  private readonly y: Float64Array;
  private readonly minX: number;
  private readonly minY: number;
  private readonly size: number;
  private readonly columns: number;
  private readonly vertices: InCells;

  /** @param size about that of the triangles that will be asked about, mm */
  constructor(rings: readonly Ring[], size: number) {
    const points = rings.flat();
    const { minX, minY, maxX, maxY } = boundsOf(points);
    this.x = Float64Array.from(points, ([x]) => x);
    this.y = Float64Array.from(points, ([, y]) => y);
    this.minX = minX;
    this.minY = minY;
    this.size = Math.max(size, (maxX - minX) / MOST_CELLS, (maxY - minY) / MOST_CELLS, 1e-3);
    this.columns = this.column(maxX) + 1;
    const cells = this.columns * (this.row(maxY) + 1);
    this.vertices = inCells(cells, (visit) => {
      for (const [n, [x, y]] of points.entries()) visit(this.row(y) * this.columns + this.column(x), n);
    });
  }

  /**
   * True when a fourth vertex lies in the triangle of three, or on its edge; the vertices are given by their numbers, and
   * run round it in the negative direction.
   */
  anotherWithin(a: number, b: number, c: number): boolean {
    const { x, y, columns } = this;
    const { first, members } = this.vertices;
    const left = this.column(Math.min(x[a], x[b], x[c]));
    const right = this.column(Math.max(x[a], x[b], x[c]));
    const bottom = this.row(Math.max(y[a], y[b], y[c]));
    for (let row = this.row(Math.min(y[a], y[b], y[c])); row <= bottom; row++) {
      // The cells of a row lie one after the other, and so do their members.
      const end = first[row * columns + right + 1];
      for (let k = first[row * columns + left]; k < end; k++) {
        const n = members[k];
        if (n === a || n === b || n === c) continue;
        if (this.side(a, b, n) <= 0 && this.side(b, c, n) <= 0 && this.side(c, a, n) <= 0) return true;
      }
    }
    return false;
  }

  /** Positive when vertex `n` lies on the positive side of the line from `a` to `b`. */
  private side(a: number, b: number, n: number): number {
    const { x, y } = this;
    return (x[b] - x[a]) * (y[n] - y[a]) - (y[b] - y[a]) * (x[n] - x[a]);
  }

  private column(x: number): number {
    return Math.floor((x - this.minX) / this.size);
  }

  private row(y: number): number {
    return Math.floor((y - this.minY) / this.size);
  }
}
