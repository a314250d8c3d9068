import type { Box, Line, Point } from '../../geometry/shapes.ts';

/** What a straight way between two points runs over: leaders and the leads of numbers are such ways. */

/**
 * True when a way crosses a line or, when `closed`, a ring. A way that only touches a corner may pass for either.
 */
export function crossesLine([ax, ay]: Point, [bx, by]: Point, line: Line, closed: boolean): boolean {
  const dx = bx - ax;
  const dy = by - ay;
  const start = closed ? line.length - 1 : 0;
  // Which side of the way each end of an edge lies on; an edge with both on one side is done with at once.
  let [px, py] = line[start];
  let before = dx * (py - ay) - dy * (px - ax);
  for (let i = closed ? 0 : 1; i < line.length; i++) {
    const qx = line[i][0];
    const qy = line[i][1];
    const after = dx * (qy - ay) - dy * (qx - ax);
    if (before > 0 !== after > 0) {
      const ex = qx - px;
      const ey = qy - py;
      const here = ex * (ay - py) - ey * (ax - px);
      const there = ex * (by - py) - ey * (bx - px);
      if (here > 0 !== there > 0) return true;
    }
    px = qx;
    py = qy;
    before = after;
  }
  return false;
}

/**
 * The stretch of a straight way that lies in a box, by the parameters at which it enters and leaves (Liang and
 * Barsky, 1984): its two end points; undefined when it misses the box. A way that only touches the box has a stretch of
 * no length, so that what may not come near it counts as met.
 */
export function stretchIn([x, y]: Point, [toX, toY]: Point, box: Box): Line | undefined {
  // Most ways miss most boxes by far.
  if ((x < box.minX && toX < box.minX) || (x > box.maxX && toX > box.maxX)) return undefined;
  if ((y < box.minY && toY < box.minY) || (y > box.maxY && toY > box.maxY)) return undefined;
  const dx = toX - x;
  const dy = toY - y;
  let enters = 0;
  let leaves = 1;
  for (const [step, room] of [
    [-dx, x - box.minX],
    [dx, box.maxX - x],
    [-dy, y - box.minY],
    [dy, box.maxY - y],
  ]) {
    if (step === 0 && room < 0) return undefined;
    if (step < 0) enters = Math.max(enters, room / step);
    if (step > 0) leaves = Math.min(leaves, room / step);
  }
  if (enters > leaves) return undefined;
  const at = (share: number): Point => [x + share * dx, y + share * dy];
  return [at(enters), at(leaves)];
}

/** The point of a box that is nearest to a point: where the way to a text in that box ends. */
export function nearestIn([x, y]: Point, box: Box): Point {
  return [Math.min(box.maxX, Math.max(box.minX, x)), Math.min(box.maxY, Math.max(box.minY, y))];
}
