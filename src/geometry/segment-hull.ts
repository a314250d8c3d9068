import type { Segment } from './curve.ts';
import type { Point } from './shapes.ts';

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
