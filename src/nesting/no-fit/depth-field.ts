import { oriented } from '../../geometry/ring.ts';
import type { Box, Region, Ring } from '../../geometry/shapes.ts';
import {
  type CellGrid,
  EDGE,
  type NearestEdges,
  nearestEdges,
  nearestInParts,
  PARTS,
  squaredDistance,
} from './nearest-edges.ts';

/**
 * How deep a translation lies in a no-fit (or outside an inner-fit) region, at once for any position: the plane is
 * cut into cells, each with the short list of boundary edges that can be nearest to a point in it, so the exact
 * depth costs a few edges whatever their number. The corners of the cells hold the depth itself for quick looks.
 *
 * The distance to a no-fit polygon is the distance between the two shapes, so the gap to keep is simply added.
 */

/** Cells along the longer side of a field, where nothing else is said. */
export const CELLS = 36;

/** Edges of a cell that are looked at one by one; where there are more, as around outlines of many vertices, it is divided once it is asked. */
const FEW = 6;

/** Half planes that {@link DepthField.contacts} writes at most. */
export const MOST_CONTACTS = 4;

/** Depth reported outside the field: far from touching. */
export const FAR = -1e9;

/** What the field covers and measures. */
export interface FieldSettings {
  /** Distance to keep, mm. */
  readonly gap: number;
  /** True for inner-fit regions, where the depth counts outside the region. */
  readonly insideAllowed: boolean;
  /** Part of the plane covered; outside it nothing is said. */
  readonly box: Box;
  /** Cells along the longer side. */
  readonly cells?: number;
}

/** What a field is made of; the lists and depths are found when they are not at hand. */
interface FieldParts extends CellGrid {
  readonly gap: number;
  readonly edges: Float64Array;
  readonly nearest?: NearestEdges;
  readonly corner?: Float32Array;
  readonly rough?: Uint8Array;
  readonly roughUnit?: number;
}

/** See the top of the file. Positions are translations in mm. */
export class DepthField {
  readonly minX: number;
  readonly minY: number;
  /** Where the cells end; the last ones may lie partly outside the part of the plane that was asked for. */
  readonly maxX: number;
  readonly maxY: number;
  readonly columns: number;
  readonly rows: number;
  readonly gap: number;
  /** Cells per mm. */
  readonly perCell: number;
  private readonly edges: Float64Array;
  private readonly nearest: NearestEdges;
  /** Depth at the corners of the cells, mm, row by row. */
  readonly corner: Float32Array;
  /** The same depths in few steps, 0 below half of one: many fields of one byte a corner fit where memory is quick. */
  readonly rough: Uint8Array;
  /** One step of {@link rough}, mm. */
  readonly roughUnit: number;

  private constructor(parts: FieldParts) {
    this.minX = parts.minX;
    this.minY = parts.minY;
    this.columns = parts.columns;
    this.rows = parts.rows;
    // Whole cells: a field may cover a little more than it was asked for, never less.
    this.maxX = parts.minX + parts.columns * parts.size;
    this.maxY = parts.minY + parts.rows * parts.size;
    this.gap = parts.gap;
    this.perCell = 1 / parts.size;
    this.edges = parts.edges;
    this.nearest = parts.nearest ?? nearestEdges(parts.edges, parts);
    this.corner = parts.corner ?? this.cornerDepths(parts.size);
    this.roughUnit = parts.roughUnit ?? deepestOf(this.corner) / 255;
    this.rough = parts.rough ?? inSteps(this.corner, this.roughUnit);
  }

  /** Builds the field of no-fit or inner-fit regions. */
  static of(
    regions: readonly Region[],
    { gap, insideAllowed, box, cells = CELLS }: FieldSettings,
  ): DepthField {
    const size = Math.max(box.maxX - box.minX, box.maxY - box.minY, 1e-3) / cells;
    return new DepthField({
      minX: box.minX,
      minY: box.minY,
      columns: Math.max(1, Math.ceil((box.maxX - box.minX) / size)),
      rows: Math.max(1, Math.ceil((box.maxY - box.minY) / size)),
      size,
      gap,
      edges: edgeTable(regions, insideAllowed),
    });
  }

  /** The same field around another place; all but the edges is shared. */
  movedBy(dx: number, dy: number): DepthField {
    const edges = this.edges.slice();
    for (let e = 0; e < edges.length; e += EDGE) {
      edges[e] += dx;
      edges[e + 1] += dy;
    }
    const { minX, minY, perCell } = this;
    return new DepthField({ ...this, minX: minX + dx, minY: minY + dy, size: 1 / perCell, edges });
  }

  /** True when the field says something of some place of the area. */
  covers(minX: number, minY: number, maxX: number, maxY: number): boolean {
    return maxX >= this.minX && maxY >= this.minY && minX <= this.maxX && minY <= this.maxY;
  }

