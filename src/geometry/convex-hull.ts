import type { Point, Ring } from './shapes.ts';

/** The smallest convex ring around points, mm, in which every point lies or is a corner (monotone chains, Andrew 1979). */
export function convexHull(points: readonly Point[]): Ring {
  const sorted = points.toSorted((a, b) => a[0] - b[0] || a[1] - b[1]);
  return [...chainOf(sorted), ...chainOf(sorted.toReversed())];
}

/** The side of the hull to the right of the way along sorted points, its last point left off. */
function chainOf(sorted: readonly Point[]): Point[] {
  const chain: Point[] = [];
  for (const point of sorted) {
    while (chain.length > 1 && !turnsAway(chain[chain.length - 2], chain[chain.length - 1], point))
      chain.pop();
    chain.push(point);
  }
  return chain.slice(0, -1);
}

function turnsAway([ax, ay]: Point, [bx, by]: Point, [cx, cy]: Point): boolean {
  return (bx - ax) * (cy - ay) - (by - ay) * (cx - ax) > 0;
}
