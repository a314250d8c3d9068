/**
 * For every cell of a grid the edges that can be nearest to some point of it: those no farther from its middle than
 * the nearest one plus the cell's diagonal (triangle inequality, twice). The same rule for a block of cells leaves
 * few edges to look at in each of its cells, and loses none of them: from the middle of a cell to that of its block
 * is at most half the difference of their diagonals.
 */

/** Numbers kept per edge: start, unit direction, length, outward vertex normals at start and end. */
export const EDGE = 9;

/** Cells along the side of a block. */
const BLOCK = 6;

/** A grid of square cells. */
export interface CellGrid {
  readonly minX: number;
  readonly minY: number;
  readonly columns: number;
  readonly rows: number;
  /** Side of a cell, mm. */
  readonly size: number;
}

/** Edges by cell (row by row): those of cell c are `list[first[c]]` up to but not including `list[end[c]]`. */
export interface NearestEdges {
  readonly first: Int32Array;
  readonly end: Int32Array;
  /** Where edges start in their table. */
  readonly list: Int32Array;
  /** Of the cells that were divided the edges of their parts: see {@link nearestInParts}; left out as long as none was. */
  divided?: (Int32Array | undefined)[];
}

/** Parts along the side of a cell that is divided. */
export const PARTS = 4;

/** Work space, kept because thousands of grids are filled one after the other. */
const work = {
  all: new Int32Array(256),
  ofBlock: new Int32Array(256),
  squared: new Float64Array(256),
  list: new Int32Array(1 << 14),
};

/** See the top of the file. `edges` holds {@link EDGE} numbers for every edge, positions and lengths in mm. */
export function nearestEdges(edges: Float64Array, grid: CellGrid): NearestEdges {
  const { minX, minY, columns, rows, size } = grid;
  const edgeCount = edges.length / EDGE;
  if (edgeCount > work.all.length) {
    work.all = new Int32Array(2 * edgeCount);
    work.ofBlock = new Int32Array(2 * edgeCount);
    work.squared = new Float64Array(2 * edgeCount);
  }
  for (let i = 0; i < edgeCount; i++) work.all[i] = i * EDGE;
  const first = new Int32Array(columns * rows);
  const end = new Int32Array(columns * rows);
  const side = BLOCK * size;
  let length = 0;
  for (let top = 0; top < rows; top += BLOCK) {
    for (let left = 0; left < columns; left += BLOCK) {
      const middleX = minX + left * size + side / 2;
      const middleY = minY + top * size + side / 2;
      const few = writeNear(edges, work.all, edgeCount, middleX, middleY, side, work.ofBlock, 0);
      for (let row = top; row < Math.min(rows, top + BLOCK); row++) {
        for (let column = left; column < Math.min(columns, left + BLOCK); column++) {
          if (length + few > work.list.length) work.list = grown(work.list);
          const cell = row * columns + column;
          const x = minX + (column + 0.5) * size;
          const y = minY + (row + 0.5) * size;
          first[cell] = length;
          length += writeNear(edges, work.ofBlock, few, x, y, size, work.list, length);
          end[cell] = length;
        }
      }
    }
  }
  return { first, end, list: work.list.slice(0, length) };
}

/**
 * The same for the parts of one cell, {@link PARTS} by {@link PARTS}: the edges of part p (row by row) lie from number p of
 * the result up to number p + 1.
 *
 * @param few where the edges of the cell start in their table
 * @param minX left end of the cell, mm
 * @param minY upper end of the cell, mm
 * @param size side of the cell, mm
 */
export function nearestInParts(
  edges: Float64Array,
  few: Int32Array,
  minX: number,
  minY: number,
  size: number,
): Int32Array {
  const side = size / PARTS;
  const ends = PARTS * PARTS + 1;
  const most = ends + PARTS * PARTS * few.length;
  while (work.list.length < most) work.list = grown(work.list);
  let length = ends;
  for (let part = 0; part < ends - 1; part++) {
    const x = minX + ((part % PARTS) + 0.5) * side;
    const y = minY + (Math.floor(part / PARTS) + 0.5) * side;
    work.list[part] = length;
    length += writeNear(edges, few, few.length, x, y, side, work.list, length);
  }
  work.list[ends - 1] = length;
  return work.list.slice(0, length);
}

/**
 * Writes from `at` on those of the first `count` edges of `from` that can be nearest to a point of the square of the
 * given side around (x, y); returns how many.
 */
function writeNear(
  edges: Float64Array,
  from: Int32Array,
  count: number,
  x: number,
  y: number,
  side: number,
  out: Int32Array,
  at: number,
): number {
  const { squared } = work;
  let nearest = Number.POSITIVE_INFINITY;
  for (let k = 0; k < count; k++) {
    const one = squaredDistance(edges, from[k], x, y);
    squared[k] = one;
    if (one < nearest) nearest = one;
  }
  const reach = Math.sqrt(nearest) + side * Math.SQRT2;
  const most = reach * reach;
  let found = 0;
  for (let k = 0; k < count; k++) if (squared[k] <= most) out[at + found++] = from[k];
  return found;
}

/** Squared distance in mm2 of (x, y) to the edge that starts at `e`. */
export function squaredDistance(edges: Float64Array, e: number, x: number, y: number): number {
  const rx = x - edges[e];
  const ry = y - edges[e + 1];
  const along = Math.min(edges[e + 4], Math.max(0, rx * edges[e + 2] + ry * edges[e + 3]));
  const qx = rx - edges[e + 2] * along;
  const qy = ry - edges[e + 3] * along;
  return qx * qx + qy * qy;
}

function grown(array: Int32Array): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(2 * array.length);
  larger.set(array);
  return larger;
}
