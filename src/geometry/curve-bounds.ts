import { type Curve, pointAt, type Segment } from './curve.ts';
import { type Box, boundsOf, type Point } from './shapes.ts';

/**
 * The tight box around curves: their ends, and the places inside each segment where it runs parallel to an axis,
 * which are the roots of the derivative of one coordinate. An empty list gives an inside-out box of infinities.
 */
export function boundsOfCurves(curves: readonly Curve[]): Box {
  const points: Point[] = [];
  for (const { start, segments } of curves) {
    points.push(start);
    let from = start;
    for (const segment of segments) {
      for (const t of turningParameters(from, segment)) points.push(pointAt(from, segment, t));
      points.push(segment.to);
      from = segment.to;
    }
  }
  return boundsOf(points);
}

/** Parameters strictly between 0 and 1 at which x or y stops growing or shrinking. */
function turningParameters(from: Point, segment: Segment): number[] {
  if (segment.kind === 'line') return [];
  const found = [0, 1].flatMap((axis) =>
    segment.kind === 'cubic'
      ? cubicTurns(from[axis], segment.c1[axis], segment.c2[axis], segment.to[axis])
      : arcTurns(segment.u[axis], segment.v[axis], segment.start, segment.sweep),
  );
  return found.filter((t) => t > 0 && t < 1);
}

/**
 * Roots of the derivative of a cubic coordinate, 3 (a t^2 + b t + c), by the form that loses no digits: b and the root
 * are added with one sign, and the second root comes from the product of both, c / a. Where the derivative is of a
 * lower degree a quotient is infinite or not a number, and falls out as a parameter beyond the segment.
 */
function cubicTurns(p0: number, p1: number, p2: number, p3: number): number[] {
  const a = p3 - 3 * p2 + 3 * p1 - p0;
  const b = 2 * (p2 - 2 * p1 + p0);
  const c = p1 - p0;
  const discriminant = b * b - 4 * a * c;
  if (discriminant < 0) return [];
  const q = -(b + (b < 0 ? -1 : 1) * Math.sqrt(discriminant)) / 2;
  return [q / a, c / q];
}

/** Where u cos t + v sin t is greatest and least, as shares of the sweep, which is at most a full turn. */
function arcTurns(u: number, v: number, start: number, sweep: number): number[] {
  // u cos t + v sin t = hypot(u, v) cos(t - atan2(v, u)): greatest there, least half a turn on.
  const toGreatest = Math.atan2(v, u) - start;
  const [least, most] = sweep < 0 ? [sweep, 0] : [0, sweep];
  const turns: number[] = [];
  for (let k = Math.ceil((least - toGreatest) / Math.PI); toGreatest + k * Math.PI <= most; k++) {
    turns.push((toGreatest + k * Math.PI) / sweep);
  }
  return turns;
}
