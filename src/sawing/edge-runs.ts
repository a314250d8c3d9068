import { distanceToSegment } from '../geometry/ring.ts';
import { boundsOf, type Point } from '../geometry/shapes.ts';

/** Edges that share a box. */
const RUN = 16;
/** What rounding may make of a distance, mm: a box is passed over only when it is farther than this beyond reach. */
const ROUNDING = 1e-6;

/**
 * Edges in boxes of runs: what is near a point or a way lies in few of them. What is passed over would not have counted, and
 * the edges keep their order, so every answer is that of all edges asked one by one.
 */
export class EdgeRuns {
  /** Four numbers each, x and y of either end. Flat, as all are asked for every way. */
  private readonly edges: Float64Array;
  /** Boxes around runs of {@link RUN} edges, four numbers each: least x, least y, greatest x, greatest y. */
  private readonly boxes: Float64Array;

  /** @param edges four numbers each, x and y of either end, mm */
  constructor(edges: Float64Array) {
    this.edges = edges;
    this.boxes = new Float64Array(4 * Math.ceil(edges.length / (4 * RUN)));
    for (let at = 0; at < this.boxes.length; at += 4) {
      let minX = Number.POSITIVE_INFINITY;
      let minY = Number.POSITIVE_INFINITY;
      let maxX = Number.NEGATIVE_INFINITY;
      let maxY = Number.NEGATIVE_INFINITY;
      const end = Math.min((at + 4) * RUN, edges.length);
      for (let e = at * RUN; e < end; e += 2) {
        minX = Math.min(minX, edges[e]);
        maxX = Math.max(maxX, edges[e]);
        minY = Math.min(minY, edges[e + 1]);
        maxY = Math.max(maxY, edges[e + 1]);
      }
      this.boxes.set([minX, minY, maxX, maxY], at);
    }
  }

  /**
   * The point of the edges that is nearest to another; `first` where none is nearer.
   *
   * @param within a farther one need not be told from the nearest, mm
   */
  nearestTo([x, y]: Point, first: Point, within: number): Point {
    const { edges, boxes } = this;
    let nearest = first;
    let least = Math.hypot(first[0] - x, first[1] - y);
    // No edge of a box is farther than its farthest corner.
    let bound = within;
    for (let at = 0; at < boxes.length; at += 4) {
      const farX = Math.max(x - boxes[at], boxes[at + 2] - x);
      const farY = Math.max(y - boxes[at + 1], boxes[at + 3] - y);
      if (farX < bound && farY < bound) bound = Math.min(bound, Math.sqrt(farX * farX + farY * farY));
    }
    for (let at = 0; at < boxes.length; at += 4) {
      const besideX = Math.max(0, boxes[at] - x, x - boxes[at + 2]);
      const besideY = Math.max(0, boxes[at + 1] - y, y - boxes[at + 3]);
      const reach = Math.min(bound, least) + ROUNDING;
      if (besideX * besideX + besideY * besideY > reach * reach) continue;
      const end = Math.min((at + 4) * RUN, edges.length);
      for (let e = at * RUN; e < end; e += 4) {
        const ax = edges[e];
        const ay = edges[e + 1];
        const dx = edges[e + 2] - ax;
        const dy = edges[e + 3] - ay;
        const squared = dx * dx + dy * dy;
        const t = squared > 0 ? Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / squared)) : 0;
        const distance = Math.hypot(x - ax - t * dx, y - ay - t * dy);
        if (distance >= least) continue;
        least = distance;
        nearest = [ax + t * dx, ay + t * dy];
      }
    }
    return nearest;
  }

  /**
   * True within the rings that the edges make, in none of their openings, and within `tolerance` mm of an edge. Crossing
   * parity (Shimrat 1962), half-open in y so that a vertex counts once.
   */
  holds([x, y]: Point, tolerance: number): boolean {
    const { edges, boxes } = this;
    let inside = false;
    for (let at = 0; at < boxes.length; at += 4) {
      if (boxes[at + 1] > y + tolerance || boxes[at + 3] < y - tolerance || boxes[at + 2] < x - tolerance)
        continue;
      const isBeyond = boxes[at] > x + tolerance;
      const end = Math.min((at + 4) * RUN, edges.length);
      for (let e = at * RUN; e < end; e += 4) {
        const ay = edges[e + 1];
        const by = edges[e + 3];
        if (!isBeyond && distanceToSegment(x, y, edges[e], ay, edges[e + 2], by) <= tolerance) return true;
        if (ay > y === by > y) continue;
        if (isBeyond || x < ((edges[e + 2] - edges[e]) * (y - ay)) / (by - ay) + edges[e]) inside = !inside;
      }
    }
    return inside;
  }

  /**
   * Where the segment from a to b meets edges, its ends too, as shares of it, in no order. On which side of a way a point
   * lies is told by the sign of twice the area of their triangle, mm2.
   */
  meetings(a: Point, b: Point): number[] {
    const { edges, boxes } = this;
    const { minX, minY, maxX, maxY } = boundsOf([a, b]);
    const [ax, ay] = a;
    const dx = b[0] - ax;
    const dy = b[1] - ay;
    const slack = ROUNDING * Math.hypot(dx, dy);
    const found: number[] = [];
    for (let at = 0; at < boxes.length; at += 4) {
      const left = boxes[at];
      const top = boxes[at + 1];
      const right = boxes[at + 2];
      const bottom = boxes[at + 3];
      if (left > maxX || top > maxY || right < minX || bottom < minY) continue;
      // A way at a slant passes most boxes by that lie in its own: all four corners are then on one side of it.
      const middle = dx * ((top + bottom) / 2 - ay) - dy * ((left + right) / 2 - ax);
      const half = (Math.abs(dx) * (bottom - top) + Math.abs(dy) * (right - left)) / 2;
      if (Math.abs(middle) > half + slack) continue;
      const end = Math.min((at + 4) * RUN, edges.length);
      for (let e = at * RUN; e < end; e += 4) {
        const share = meetingOf(a, b, edges, e);
        if (share !== undefined) found.push(share);
      }
    }
    return found;
  }
}

/**
 * Where the segment from a to b meets an edge, its ends too, as a share of the first; undefined when not. On which side of
 * a way a point lies is told by the sign of twice the area of their triangle, mm2.
 *
 * @param e where the edge begins in the list
 */
function meetingOf([ax, ay]: Point, [bx, by]: Point, edges: Float64Array, e: number): number | undefined {
  const cx = edges[e];
  const cy = edges[e + 1];
  const dx = edges[e + 2];
  const dy = edges[e + 3];
  const towards = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
  const onto = (bx - ax) * (dy - ay) - (by - ay) * (dx - ax);
  // Both 0: they lie along each other, and the edges beside this one tell where the way leaves it.
  if (towards * onto > 0 || towards === onto) return undefined;
  const from = (dx - cx) * (ay - cy) - (dy - cy) * (ax - cx);
  const to = (dx - cx) * (by - cy) - (dy - cy) * (bx - cx);
  return from * to > 0 || from === to ? undefined : from / (from - to);
}
