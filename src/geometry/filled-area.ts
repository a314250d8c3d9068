import type { Ring } from './shapes.ts';

/**
 * The area that crossing rings fill, by a sweep of its own: no clipping, no joining of rings, only widths of what is
 * filled, added up from left to right. It vouches for what clipper-lib makes of rings that share sides and corners.
 */

/** Edges nearer than this at an end of a strip, mm, meet there; strips no wider are not parted again. */
const MEETING = 1e-9;

/** An edge from left to right, mm; `turn` is +1 where its ring runs that way, else -1. */
interface Edge {
  readonly x: number;
  readonly y: number;
  readonly endX: number;
  readonly slope: number;
  readonly turn: number;
}

/** An edge where it crosses a strip between two upright lines. */
interface Crossing {
  readonly edge: Edge;
  readonly left: number;
  readonly right: number;
}

type Rule = 'nonzero' | 'evenodd';

/** Area in mm2 that rings, mm, fill under a fill rule; they may cross, touch, and lie on one another. */
export function filledArea(rings: readonly Ring[], rule: Rule): number {
  const edges = rings.flatMap(edgesThatBound).sort((a, b) => a.x - b.x);
  const ends = Float64Array.from(edges.flatMap(({ x, endX }) => [x, endX])).sort();
  let area = 0;
  let active: Edge[] = [];
  let next = 0;
  for (let i = 0; i + 1 < ends.length; i++) {
    const [left, right] = [ends[i], ends[i + 1]];
    if (left === right) continue;
    active = active.filter(({ endX }) => endX > left);
    while (next < edges.length && edges[next].x <= left) active.push(edges[next++]);
    const strip = stripOf(active, left, right);
    area += stripArea(strip, left, right, 0, rule);
    // The next strip is sorted all but at once.
    active = strip.map(({ edge }) => edge);
  }
  return area;
}

/** Upright edges bound no strip. */
function edgesThatBound(ring: Ring): Edge[] {
  return ring.flatMap(([x, y], i): Edge[] => {
    const [endX, endY] = ring[i + 1 === ring.length ? 0 : i + 1];
    if (x === endX) return [];
    const slope = (endY - y) / (endX - x);
    return [x < endX ? { x, y, endX, slope, turn: 1 } : { x: endX, y: endY, endX: x, slope, turn: -1 }];
  });
}

/** Edges as they lie in a strip that all of them reach across, from least y at its left side. */
function stripOf(edges: readonly Edge[], left: number, right: number): Crossing[] {
  return edges
    .map((edge) => ({
      edge,
      left: edge.y + edge.slope * (left - edge.x),
      right: edge.y + edge.slope * (right - edge.x),
    }))
    .sort((a, b) => (Math.abs(a.left - b.left) > MEETING ? a.left - b.left : a.right - b.right));
}

/**
 * Filled area of a strip: where an edge leaves what is filled, the strip up to it counts; where one enters, it does not.
 * Edges that cross one another follow on one another; such a run is parted at a crossing, apart from all others.
 *
 * @param before windings before the first edge
 */
function stripArea(
  strip: readonly Crossing[],
  left: number,
  right: number,
  before: number,
  rule: Rule,
): number {
  const least = leastFrom(strip);
  let area = 0;
  let winding = before;
  let most = Number.NEGATIVE_INFINITY;
  let first = 0;
  for (let i = 0; i < strip.length; i++) {
    most = Math.max(most, strip[i].right);
    if (most > least[i + 1] + MEETING && right - left > MEETING) continue;
    const run = strip.slice(first, i + 1);
    if (run.length > 1) {
      const cut = left + (right - left) * shareAtCrossing(run);
      const edges = run.map(({ edge }) => edge);
      area += stripArea(stripOf(edges, left, cut), left, cut, winding, rule);
      area += stripArea(stripOf(edges, cut, right), cut, right, winding, rule);
    }
    for (const { edge, left: a, right: b } of run) {
      const wasFilled = isFilled(winding, rule);
      winding += edge.turn;
      if (run.length > 1 || isFilled(winding, rule) === wasFilled) continue;
      area += ((wasFilled ? 1 : -1) * (right - left) * (a + b)) / 2;
    }
    first = i + 1;
    most = Number.NEGATIVE_INFINITY;
  }
  return area;
}

/** For each place of a strip the least y at the right side from there on, and infinity after the last. */
function leastFrom(strip: readonly Crossing[]): Float64Array {
  const least = new Float64Array(strip.length + 1).fill(Number.POSITIVE_INFINITY);
  for (let i = strip.length - 1; i >= 0; i--) least[i] = Math.min(strip[i].right, least[i + 1]);
  return least;
}

/** How far across a strip, from 0 to 1, those two neighbours of a run cross that change places by most. */
function shareAtCrossing(run: readonly Crossing[]): number {
  let share = 0.5;
  let deepest = 0;
  for (let i = 0; i + 1 < run.length; i++) {
    const before = run[i + 1].left - run[i].left;
    const after = run[i].right - run[i + 1].right;
    if (after <= deepest) continue;
    deepest = after;
    share = before / (before + after);
  }
  // Never at an end, where rounding would part nothing off.
  return Math.min(Math.max(share, 0.001), 0.999);
}

function isFilled(winding: number, rule: Rule): boolean {
  return rule === 'evenodd' ? winding % 2 !== 0 : winding !== 0;
}
