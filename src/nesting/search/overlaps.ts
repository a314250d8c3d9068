import { boundsOf, boxArea } from '../../geometry/shapes.ts';
import type { Arrangement } from '../arrangement/arrangement.ts';
import { DEPTH_TOLERANCE } from '../arrangement/probe.ts';
import type { NestingProblem } from '../problem/problem.ts';

/**
 * The overlaps of an arrangement and the weights that guide the search away from stubborn ones (guided local
 * search, Voudouris and Tsang 1999; for nesting Egeblad, Nielsen, Odgaard 2007 and Umetani et al. 2009).
 *
 * Square tables indexed by copy; the diagonal holds the overlap with the hazards of the container. They are written where
 * copies meet and nowhere else: filled from end to end those of two thousand copies take a tenth of a second, in which
 * nobody is heard.
 */
export class Overlaps {
  readonly count: number;
  /** Depth of overlap of every pair, mm; 0 when there is none. */
  readonly depth: Float64Array;
  /** Weight in the search of every pair that weighs more than its size; 0 for all others. */
  private readonly weight: Float64Array;
  /** Box of every copy as it lies, mm; inside out for copies that lie nowhere. */
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly top: Float64Array;
  readonly bottom: Float64Array;
  /** Number of the overlaps of every copy. */
  private readonly met: Int32Array;
  /** Sizes of the pairs of shapes: what pairs of their copies weigh at first. */
  private readonly size: Float64Array;
  private readonly shapes: number;
  /** Places of the pairs that weigh more than their size, in the lower triangle of the tables: of many copies they are few. */
  private raised = new Int32Array(64);
  private raisedCount = 0;
  private readonly problem: NestingProblem;
  private readonly arrangement: Arrangement;

  constructor(problem: NestingProblem, arrangement: Arrangement) {
    this.problem = problem;
    this.arrangement = arrangement;
    this.count = arrangement.count;
    this.depth = new Float64Array(this.count * this.count);
    this.weight = new Float64Array(this.count * this.count);
    this.left = new Float64Array(this.count).fill(Number.POSITIVE_INFINITY);
    this.right = new Float64Array(this.count).fill(Number.NEGATIVE_INFINITY);
    this.top = new Float64Array(this.count).fill(Number.POSITIVE_INFINITY);
    this.bottom = new Float64Array(this.count).fill(Number.NEGATIVE_INFINITY);
    this.met = new Int32Array(this.count);
    this.size = pairSizes(problem, this.count);
    this.shapes = problem.shapes.length;
  }

  /** Forgets what the search has learnt. */
  resetWeights(): void {
    for (let n = 0; n < this.raisedCount; n++) this.weigh(this.raised[n], 0);
    this.raisedCount = 0;
  }

  /** Weight of a pair in the search, its size included. */
  weightOf(i: number, j: number): number {
    const raised = this.weight[i * this.count + j];
    return raised > 0 ? raised : this.sizeOf(i, j);
  }

  private sizeOf(i: number, j: number): number {
    const { shapeOf } = this.problem;
    return this.size[shapeOf[i] * this.shapes + shapeOf[j]];
  }

  /** Gives a pair, by its place in the lower triangle, a weight, or 0 for that of its size. */
  private weigh(at: number, weight: number): void {
    const { count } = this;
    const i = Math.floor(at / count);
    this.weight[at] = weight;
    this.weight[(at - i * count) * count + i] = weight;
  }

  /** Measures the overlaps of every copy. */
  measureAll(): void {
    const { count, met } = this;
    // Rows of copies that overlap nothing hold nothing: of a thousand copies the whole tables take milliseconds.
    for (let i = 0; i < count; i++) if (met[i] > 0) this.depth.fill(0, i * count, (i + 1) * count);
    met.fill(0);
    this.left.fill(Number.POSITIVE_INFINITY);
    for (let i = 0; i < count; i++) if (this.arrangement.container[i] >= 0) this.writeBox(i);
    for (let i = 0; i < count; i++) if (this.arrangement.container[i] >= 0) this.measure(i);
  }

  private writeBox(i: number): void {
    const { arrangement } = this;
    const { box } = this.problem.orientations[arrangement.orientation[i]];
    this.left[i] = arrangement.x[i] + box.minX;
    this.right[i] = arrangement.x[i] + box.maxX;
    this.top[i] = arrangement.y[i] + box.minY;
    this.bottom[i] = arrangement.y[i] + box.maxY;
  }

