import {
  type Box,
  boundsOf,
  boxesOverlap,
  type Line,
  type Point,
  type Region,
  type Ring,
} from '../../geometry/shapes.ts';
import { type ReferenceRegion, referenceRegion } from './reference-geometry.ts';

/**
 * Whether a line lies in a region, or off it, along its whole length. Both lines and rings share edges with what they lie
 * in, where overlays fail; so the stretches of a line near any edge are left out, by their exact ends, and of each stretch
 * between them, which is inside or outside as a whole, one point is asked.
 */

/** A point in mm where a line runs outside of a region by more than the tolerance, mm; undefined when it does nowhere. */
export function placeOutside(
  line: Line,
  region: Region,
  solid: ReferenceRegion,
  tolerance: number,
): Point | undefined {
  // Written so that a measure that failed counts as outside.
  return middlesOffEdges(line, region, tolerance).find(([x, y]) => !(solid.distanceTo(x, y) === 0));
}

/** A point in mm where a line runs through a region deeper than the tolerance, mm; undefined when it does nowhere. */
export function placeInside(
  line: Line,
  region: Region,
  solid: ReferenceRegion,
  tolerance: number,
): Point | undefined {
  return middlesOffEdges(line, region, tolerance).find(([x, y]) => !(solid.distanceTo(x, y) > 0));
}

/**
 * A point in mm where a defect and what is told as sound wood have more in common than the tolerance, mm; undefined where they have
 * not: the edge of the defect runs through that wood, or all of it lies in the defect, with edges of its own or the very same.
 */
export function placeOver(
  defect: Ring,
  sound: Region,
  solid: ReferenceRegion,
  tolerance: number,
): Point | undefined {
  if (!boxesOverlap(boundsOf(defect), boundsOf(sound.outline))) return undefined;
  const at = placeInside(around(defect), sound, solid, tolerance);
  if (at !== undefined) return at;
  // Where edges nearly coincide the overlay may fail: it then tells nothing, and by its edges the wood is sound.
  const depth = solid.sharedDepth(referenceRegion({ outline: defect, openings: [] }));
  return depth > tolerance ? sound.outline[0] : undefined;
}

/** A ring as the line around it, back to its first point. */
export function around(ring: Ring): Line {
  return [...ring, ring[0]];
}

/** The middles of all stretches of a line that are farther than `reach` mm from every edge of a region. */
function middlesOffEdges(line: Line, { outline, openings }: Region, reach: number): Point[] {
  const edges = [outline, ...openings].map((ring) => edgesOf(ring, reach));
  const middles: Point[] = [];
  for (let i = 1; i < line.length; i++) {
    const piece = pieceBetween(line[i - 1], line[i]);
    for (const [from, to] of spansOff(piece, edges)) middles.push(pointAt(piece, (from + to) / 2));
  }
  return middles;
}

/** A ring, and how near to its edges a line counts as along them, mm. */
export interface Edges {
  readonly ring: Ring;
  /** What the ring lies in: of hundreds of parts a piece of a line is near a few. */
  readonly box: Box;
  readonly reach: number;
}

/** A ring of which a line no farther than `reach` mm counts as along it. */
export function edgesOf(ring: Ring, reach: number): Edges {
  return { ring, box: boundsOf(ring), reach };
}

/** A stretch of a line: how long it is and a point in the middle of its longest straight piece, mm. */
export interface Stretch {
  readonly length: number;
  readonly at: Point;
}

/** The stretches of a line that run along none of the edges, round its corners; a closed line has one more where it begins. */
export function stretchesOff(line: Line, edges: readonly Edges[]): Stretch[] {
  const stretches: Stretch[] = [];
  let length = 0;
  let longest = 0;
  let at: Point = line[0];
  const end = () => {
    if (length > 0) stretches.push({ length, at });
    length = 0;
    longest = 0;
  };
  for (let i = 1; i < line.length; i++) {
    const piece = pieceBetween(line[i - 1], line[i]);
    let reached = 0;
    for (const [from, to] of spansOff(piece, edges)) {
      if (from > reached) end();
      length += to - from;
      if (to - from > longest) {
        longest = to - from;
        at = pointAt(piece, (from + to) / 2);
      }
      reached = to;
    }
    if (reached < piece.length) end();
  }
  end();
  return stretches;
}

