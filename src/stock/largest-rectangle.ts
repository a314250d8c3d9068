import { edgeEnds } from '../geometry/edge-ends.ts';
import { regionArea } from '../geometry/ring.ts';
import { type Box, boundsOf, boxArea, type Region } from '../geometry/shapes.ts';

/**
 * The largest upright rectangle in a region: what a person can count on in an offcut.
 *
 * The region is cut into columns. The heights that are free over a whole column come from its edges, those free
 * over several columns are what their intervals share, so that every rectangle looked at lies truly inside. The
 * best few are then looked at again with finer columns around their two ends.
 */

/** Columns of the first look. */
const COLUMNS = 96;

/** Rectangles of the first look that are refined, rounds, and columns on either side of an end in each. */
const REFINED = 6;
const ROUNDS = 7;
const FINE_COLUMNS = 6;

/** Sides below this are none, mm. */
const LEAST_SIDE = 1e-6;

/** Least sides of the rectangle, mm. */
export interface LeastSize {
  readonly length: number;
  readonly width: number;
}

/** Heights from `low` to `high`. */
type Interval = readonly [low: number, high: number];

/**
 * The rectangle of the greatest area with sides along the axes, at least `least` in x and y; undefined when none
 * fits. It never sticks out; its area falls short of the true greatest one by less than a thousandth on outlines
 * of boards.
 */
export function largestRectangle(
  region: Region,
  least: LeastSize = { length: 0, width: 0 },
): Box | undefined {
  const look = firstLook(region, least);
  if (look === undefined) return undefined;
  const { edges } = look;
  let { found: best, step: reach } = look;
  for (let round = 0; round < ROUNDS; round++) {
    const finer = best.flatMap((box) => bestOf(edges, columnsAround(edges, box, reach), least, 1));
    best = finer.length > 0 ? keepLarger(best, finer) : best;
    reach /= FINE_COLUMNS / 2;
  }
  return best.reduce<Box | undefined>(
    (large, box) => (large === undefined || boxArea(box) > boxArea(large) ? box : large),
    undefined,
  );
}

/** True where {@link largestRectangle} finds one: told by its first look alone. */
export function holdsRectangle(region: Region, least: LeastSize): boolean {
  const look = firstLook(region, least);
  return look !== undefined && look.found.length > 0;
}

/** The best rectangles between even columns, the edges of the region, and the width of a column in mm; undefined where none can fit. */
function firstLook(region: Region, least: LeastSize) {
  if (region.outline.length < 3 || regionArea(region) < least.length * least.width) return undefined;
  const { minX, minY, maxX, maxY } = boundsOf(region.outline);
  if (maxX - minX < least.length || maxY - minY < least.width) return undefined;
  const step = (maxX - minX) / COLUMNS;
  const even = Array.from({ length: COLUMNS + 1 }, (_, i) => minX + i * step);
  const edges = byLeftEnd(edgeEnds([region.outline, ...region.openings]));
  const corners = spacedVertices(edges, step / 2);
  return { edges, step, found: bestOf(edges, [...even, ...corners], least, REFINED) };
}

/** The edges, four numbers each, in the order in which a line moving to the right meets them. */
function byLeftEnd(edges: Float64Array): Float64Array {
  const left = Float64Array.from({ length: edges.length / 4 }, (_, e) =>
    Math.min(edges[4 * e], edges[4 * e + 2]),
  );
  const order = Uint32Array.from(left, (_, e) => e).sort((a, b) => left[a] - left[b] || a - b);
  const sorted = new Float64Array(edges.length);
  order.forEach((e, at) => {
    sorted.set(edges.subarray(4 * e, 4 * e + 4), 4 * at);
  });
  return sorted;
}

/** Each rectangle or its refinement, whichever is larger. */
function keepLarger(before: readonly Box[], after: readonly Box[]): Box[] {
  return after.map((box, i) =>
    before[i] !== undefined && boxArea(before[i]) > boxArea(box) ? before[i] : box,
  );
}

/** x of the vertices, none nearer to the one before than `spacing`. */
function spacedVertices(edges: Float64Array, spacing: number): number[] {
  const kept: number[] = [];
  for (const x of verticesX(edges).sort())
    if (kept.length === 0 || x - kept[kept.length - 1] >= spacing) kept.push(x);
  return kept;
}

function verticesX(edges: Float64Array): Float64Array {
  return edges.filter((_, i) => i % 4 === 0);
}

/** Column limits near both ends of a rectangle, vertices among them. */
function columnsAround(edges: Float64Array, { minX, maxX }: Box, reach: number): number[] {
  const near = (x: number) => Math.abs(x - minX) <= reach || Math.abs(x - maxX) <= reach;
  const vertices = verticesX(edges).filter(near);
  const spread = (x: number) =>
    Array.from({ length: 2 * FINE_COLUMNS + 1 }, (_, i) => x + (reach * (i - FINE_COLUMNS)) / FINE_COLUMNS);
  // Past a few dozen, vertices are those of a flattened curve, and even columns do as well.
  return [...spread(minX), ...spread(maxX), ...(vertices.length <= 4 * FINE_COLUMNS ? vertices : [])];
}

