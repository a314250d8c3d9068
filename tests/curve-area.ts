import { type Curve, pointAt, type Segment } from '../src/geometry/curve.ts';
import type { Point } from '../src/geometry/shapes.ts';

/** An exact ruler for areas, to hold flattened outlines against; fretlay itself measures what is sawn: straight pieces. */

/** Signed area in mm2 that a closed curve encloses, exact up to rounding (Green's theorem, segment by segment). */
export function curveArea(curve: Curve): number {
  const origin = curve.start;
  let twice = 0;
  let from = curve.start;
  for (const segment of curve.segments) {
    twice += twiceAreaFrom(origin, from, segment);
    from = segment.to;
  }
  return twice / 2;
}

/** The integral of x dy - y dx along a segment, with `origin` as (0, 0). */
function twiceAreaFrom(origin: Point, from: Point, segment: Segment): number {
  const ax = from[0] - origin[0];
  const ay = from[1] - origin[1];
  const dx = segment.to[0] - origin[0];
  const dy = segment.to[1] - origin[1];
  const chord = ax * dy - dx * ay;
  if (segment.kind === 'line') return chord;
  if (segment.kind === 'arc') {
    const { u, v, start, sweep, centre } = segment;
    const end = pointAt(from, segment, 1);
    // Around the centre the integrand is the constant u x v; the rest is the triangle from the origin.
    const cx = centre[0] - origin[0];
    const cy = centre[1] - origin[1];
    const startX = centre[0] + u[0] * Math.cos(start) + v[0] * Math.sin(start);
    const startY = centre[1] + u[1] * Math.cos(start) + v[1] * Math.sin(start);
    return (u[0] * v[1] - u[1] * v[0]) * sweep + cx * (end[1] - startY) - cy * (end[0] - startX);
  }
  const bx = segment.c1[0] - origin[0];
  const by = segment.c1[1] - origin[1];
  const cx = segment.c2[0] - origin[0];
  const cy = segment.c2[1] - origin[1];
  const cross = (px: number, py: number, qx: number, qy: number) => px * qy - qx * py;
  // Integral of B x B' for a cubic in terms of its control points.
  return (
    (6 * cross(ax, ay, bx, by) +
      3 * cross(ax, ay, cx, cy) +
      cross(ax, ay, dx, dy) +
      3 * cross(bx, by, cx, cy) +
      3 * cross(bx, by, dx, dy) +
      6 * cross(cx, cy, dx, dy)) /
    10
  );
}