/** Where along a piece, mm from its beginning, it is near none of the edges: from the first to the last such stretch. */
function spansOff(piece: Piece, edges: readonly Edges[]): Span[] {
  const { length } = piece;
  const near = edges.flatMap((each) => stretchesAlong(each, piece)).sort((a, b) => a[0] - b[0]);
  const off: Span[] = [];
  let from = 0;
  for (const [start, end] of near) {
    if (start > from) off.push([from, Math.min(start, length)]);
    from = Math.max(from, end);
    if (from >= length) break;
  }
  // Of a point nothing is left but itself, unless an edge is near.
  if (near.length === 0 || from < length) off.push([from, length]);
  return off;
}

function pieceBetween([ax, ay]: Point, [bx, by]: Point): Piece {
  const length = Math.hypot(bx - ax, by - ay);
  // A line that stays in a point has no direction: any will do.
  const ux = length > 0 ? (bx - ax) / length : 1;
  const uy = length > 0 ? (by - ay) / length : 0;
  return { ax, ay, ux, uy, length };
}

function pointAt({ ax, ay, ux, uy }: Piece, s: number): Point {
  return [ax + s * ux, ay + s * uy];
}

/** One straight piece of a line: where it begins, its direction of length 1, and its length, mm. */
interface Piece {
  readonly ax: number;
  readonly ay: number;
  readonly ux: number;
  readonly uy: number;
  readonly length: number;
}

type Span = readonly [from: number, to: number];

/** Where along a piece, mm from its beginning, it is within reach of the edges of a ring: one span for each such edge. */
function stretchesAlong({ ring, box, reach }: Edges, piece: Piece): Span[] {
  const { ax, ay, ux, uy, length } = piece;
  const endX = ax + length * ux;
  const endY = ay + length * uy;
  const minX = Math.min(ax, endX) - reach;
  const maxX = Math.max(ax, endX) + reach;
  const minY = Math.min(ay, endY) - reach;
  const maxY = Math.max(ay, endY) + reach;
  const spans: Span[] = [];
  if (box.maxX < minX || box.minX > maxX || box.maxY < minY || box.minY > maxY) return spans;
  for (let i = 0; i < ring.length; i++) {
    const e = ring[i];
    const f = ring[i + 1 < ring.length ? i + 1 : 0];
    if (e[0] < minX && f[0] < minX) continue;
    if (e[0] > maxX && f[0] > maxX) continue;
    if (e[1] < minY && f[1] < minY) continue;
    if (e[1] > maxY && f[1] > maxY) continue;
    const span = spanNear(piece, e, f, reach);
    if (span !== undefined) spans.push(span);
  }
  return spans;
}

/**
 * Where along a piece it is within `reach` of an edge. What is within reach of an edge is convex, so this is one span: from
 * the first to the last point of it within reach of either end, or beside the edge.
 */
function spanNear(piece: Piece, e: Point, f: Point, reach: number): Span | undefined {
  const { ax, ay, ux, uy, length } = piece;
  let from = Number.POSITIVE_INFINITY;
  let to = Number.NEGATIVE_INFINITY;
  const take = (start: number, end: number) => {
    from = Math.min(from, start);
    to = Math.max(to, end);
  };
  for (const [x, y] of [e, f]) {
    const along = (x - ax) * ux + (y - ay) * uy;
    const across = (x - ax) * uy - (y - ay) * ux;
    const half = reach * reach - across * across;
    if (half >= 0) take(along - Math.sqrt(half), along + Math.sqrt(half));
  }
  const edge = Math.hypot(f[0] - e[0], f[1] - e[1]);
  if (edge > 0) {
    const gx = (f[0] - e[0]) / edge;
    const gy = (f[1] - e[1]) / edge;
    const beside = within((ax - e[0]) * gx + (ay - e[1]) * gy, ux * gx + uy * gy, 0, edge);
    const close = within((ax - e[0]) * gy - (ay - e[1]) * gx, ux * gy - uy * gx, -reach, reach);
    const start = Math.max(beside[0], close[0]);
    const end = Math.min(beside[1], close[1]);
    if (start <= end) take(start, end);
  }
  return from <= to && to >= 0 && from <= length ? [from, to] : undefined;
}

/** Where `at + s * slope` lies between two bounds: s from the first to the second, the other way round for nowhere. */
function within(at: number, slope: number, least: number, most: number): Span {
  if (Math.abs(slope) < 1e-15)
    return at >= least && at <= most
      ? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]
      : [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const a = (least - at) / slope;
  const b = (most - at) / slope;
  return a < b ? [a, b] : [b, a];
}
