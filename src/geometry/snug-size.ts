import { convexHull } from './convex-hull.ts';
import type { Point } from './shapes.ts';

/** Sides of a box, mm. */
export interface SnugSize {
  readonly length: number;
  readonly width: number;
}

/** Most edges that a box is laid along: those of a finer hull turn by less than a degree from one to the next. */
const MOST_EDGES = 720;

/**
 * The narrowest box around points, turned any way: what a rule laid along a part and across it measures, however the part
 * is turned in the drawing. One side of such a box runs along an edge of the convex hull (Houle, Toussaint 1988).
 */
export function snugSize(points: readonly Point[]): SnugSize {
  const hull = convexHull(points);
  const step = Math.ceil(hull.length / MOST_EDGES);
  let snug: SnugSize | undefined;
  for (let i = 0; i < hull.length; i += step) {
    const box = boxAlong(hull, hull[i], hull[(i + 1) % hull.length]);
    if (snug === undefined || isSnugger(box, snug)) snug = box;
  }
  return snug ?? { length: 0, width: 0 };
}

/** The box around a hull with a side along the way from a to b. */
function boxAlong(hull: readonly Point[], [ax, ay]: Point, [bx, by]: Point): SnugSize {
  const angle = Math.atan2(by - ay, bx - ax);
  const [ux, uy] = [Math.cos(angle), Math.sin(angle)];
  const along = spread(hull, ux, uy);
  const across = spread(hull, -uy, ux);
  return { length: Math.max(along, across), width: Math.min(along, across) };
}

/** How far points reach in a direction. */
function spread(points: readonly Point[], ux: number, uy: number): number {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const [x, y] of points) {
    const far = ux * x + uy * y;
    least = Math.min(least, far);
    most = Math.max(most, far);
  }
  return most - least;
}

/** Of boxes whose widths differ by rounding alone the shorter one, so that a part is as long however it is turned. */
function isSnugger(one: SnugSize, other: SnugSize): boolean {
  const less = other.width - one.width;
  return Math.abs(less) < 1e-9 ? one.length < other.length : less > 0;
}
