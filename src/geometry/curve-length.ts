import type { Curve, Segment } from './curve.ts';
import type { Point } from './shapes.ts';

/**
 * Arc length of true curves: Gauss-Legendre quadrature on |p'(t)|, halving a piece until two orders agree.
 * Nodes and weights: Abramowitz and Stegun 1964, table 25.4 (n = 8, rounded to double precision).
 */
const NODES = [0.1834346424956498, 0.525532409916329, 0.7966664774136267, 0.9602898564975363];
const WEIGHTS = [0.362683783378362, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763];

/** Halvings of one segment: 2^-24 of a parameter range is far below any cusp that matters in wood. */
const DEEPEST = 24;

/**
 * Length of a curve in mm, its closing line included when it is closed.
 *
 * @param tolerance relative error allowed on each segment (default 1e-9)
 */
export function curveLength(curve: Curve, tolerance = 1e-9): number {
  let length = 0;
  let from = curve.start;
  for (const segment of curve.segments) {
    length += segmentLength(from, segment, tolerance);
    from = segment.to;
  }
  return curve.closed ? length + Math.hypot(curve.start[0] - from[0], curve.start[1] - from[1]) : length;
}

function segmentLength(from: Point, segment: Segment, tolerance: number): number {
  if (segment.kind === 'line') return Math.hypot(segment.to[0] - from[0], segment.to[1] - from[1]);
  const speed = (t: number) => speedAt(from, segment, t);
  const whole = stretchOf(speed, 0, 1);
  // A segment of no length has a tolerance above 0 all the same, so that comparing ends at once.
  const size = Math.max(whole.length, Number.MIN_VALUE);
  return refined(speed, whole, size * tolerance, DEEPEST);
}

/** |dp/dt| in mm at a parameter. */
type Speed = (t: number) => number;

/** A stretch of the parameter range with an estimate of its length, mm. */
interface Stretch {
  readonly a: number;
  readonly b: number;
  readonly length: number;
}

/**
 * Halves a stretch until the two halves together agree with the estimate of the whole. The error of the halves is far
 * smaller than that difference, since order 16 falls by 2^16 with each halving; only at a cusp, where the speed has a
 * corner, it goes down to `depth`. Coordinates that are no numbers agree with nothing and would go there everywhere:
 * readers let none through.
 */
function refined(speed: Speed, whole: Stretch, tolerance: number, depth: number): number {
  const middle = (whole.a + whole.b) / 2;
  const left = stretchOf(speed, whole.a, middle);
  const right = stretchOf(speed, middle, whole.b);
  const length = left.length + right.length;
  if (depth === 0 || Math.abs(length - whole.length) <= tolerance) return length;
  return refined(speed, left, tolerance / 2, depth - 1) + refined(speed, right, tolerance / 2, depth - 1);
}

function stretchOf(speed: Speed, a: number, b: number): Stretch {
  const half = (b - a) / 2;
  const centre = (a + b) / 2;
  let sum = 0;
  for (let i = 0; i < NODES.length; i++) {
    sum += WEIGHTS[i] * (speed(centre - half * NODES[i]) + speed(centre + half * NODES[i]));
  }
  return { a, b, length: half * sum };
}

function speedAt(from: Point, segment: Exclude<Segment, { kind: 'line' }>, t: number): number {
  if (segment.kind === 'arc') {
    const angle = segment.start + t * segment.sweep;
    const cos = Math.cos(angle);
    const sin = Math.sin(angle);
    const { u, v } = segment;
    return Math.abs(segment.sweep) * Math.hypot(v[0] * cos - u[0] * sin, v[1] * cos - u[1] * sin);
  }
  const { c1, c2, to } = segment;
  const s = 1 - t;
  const axis = (i: 0 | 1) =>
    3 * (s * s * (c1[i] - from[i]) + 2 * s * t * (c2[i] - c1[i]) + t * t * (to[i] - c2[i]));
  return Math.hypot(axis(0), axis(1));
}
