import type { Curve, Segment } from './curve.ts';
import { pointAt } from './curve.ts';
import type { Point } from './shapes.ts';

/**
 * Flattening: a curve becomes straight pieces that never lie farther from it than a stated tolerance.
 *
 * Cubic: split at equal parameters into n chords. A chord over a parameter step h lies within h^2/8 max|B''| of
 * the curve (linear interpolation error), and max|B''| <= 6 M with M the longer second difference of the control
 * points, which gives n = ceil(sqrt(0.75 M / tolerance)). Runs of small curvature are spared by first halving the
 * cubic where the two halves ask for clearly different n.
 * Arc: p(t) = centre + u cos t + v sin t has |p''| <= the longer half-axis R, so a step h keeps within R h^2/8;
 * the exact sagitta of a circle, R (1 - cos(h/2)), is never more than that.
 */

/** Most chords one segment may become: bounds memory on absurd input; the tolerance gives way beyond it. */
const MOST_CHORDS = 20_000;

/**
 * The points of a curve, start included. A closed curve does not repeat its first point.
 *
 * @param tolerance greatest distance in mm between the chords and the true curve
 */
export function flattenCurve(curve: Curve, tolerance: number): Point[] {
  const points: Point[] = [curve.start];
  let from = curve.start;
  for (const segment of curve.segments) {
    flattenSegment(from, segment, tolerance, points);
    from = segment.to;
  }
  const last = points[points.length - 1];
  // Only the very same point: the caller knows how near two points have to be to be one.
  if (curve.closed && points.length > 1 && last[0] === curve.start[0] && last[1] === curve.start[1])
    points.pop();
  return points;
}

function flattenSegment(from: Point, segment: Segment, tolerance: number, into: Point[]): void {
  if (segment.kind === 'cubic') {
    flattenCubic(from, segment.c1, segment.c2, segment.to, tolerance, 0, into);
    return;
  }
  const chords = segment.kind === 'line' ? 1 : arcChords(segment, tolerance);
  for (let i = 1; i < chords; i++) into.push(pointAt(from, segment, i / chords));
  into.push(segment.to);
}

function arcChords(arc: Extract<Segment, { kind: 'arc' }>, tolerance: number): number {
  const step = 2 * Math.sqrt((2 * tolerance) / longerHalfAxis(arc.u, arc.v));
  return Math.min(MOST_CHORDS, Math.max(1, Math.ceil(Math.abs(arc.sweep) / step)));
}

/** Longer half-axis, mm, of the ellipse with conjugate half-diameters u and v: the larger singular value of [u v]. */
export function longerHalfAxis(u: Point, v: Point): number {
  const sum = u[0] * u[0] + u[1] * u[1] + v[0] * v[0] + v[1] * v[1];
  const det = u[0] * v[1] - u[1] * v[0];
  return Math.sqrt((sum + Math.sqrt(Math.max(0, sum * sum - 4 * det * det))) / 2);
}

function cubicChords(a: Point, b: Point, c: Point, d: Point, tolerance: number): number {
  const ux = a[0] - 2 * b[0] + c[0];
  const uy = a[1] - 2 * b[1] + c[1];
  const vx = b[0] - 2 * c[0] + d[0];
  const vy = b[1] - 2 * c[1] + d[1];
  const bend = Math.sqrt(Math.max(ux * ux + uy * uy, vx * vx + vy * vy));
  return Math.min(MOST_CHORDS, Math.max(1, Math.ceil(Math.sqrt((0.75 * bend) / tolerance))));
}

function flattenCubic(
  a: Point,
  b: Point,
  c: Point,
  d: Point,
  tolerance: number,
  depth: number,
  into: Point[],
): void {
  const chords = cubicChords(a, b, c, d, tolerance);
  // Eight halvings bound the recursion: a 256th of a cubic bends so evenly that there is nothing left to spare.
  if (chords > 2 && depth < 8) {
    const ab = middle(a, b);
    const bc = middle(b, c);
    const cd = middle(c, d);
    const abc = middle(ab, bc);
    const bcd = middle(bc, cd);
    const centre = middle(abc, bcd);
    const left = cubicChords(a, ab, abc, centre, tolerance);
    const right = cubicChords(centre, bcd, cd, d, tolerance);
    if (left + right < chords) {
      flattenCubic(a, ab, abc, centre, tolerance, depth + 1, into);
      flattenCubic(centre, bcd, cd, d, tolerance, depth + 1, into);
      return;
    }
  }
  // Bernstein form, coordinates in locals: this is the innermost loop of reading.
  const [ax, ay] = a;
  const [bx, by] = b;
  const [cx, cy] = c;
  const [dx, dy] = d;
  for (let i = 1; i < chords; i++) {
    const t = i / chords;
    const s = 1 - t;
    const p = s * s * s;
    const q = 3 * s * s * t;
    const r = 3 * s * t * t;
    const w = t * t * t;
    into.push([p * ax + q * bx + r * cx + w * dx, p * ay + q * by + r * cy + w * dy]);
  }
  into.push(d);
}

function middle(p: Point, q: Point): Point {
  return [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
}
