import type { Curve, Segment } from './curve.ts';
import { type Box, boundsOf, type Point } from './shapes.ts';

/** Points whose hull holds the segment, its start left out; for an arc, a box around its whole ellipse. */
export function segmentHull(segment: Segment): Point[] {
  if (segment.kind === 'line') return [segment.to];
  if (segment.kind === 'cubic') return [segment.c1, segment.c2, segment.to];
  const [x, y] = segment.centre;
  const dx = Math.hypot(segment.u[0], segment.v[0]);
  const dy = Math.hypot(segment.u[1], segment.v[1]);
  return [
    [x - dx, y - dy],
    [x + dx, y - dy],
    [x + dx, y + dy],
    [x - dx, y + dy],
  ];
}

/**
 * A box that holds the curve: the bounds of the points that hold its segments. Larger than the curve where handles
 * reach out or an arc is part of a large ellipse; `boundsOfCurves` is tight and slower.
 */
export function curveHullBounds({ start, segments }: Curve): Box {
  const points: Point[] = [start];
  for (const segment of segments) {
    if (segment.kind === 'cubic') points.push(segment.c1, segment.c2, segment.to);
    else if (segment.kind === 'line') points.push(segment.to);
    else points.push(...segmentHull(segment));
  }
  return boundsOf(points);
}