  /** Exact depth in mm of the translation (x, y): positive when the two are nearer than the gap. */
  depth(x: number, y: number): number {
    const gx = (x - this.minX) * this.perCell;
    const gy = (y - this.minY) * this.perCell;
    if (!(gx >= 0 && gy >= 0 && gx < this.columns && gy < this.rows)) return FAR;
    const cell = (gy | 0) * this.columns + (gx | 0);
    const { list, first, end, divided } = this.nearest;
    if (end[cell] - first[cell] <= FEW) return this.depthTo(list, first[cell], end[cell], x, y);
    const parts = divided?.[cell] ?? this.divide(cell);
    const part = partAt(gx, gy);
    return this.depthTo(parts, parts[part], parts[part + 1], x, y);
  }

  /** Lists the edges of the parts of a cell. */
  private divide(cell: number): Int32Array {
    const { list, first, end } = this.nearest;
    // Most fields have no such cell: a place for every cell of every field would be half as much memory again.
    this.nearest.divided ??= new Array(first.length).fill(undefined);
    const size = 1 / this.perCell;
    const parts = nearestInParts(
      this.edges,
      list.subarray(first[cell], end[cell]),
      this.minX + (cell % this.columns) * size,
      this.minY + Math.floor(cell / this.columns) * size,
      size,
    );
    this.nearest.divided[cell] = parts;
    return parts;
  }

  /** Depth by the nearest of some edges, those of a list from one place up to another. */
  private depthTo(list: Int32Array, from: number, end: number, x: number, y: number): number {
    const { edges } = this;
    let nearest = Number.POSITIVE_INFINITY;
    let outward = 0;
    for (let k = from; k < end; k++) {
      const e = list[k];
      const rx = x - edges[e];
      const ry = y - edges[e + 1];
      const along = rx * edges[e + 2] + ry * edges[e + 3];
      const length = edges[e + 4];
      let squared: number;
      let side: number;
      // Beside an edge its own normal tells inside from outside; past an end that of the vertex does, for there the
      // normals of the two edges may disagree.
      if (along <= 0) {
        squared = rx * rx + ry * ry;
        side = rx * edges[e + 5] + ry * edges[e + 6];
      } else if (along >= length) {
        const qx = rx - edges[e + 2] * length;
        const qy = ry - edges[e + 3] * length;
        squared = qx * qx + qy * qy;
        side = qx * edges[e + 7] + qy * edges[e + 8];
      } else {
        side = rx * edges[e + 3] - ry * edges[e + 2];
        squared = side * side;
      }
      if (squared < nearest) {
        nearest = squared;
        outward = side;
      }
    }
    const distance = Math.sqrt(nearest);
    return this.gap + (outward > 0 ? -distance : distance);
  }

  /**
   * Exact depth in mm as {@link depth}; three numbers of `out` from `at` take it and the unit direction in which it
   * falls fastest.
   */
  writeSlope(x: number, y: number, out: Float64Array, at: number): void {
    const gx = (x - this.minX) * this.perCell;
    const gy = (y - this.minY) * this.perCell;
    if (!(gx >= 0 && gy >= 0 && gx < this.columns && gy < this.rows)) {
      out[at] = FAR;
      return;
    }
    const cell = (gy | 0) * this.columns + (gx | 0);
    const { edges } = this;
    let { list } = this.nearest;
    let from = this.nearest.first[cell];
    let end = this.nearest.end[cell];
    if (end - from > FEW) {
      list = this.nearest.divided?.[cell] ?? this.divide(cell);
      const part = partAt(gx, gy);
      from = list[part];
      end = list[part + 1];
    }
    let nearest = Number.POSITIVE_INFINITY;
    let edge = 0;
    for (let k = from; k < end; k++) {
      const squared = squaredDistance(edges, list[k], x, y);
      if (squared < nearest) {
        nearest = squared;
        edge = list[k];
      }
    }
    this.writeContact(edge, x, y, out, at);
    out[at] = -out[at];
  }

  /** Number of vertices of the regions' boundaries. */
  get vertexCount(): number {
    return this.edges.length / EDGE;
  }

  /** Vertex number `n` of the boundaries: where edge `n` starts, mm. */
  vertex(n: number): readonly [x: number, y: number] {
    return [this.edges[n * EDGE], this.edges[n * EDGE + 1]];
  }

  /**
   * Half planes that keep a translation near (x, y) free: nearest edges first, edges that lie wholly behind an
   * earlier half plane left out. Each takes three numbers of `out`: the room to the half plane in mm (negative when
   * too near) and its unit normal. Returns how many were written, {@link MOST_CONTACTS} at most.
   */
  contacts(x: number, y: number, reach: number, out: Float64Array): number {
    const gx = (x - this.minX) * this.perCell;
    const gy = (y - this.minY) * this.perCell;
    if (!(gx >= 0 && gy >= 0 && gx < this.columns && gy < this.rows)) return 0;
    const cell = (gy | 0) * this.columns + (gx | 0);
    const { list, first } = this.nearest;
    const end = this.nearest.end[cell];
    let count = 0;
    while (count < MOST_CONTACTS) {
      let nearest = Number.POSITIVE_INFINITY;
      let edge = -1;
      for (let k = first[cell]; k < end; k++) {
        const squared = squaredDistance(this.edges, list[k], x, y);
        if (squared < nearest && !this.behind(list[k], x, y, count, out)) {
          nearest = squared;
          edge = list[k];
        }
      }
      if (edge < 0) return count;
      this.writeContact(edge, x, y, out, count * 3);
      // Inside the solid the way out over the nearest edge is the only one that counts.
      if (out[count * 3] > reach) return count;
      if (out[count * 3] < -this.gap - 1e-9) return count + 1;
      count++;
    }
    return count;
  }