  /** Measures the overlaps of one copy exactly, after it has moved. */
  measure(i: number): void {
    this.writeBox(i);
    const { arrangement, depth, met, count, left, right, top, bottom } = this;
    const { pairs, gap } = this.problem;
    const container = arrangement.container[i];
    const orientation = arrangement.orientation[i];
    const x = arrangement.x[i];
    const y = arrangement.y[i];
    const fromX = left[i] - gap;
    const toX = right[i] + gap;
    const fromY = top[i] - gap;
    const toY = bottom[i] + gap;
    for (let j = 0; j < count; j++) {
      if (j === i) continue;
      let found = 0;
      if (left[j] < toX && right[j] > fromX && top[j] < toY && bottom[j] > fromY) {
        if (arrangement.container[j] === container) {
          const { field, xx, xy, yx, yy } = pairs.pair(arrangement.orientation[j], orientation);
          const dx = x - arrangement.x[j];
          const dy = y - arrangement.y[j];
          found = field.depth(xx * dx + xy * dy, yx * dx + yy * dy);
        }
      }
      const kept = found > DEPTH_TOLERANCE ? found : 0;
      const before = depth[i * count + j];
      if (kept === before) continue;
      depth[i * count + j] = kept;
      depth[j * count + i] = kept;
      const change = (kept > 0 ? 1 : 0) - (before > 0 ? 1 : 0);
      met[i] += change;
      met[j] += change;
    }
    const walls = this.hazardDepth(i);
    met[i] += (walls > 0 ? 1 : 0) - (depth[i * count + i] > 0 ? 1 : 0);
    depth[i * count + i] = walls;
  }

  private hazardDepth(i: number): number {
    const { arrangement, problem } = this;
    let sum = 0;
    for (const hazard of problem.containers[arrangement.container[i]].hazards) {
      const field = problem.pairs.hazard(hazard, arrangement.orientation[i]);
      const depth = field === null ? 0 : field.depth(arrangement.x[i], arrangement.y[i]);
      if (depth > DEPTH_TOLERANCE) sum += depth;
    }
    return sum;
  }

  /** True when copy `i` overlaps anything. */
  meets(i: number): boolean {
    return this.met[i] > 0;
  }

  /** Sum of the overlaps of one copy, weighted. */
  weightedOfCopy(i: number): number {
    const { depth, count } = this;
    let sum = 0;
    for (let j = 0; j < count; j++) {
      const overlap = depth[i * count + j];
      if (overlap > 0) sum += overlap * this.weightOf(i, j);
    }
    return sum;
  }

  /** Sum of all overlaps, each pair once, scaled by the size of the pair: what a separation has to bring to 0. */
  total(): number {
    const { depth, count, met } = this;
    let sum = 0;
    for (let i = 0; i < count; i++) {
      if (met[i] === 0) continue;
      for (let j = 0; j <= i; j++) {
        const overlap = depth[i * count + j];
        if (overlap > 0) sum += overlap * this.sizeOf(i, j);
      }
    }
    return sum;
  }

  /** Raises the weights of pairs that overlap, the deepest most, and lets the others fade. */
  learn(): void {
    const { depth, weight, count, met } = this;
    const deepest = this.deepest();
    if (deepest === 0) return;
    this.fade();
    for (let i = 0; i < count; i++) {
      if (met[i] === 0) continue;
      for (let j = 0; j <= i; j++) {
        const at = i * count + j;
        if (depth[at] === 0) continue;
        if (weight[at] === 0) this.remember(at);
        const raise = LEAST_RAISE + ((MOST_RAISE - LEAST_RAISE) * depth[at]) / deepest;
        this.weigh(at, this.weightOf(i, j) * raise);
      }
    }
  }

  /** Lets the weights of raised pairs that do not overlap any more fade, and forgets those that weigh no more than their size. */
  private fade(): void {
    const { depth, weight, raised, count } = this;
    let kept = 0;
    for (let n = 0; n < this.raisedCount; n++) {
      const at = raised[n];
      if (depth[at] === 0) {
        const i = Math.floor(at / count);
        const faded = weight[at] * FADE;
        this.weigh(at, faded > this.sizeOf(i, at - i * count) ? faded : 0);
      }
      if (weight[at] > 0) raised[kept++] = at;
    }
    this.raisedCount = kept;
  }

  private remember(at: number): void {
    if (this.raisedCount === this.raised.length) {
      const longer = new Int32Array(2 * this.raised.length);
      longer.set(this.raised);
      this.raised = longer;
    }
    this.raised[this.raisedCount++] = at;
  }

  private deepest(): number {
    const { depth, count, met } = this;
    let deepest = 0;
    for (let i = 0; i < count; i++) {
      if (met[i] === 0) continue;
      for (let at = i * count; at <= i * count + i; at++) if (depth[at] > deepest) deepest = depth[at];
    }
    return deepest;
  }
}

/** Factors by which weights grow and fade, after Gardeyn, Vanden Berghe, Wauters 2025. */
const LEAST_RAISE = 1.2;
const MOST_RAISE = 2;
const FADE = 0.95;

/** Fourth root of the product of the areas of every two shapes, relative to the mean of the copies: overlaps of large ones count more. */
function pairSizes(problem: NestingProblem, count: number): Float64Array {
  const root = problem.shapes.map(({ region }) => Math.sqrt(Math.sqrt(boxArea(boundsOf(region.outline)))));
  let mean = 0;
  for (let i = 0; i < count; i++) mean += root[problem.shapeOf[i]] / count;
  return Float64Array.from(root.flatMap((one) => root.map((other) => Math.sqrt(one * other) / mean)));
}
