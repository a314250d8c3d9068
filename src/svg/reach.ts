import { type Curve, pointAt } from '../geometry/curve.ts';
import { FARTHEST_MM } from '../geometry/integer-grid.ts';
import type { Point } from '../geometry/shapes.ts';

/** True when a curve in mm stays within the range that geometry is exact in; an arc is tried along its way. */
export function isWithinReach({ start, segments }: Curve): boolean {
  if (!isPointWithinReach(start)) return false;
  let from = start;
  for (const segment of segments) {
    if (!isPointWithinReach(segment.to)) return false;
    if (segment.kind === 'cubic' && !(isPointWithinReach(segment.c1) && isPointWithinReach(segment.c2)))
      return false;
    // The ends of an arc may lie near while the middle of its ellipse is far off; quarters of its way tell well enough.
    if (segment.kind === 'arc') {
      for (const t of [0.25, 0.5, 0.75]) if (!isPointWithinReach(pointAt(from, segment, t))) return false;
    }
    from = segment.to;
  }
  return true;
}

/** True when a point in mm is within that range. */
export function isPointWithinReach([x, y]: Point): boolean {
  return Math.abs(x) <= FARTHEST_MM && Math.abs(y) <= FARTHEST_MM;
}