  /** True when an edge lies wholly behind one of the half planes already written. */
  private behind(e: number, x: number, y: number, count: number, out: Float64Array): boolean {
    const { edges } = this;
    const ax = edges[e] - x;
    const ay = edges[e + 1] - y;
    const bx = ax + edges[e + 2] * edges[e + 4];
    const by = ay + edges[e + 3] * edges[e + 4];
    for (let k = 0; k < count; k++) {
      const nx = out[k * 3 + 1];
      const ny = out[k * 3 + 2];
      const wall = -(out[k * 3] + this.gap) + 1e-7;
      if (ax * nx + ay * ny <= wall && bx * nx + by * ny <= wall) return true;
    }
    return false;
  }

  private writeContact(e: number, x: number, y: number, out: Float64Array, at: number): void {
    const { edges } = this;
    const rx = x - edges[e];
    const ry = y - edges[e + 1];
    const along = rx * edges[e + 2] + ry * edges[e + 3];
    const within = Math.min(edges[e + 4], Math.max(0, along));
    const qx = rx - edges[e + 2] * within;
    const qy = ry - edges[e + 3] * within;
    const distance = Math.sqrt(qx * qx + qy * qy);
    let nx = edges[e + 3];
    let ny = -edges[e + 2];
    let side = nx * qx + ny * qy;
    if (within !== along) {
      const vertex = within === 0 ? 5 : 7;
      side = qx * edges[e + vertex] + qy * edges[e + vertex + 1];
      if (distance > 1e-9) {
        nx = (side < 0 ? -qx : qx) / distance;
        ny = (side < 0 ? -qy : qy) / distance;
      }
    }
    out[at] = (side < 0 ? -distance : distance) - this.gap;
    out[at + 1] = nx;
    out[at + 2] = ny;
  }

  private cornerDepths(size: number): Float32Array {
    const { list, first, end } = this.nearest;
    const width = this.columns + 1;
    const depths = new Float32Array(width * (this.rows + 1));
    for (let row = 0; row <= this.rows; row++) {
      for (let column = 0; column <= this.columns; column++) {
        const cell = Math.min(row, this.rows - 1) * this.columns + Math.min(column, this.columns - 1);
        depths[row * width + column] = this.depthTo(
          list,
          first[cell],
          end[cell],
          this.minX + column * size,
          this.minY + row * size,
        );
      }
    }
    return depths;
  }
}

/** Number of the part of its cell that a place lies in, by its place in cells. */
function partAt(gx: number, gy: number): number {
  return (((gy - (gy | 0)) * PARTS) | 0) * PARTS + (((gx - (gx | 0)) * PARTS) | 0);
}

function deepestOf(depths: Float32Array): number {
  let deepest = 1e-9;
  for (let n = 0; n < depths.length; n++) if (depths[n] > deepest) deepest = depths[n];
  return deepest;
}

function inSteps(depths: Float32Array, unit: number): Uint8Array {
  const steps = new Uint8Array(depths.length);
  for (let n = 0; n < depths.length; n++) if (depths[n] > 0) steps[n] = depths[n] / unit + 0.5;
  return steps;
}

/** All edges of the regions, what is forbidden on the positive side of each. */
function edgeTable(regions: readonly Region[], insideAllowed: boolean): Float64Array {
  const rings = regions.flatMap((region) => [
    oriented(region.outline, !insideAllowed),
    ...region.openings.map((opening) => oriented(opening, insideAllowed)),
  ]);
  const table = new Float64Array(EDGE * rings.reduce((sum, ring) => sum + ring.length, 0));
  let at = 0;
  for (const ring of rings) {
    writeEdges(ring, table, at);
    at += EDGE * ring.length;
  }
  return table;
}

function writeEdges(ring: Ring, table: Float64Array, at: number): void {
  const count = ring.length;
  for (let i = 0; i < count; i++) {
    const [ax, ay] = ring[i];
    const [bx, by] = ring[(i + 1) % count];
    const length = Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay));
    table.set([ax, ay, (bx - ax) / length, (by - ay) / length, length], at + i * EDGE);
  }
  for (let i = 0; i < count; i++) {
    const here = at + i * EDGE;
    const next = at + ((i + 1) % count) * EDGE;
    // The bisector of the two edges' normals tells inside from outside where the vertex is nearest
    // (angle-weighted pseudonormal, Baerentzen and Aanaes 2005; in the plane the plain sum does).
    const nx = table[here + 3] + table[next + 3];
    const ny = -table[here + 2] - table[next + 2];
    table[here + 7] = nx;
    table[here + 8] = ny;
    table[next + 5] = nx;
    table[next + 6] = ny;
  }
}
