import { UNITS_PER_MM } from '../../geometry/integer-grid.ts';
import type { Point, Ring } from '../../geometry/shapes.ts';

/**
 * The convolution of two directed rings (Guibas, Ramshaw, Stolfi 1983): the closed paths traced by the sums of
 * points of both rings that share a direction. Its winding number around a point p is the number of pieces in
 * which A meets p - B, so for rings without openings a positive winding says exactly that they overlap.
 *
 * Directions that coincide are told apart by turning B's ahead by an infinitely small angle, the same way for
 * vertices of A and of B, so that the paths always close.
 */

/** A ring on the whole-number grid, without repeated points or vertices on a straight line. */
export interface GridRing {
  readonly count: number;
  /** Vertices in grid units. */
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** The ring on the grid; points that fall together and vertices in the middle of a straight line are left out. */
export function gridRing(ring: Ring): GridRing {
  const points = ring.map(([x, y]): Point => [Math.round(x * UNITS_PER_MM), Math.round(y * UNITS_PER_MM)]);
  const kept: Point[] = [];
  for (const point of points) {
    while (kept.length >= 2 && turn(kept[kept.length - 2], kept[kept.length - 1], point) === 0) kept.pop();
    const last = kept[kept.length - 1];
    if (last === undefined || last[0] !== point[0] || last[1] !== point[1]) kept.push(point);
  }
  trimSeam(kept);
  return {
    count: kept.length,
    x: Float64Array.from(kept, ([x]) => x),
    y: Float64Array.from(kept, ([, y]) => y),
  };
}

/** Takes away repeated or straight vertices around the seam of the ring. */
function trimSeam(ring: Point[]): void {
  while (ring.length >= 3) {
    const [first, second] = ring;
    const last = ring[ring.length - 1];
    if (turn(ring[ring.length - 2], last, first) === 0) ring.pop();
    else if (turn(last, first, second) === 0) ring.shift();
    else break;
  }
}

function turn(a: Point, b: Point, c: Point): number {
  return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]);
}

/** True for a simple ring, solid on its positive side, that turns the same way at every vertex. */
export function isConvex({ count, x, y }: GridRing): boolean {
  for (let i = 0; i < count; i++) {
    const j = (i + 1) % count;
    const k = (i + 2) % count;
    if ((x[j] - x[i]) * (y[k] - y[j]) - (y[j] - y[i]) * (x[k] - x[j]) <= 0) return false;
  }
  return true;
}

/** The ring mirrored through the origin; its direction stays. */
export function mirroredThroughOrigin(ring: GridRing): GridRing {
  return { count: ring.count, x: ring.x.map((value) => -value), y: ring.y.map((value) => -value) };
}

/** The ring run the other way. */
export function reversedRing(ring: GridRing): GridRing {
  return { count: ring.count, x: ring.x.toReversed(), y: ring.y.toReversed() };
}

/** The closed paths of the convolution of `a` and `b`, in mm. */
export function convolve(a: GridRing, b: GridRing): Ring[] {
  const steps = new Steps(a.count * b.count);
  sweepEdges(a, b, true, steps);
  sweepEdges(b, a, false, steps);
  return tracePaths(steps, a, b);
}

/** The steps of the convolution: from one state (vertex of A, vertex of B) to another, numbered i * |B| + j. */
class Steps {
  readonly from: number[] = [];
  readonly to: number[] = [];
  readonly states: number;
  constructor(states: number) {
    this.states = states;
  }
  add(from: number, to: number, forward: boolean): void {
    this.from.push(forward ? from : to);
    this.to.push(forward ? to : from);
  }
}

/** Adds every edge of `edges` that points into the turn of a vertex of `turns`; backwards at reflex vertices. */
function sweepEdges(edges: GridRing, turns: GridRing, edgesAreA: boolean, steps: Steps): void {
  const bCount = edgesAreA ? turns.count : edges.count;
  for (let j = 0; j < turns.count; j++) {
    const h = j === 0 ? turns.count - 1 : j - 1;
    const k = j === turns.count - 1 ? 0 : j + 1;
    const inX = turns.x[j] - turns.x[h];
    const inY = turns.y[j] - turns.y[h];
    const outX = turns.x[k] - turns.x[j];
    const outY = turns.y[k] - turns.y[j];
    const convex = inX * outY - inY * outX > 0;
    const [lowX, lowY, highX, highY] = convex ? [inX, inY, outX, outY] : [outX, outY, inX, inY];
    for (let i = 0; i < edges.count; i++) {
      const n = i === edges.count - 1 ? 0 : i + 1;
      const ex = edges.x[n] - edges.x[i];
      const ey = edges.y[n] - edges.y[i];
      const pastLow = lowX * ey - lowY * ex;
      const beforeHigh = ex * highY - ey * highX;
      const within = edgesAreA ? pastLow > 0 && beforeHigh >= 0 : pastLow >= 0 && beforeHigh > 0;
      if (!within) continue;
      if (edgesAreA) steps.add(i * bCount + j, n * bCount + j, convex);
      else steps.add(j * bCount + i, j * bCount + n, convex);
    }
  }
}

/** Splits the steps into closed paths: every state is left as often as it is reached, so a walk always returns. */
function tracePaths(steps: Steps, a: GridRing, b: GridRing): Ring[] {
  const count = steps.from.length;
  const firstOf = new Int32Array(steps.states).fill(-1);
  const nextOf = new Int32Array(count);
  for (let s = 0; s < count; s++) {
    nextOf[s] = firstOf[steps.from[s]];
    firstOf[steps.from[s]] = s;
  }
  const paths: Ring[] = [];
  for (let s = 0; s < count; s++) {
    const start = steps.from[s];
    while (firstOf[start] >= 0) {
      const path: Point[] = [];
      let state = start;
      while (firstOf[state] >= 0) {
        const step = firstOf[state];
        firstOf[state] = nextOf[step];
        const i = Math.floor(state / b.count);
        const j = state - i * b.count;
        path.push([(a.x[i] + b.x[j]) / UNITS_PER_MM, (a.y[i] + b.y[j]) / UNITS_PER_MM]);
        state = steps.to[step];
      }
      if (path.length >= 3) paths.push(path);
    }
  }
  return paths;
}
