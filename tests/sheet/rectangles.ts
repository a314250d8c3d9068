import type { Box, Line, Point } from '../../src/geometry/shapes.ts';

/** A second, plain way to tell whether text stands on a line: independent of how the sheet finds room. */

/** True when a segment has a point in the open box (Liang and Barsky 1984, parametric clipping). */
export function segmentMeetsBox([ax, ay]: Point, [bx, by]: Point, box: Box): boolean {
  let first = 0;
  let last = 1;
  const limits = [
    [ax - bx, ax - box.minX],
    [bx - ax, box.maxX - ax],
    [ay - by, ay - box.minY],
    [by - ay, box.maxY - ay],
  ];
  for (const [change, room] of limits) {
    if (change === 0) {
      if (room <= 0) return false;
    } else if (change < 0) {
      first = Math.max(first, room / change);
    } else {
      last = Math.min(last, room / change);
    }
  }
  return last - first > 1e-9;
}

/** True when two segments share a point inside both (signs of the four turns). */
export function segmentsCross(a: Point, b: Point, c: Point, d: Point): boolean {
  const turn = (p: Point, q: Point, r: Point) =>
    (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
}

/** True when any piece of a line, or of a ring when `closed`, has a point in the box. */
export function lineMeetsBox(points: Line, closed: boolean, box: Box): boolean {
  const pairs = closed ? points.length : points.length - 1;
  for (let i = 0; i < pairs; i++) {
    if (segmentMeetsBox(points[i], points[(i + 1) % points.length], box)) return true;
  }
  return false;
}

/** True when the two boxes share an area. */
export function boxesOverlap(a: Box, b: Box): boolean {
  const e = 1e-6;
  return a.minX < b.maxX - e && b.minX < a.maxX - e && a.minY < b.maxY - e && b.minY < a.maxY - e;
}

/** The corners of a box. */
export function corners({ minX, minY, maxX, maxY }: Box): Point[] {
  return [
    [minX, minY],
    [maxX, minY],
    [maxX, maxY],
    [minX, maxY],
  ];
}