/** The largest rectangles whose ends lie on column limits, one for each of the best left ends. */
function bestOf(edges: Float64Array, limits: readonly number[], least: LeastSize, count: number): Box[] {
  const xs = [...new Set(limits)].sort((a, b) => a - b);
  const end = xs[xs.length - 1];
  const width = Math.max(least.width, LEAST_SIDE);
  const heights = new FreeHeights(edges);
  const free = xs.slice(1).map((x, i) => tallerThan(width, heights.between(xs[i], x)));
  const found: Box[] = [];
  for (let from = 0; from < free.length; from++) {
    let best: Box | undefined;
    let shared = free[from];
    for (let to = from; to < free.length && shared.length > 0; to++) {
      if (to > from) shared = tallerThan(width, sharedIntervals(shared, free[to]));
      const tallest = shared.reduce((most, [low, high]) => Math.max(most, high - low), 0);
      if (best !== undefined && tallest * (end - xs[from]) <= boxArea(best)) break;
      const length = xs[to + 1] - xs[from];
      if (length < Math.max(least.length, LEAST_SIDE)) continue;
      for (const [minY, maxY] of shared) {
        const box: Box = { minX: xs[from], minY, maxX: xs[to + 1], maxY };
        if (best === undefined || boxArea(box) > boxArea(best)) best = box;
      }
    }
    if (best !== undefined) found.push(best);
  }
  return found.sort((a, b) => boxArea(b) - boxArea(a)).slice(0, count);
}

function tallerThan(width: number, intervals: readonly Interval[]): readonly Interval[] {
  return intervals.filter(([low, high]) => high - low >= width);
}

/**
 * Heights at which whole columns are in the region of the edges. Columns are asked for from left to right, and of the
 * thousands of edges around the parts of a board only those are looked at that have been met and not yet passed.
 */
class FreeHeights {
  private readonly edges: Float64Array;
  /** Where the edges in play start in their table, and their number. */
  private readonly active: Int32Array;
  private count = 0;
  /** Where the first edge starts that has not been met yet. */
  private next = 0;

  /** @param edges in the order of their left ends */
  constructor(edges: Float64Array) {
    this.edges = edges;
    this.active = new Int32Array(edges.length / 4);
  }

  /** Heights free from `left` to `right`; no column may start to the left of the one before. */
  between(left: number, right: number): Interval[] {
    const { edges, active } = this;
    for (; this.next < edges.length; this.next += 4) {
      if (Math.min(edges[this.next], edges[this.next + 2]) >= right) break;
      active[this.count++] = this.next;
    }
    const blocked: Interval[] = [];
    const crossings: number[] = [];
    const middle = (left + right) / 2;
    let kept = 0;
    for (let k = 0; k < this.count; k++) {
      const i = active[k];
      const ax = edges[i];
      const ay = edges[i + 1];
      const bx = edges[i + 2];
      const by = edges[i + 3];
      if (ax <= left && bx <= left) continue;
      active[kept++] = i;
      const slope = ax === bx ? 0 : (by - ay) / (bx - ax);
      const atA = ay + slope * (Math.min(right, Math.max(left, ax)) - ax);
      const atB = ax === bx ? by : ay + slope * (Math.min(right, Math.max(left, bx)) - ax);
      blocked.push([Math.min(atA, atB), Math.max(atA, atB)]);
      if (ax > middle !== bx > middle) crossings.push(ay + slope * (middle - ax));
    }
    this.count = kept;
    return gapsInside(blocked, crossings);
  }
}

/** The gaps between blocked heights that lie inside, by the parity of the crossings below them. */
function gapsInside(blocked: Interval[], crossings: number[]): Interval[] {
  blocked.sort((a, b) => a[0] - b[0]);
  crossings.sort((a, b) => a - b);
  const free: Interval[] = [];
  let below = Number.NEGATIVE_INFINITY;
  let crossed = 0;
  for (const [low, high] of blocked) {
    if (low > below && below > Number.NEGATIVE_INFINITY) {
      while (crossed < crossings.length && crossings[crossed] <= (below + low) / 2) crossed++;
      if (crossed % 2 === 1) free.push([below, low]);
    }
    below = Math.max(below, high);
  }
  return free;
}

/** What two sorted lists of intervals share. */
function sharedIntervals(a: readonly Interval[], b: readonly Interval[]): Interval[] {
  const shared: Interval[] = [];
  for (let i = 0, j = 0; i < a.length && j < b.length; ) {
    const low = Math.max(a[i][0], b[j][0]);
    const high = Math.min(a[i][1], b[j][1]);
    if (high > low) shared.push([low, high]);
    if (a[i][1] < b[j][1]) i++;
    else j++;
  }
  return shared;
}
