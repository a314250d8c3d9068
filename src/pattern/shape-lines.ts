import { type Curve, mapCurve } from '../geometry/curve.ts';
import { boundsOfCurves } from '../geometry/curve-bounds.ts';
import { flattenCurve } from '../geometry/flatten.ts';
import { endsApart, withoutClosingRepeats, withoutLineRepeats } from '../geometry/ring.ts';
import { curveHullBounds } from '../geometry/segment-hull.ts';
import type { Line, Point, Ring } from '../geometry/shapes.ts';
import type { DrawingShape } from '../model/drawing.ts';

/** Points nearer than this, mm, are one point: one unit of the integer grid. */
const SAME_POINT = 1e-4;

/** A line drawn closed, or one whose ends meet, which are joined there. */
export interface ClosedLine {
  readonly ring: Ring;
  readonly joins: readonly Point[];
}

/** What a shape draws, flattened at finished size: closed rings and open lines. */
export interface ShapeLines {
  /** Rings of the painted inside, empty when the shape is not filled. */
  readonly filled: readonly Ring[];
  /** Closed lines that are drawn but not filled. */
  readonly closed: readonly ClosedLine[];
  readonly open: readonly Line[];
}

/**
 * Scales and flattens a shape. A filled subpath that encloses nothing (a straight line with the default fill) is
 * an open line when it is drawn.
 *
 * @param scale finished mm per drawn mm
 * @param tolerance greatest deviation in finished mm; small shapes get a finer one, 1/10,000 of their size
 * @param joinGap ends of one line up to this far apart, mm, are taken as meeting
 */
export function linesOfShape(
  shape: DrawingShape,
  scale: number,
  tolerance: number,
  joinGap: number,
): ShapeLines {
  const isFilled = shape.fill !== 'none';
  const isDrawn = shape.stroke !== 'none';
  const filled: Ring[] = [];
  const closed: ClosedLine[] = [];
  const open: Line[] = [];
  for (const curve of shape.curves) {
    const scaled = scale === 1 ? curve : mapCurve([scale, 0, 0, scale, 0, 0], curve);
    const points = withoutLineRepeats(flattenCurve(scaled, toleranceFor(scaled, tolerance)), SAME_POINT);
    const ring = withoutClosingRepeats(points, SAME_POINT);
    const encloses = ring.length >= 3 && (isFilled || curve.closed || endsApart(points) <= joinGap);
    if (isFilled && encloses && isSpread(ring)) filled.push(ring);
    // A filled shape that encloses nothing is still a line where it has a stroke; without one nothing of it shows.
    else if (!isDrawn) continue;
    else if (encloses && !isFilled) closed.push({ ring, joins: curve.closed ? [] : [ring[0]] });
    else if (points.length >= 2) open.push(points);
  }
  return { filled, closed, open };
}

/**
 * True unless all points lie on one line, 1e-7 mm2 allowed for rounding: the loops of a figure eight cancel in its
 * area, not in this.
 */
function isSpread(ring: Ring): boolean {
  const [ox, oy] = ring[0];
  let twice = 0;
  for (let i = 2; i < ring.length; i++) {
    twice += Math.abs((ring[i - 1][0] - ox) * (ring[i][1] - oy) - (ring[i][0] - ox) * (ring[i - 1][1] - oy));
  }
  return twice > 1e-7;
}

function toleranceFor(curve: Curve, tolerance: number): number {
  // The ellipse around a slightly bent arc may be a thousand times its size, so arcs are measured themselves.
  const hasArcs = curve.segments.some(({ kind }) => kind === 'arc');
  const { minX, minY, maxX, maxY } = hasArcs ? boundsOfCurves([curve]) : curveHullBounds(curve);
  const size = Math.max(maxX - minX, maxY - minY);
  return size > 0 ? Math.min(tolerance, size / 10_000) : tolerance;
}
