import { boundsOf, type Point, type Ring } from '../../geometry/shapes.ts';

/**
 * True when two edges of a ring that are not neighbours cross, or it has too few for an area. Edges that only touch do
 * not count.
 *
 * The edges are swept along the axis on which they are short, so that each is compared with the few beside it: at 5,000
 * vertices every pair of edges is 12 million.
 */
export function crossesItself(ring: Ring): boolean {
  const count = ring.length;
  if (count < 3) return true;
  const axis = shortAxis(ring);
  const from = new Float64Array(count);
  const to = new Float64Array(count);
  const order = new Uint32Array(count);
  for (let i = 0; i < count; i++) {
    const here = ring[i][axis];
    const next = ring[i + 1 === count ? 0 : i + 1][axis];
    from[i] = Math.min(here, next);
    to[i] = Math.max(here, next);
    order[i] = i;
  }
  order.sort((a, b) => from[a] - from[b]);
  for (let n = 0; n < count; n++) {
    const i = order[n];
    for (let m = n + 1; m < count && from[order[m]] <= to[i]; m++) {
      const j = order[m];
      const steps = Math.abs(i - j);
      if (steps === 1 || steps === count - 1) continue;
      if (segmentsCross(ring[i], ring[(i + 1) % count], ring[j], ring[(j + 1) % count])) return true;
    }
  }
  return false;
}

/** The coordinate, 0 or 1, on which the edges overlap one another less, measured by the size of the ring. */
function shortAxis(ring: Ring): 0 | 1 {
  const { minX, minY, maxX, maxY } = boundsOf(ring);
  let alongX = 0;
  let alongY = 0;
  for (let i = 0; i < ring.length; i++) {
    const [x, y] = ring[i];
    const [nextX, nextY] = ring[i + 1 === ring.length ? 0 : i + 1];
    alongX += Math.abs(nextX - x);
    alongY += Math.abs(nextY - y);
  }
  return alongX * (maxY - minY) <= alongY * (maxX - minX) ? 0 : 1;
}

function segmentsCross(a: Point, b: Point, c: Point, d: Point): boolean {
  if (Math.max(a[0], b[0]) < Math.min(c[0], d[0]) || Math.max(c[0], d[0]) < Math.min(a[0], b[0]))
    return false;
  if (Math.max(a[1], b[1]) < Math.min(c[1], d[1]) || Math.max(c[1], d[1]) < Math.min(a[1], b[1]))
    return false;
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

function side(a: Point, b: Point, p: Point): number {
  return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
}
