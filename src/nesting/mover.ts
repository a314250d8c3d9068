import { type Arrangement, type Range, setRange } from './arrangement.ts';
import type { Overlaps } from './overlaps.ts';
import { DEPTH_TOLERANCE, Probe } from './probe.ts';
import type { NestingProblem } from './problem.ts';
import type { Random } from './random.ts';

/**
 * One move of the search: a copy is put where its weighted overlap is least. Positions are sampled over the
 * containers and around the present one in every orientation, looked at roughly, and the few best are refined by
 * descent on the exact depths (after Gardeyn, Vanden Berghe, Wauters 2025, on depth fields instead of circles).
 */

/** Samples over a whole container, for all orientations together. */
const GLOBAL_SAMPLES = 120;

/** Samples around the present position. */
const LOCAL_SAMPLES = 40;

/** Samples that are followed downhill roughly, and how many of those exactly. */
const REFINED = 5;
const EXACT = 2;

/** Rounds of a descent at most. */
const MOST_ROUNDS = 40;

/** Directions of a descent. */
const COMPASS = [1, 0, -1, 0, 0, 1, 0, -1, 0.7, 0.7, -0.7, 0.7, 0.7, -0.7, -0.7, -0.7];

/** Containers in play: their numbers, and where the usable length of each ends. */
export interface Field {
  readonly containers: readonly number[];
  readonly ends: Float64Array;
}

/** See the top of the file. One object serves a whole search; moves allocate nothing. */
export class Mover {
  private readonly problem: NestingProblem;
  private readonly arrangement: Arrangement;
  private readonly overlaps: Overlaps;
  private readonly random: Random;
  private readonly probe: Probe;
  private readonly range: Range = { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  private readonly topX = new Float64Array(REFINED);
  private readonly topY = new Float64Array(REFINED);
  private readonly topOrientation = new Int32Array(REFINED);
  private readonly topContainer = new Int32Array(REFINED);
  private readonly topValue = new Float64Array(REFINED);
  private topCount = 0;
  private foundX = 0;
  private foundY = 0;

  constructor(problem: NestingProblem, arrangement: Arrangement, overlaps: Overlaps, random: Random) {
    this.problem = problem;
    this.arrangement = arrangement;
    this.overlaps = overlaps;
    this.random = random;
    this.probe = new Probe(problem);
  }

  /** Moves copy `i` to the best place found; false when the present one is as good. */
  move(i: number, field: Field): boolean {
    const { arrangement, overlaps } = this;
    const present = overlaps.weightedOfCopy(i);
    this.topCount = 0;
    this.sampleAround(i, field);
    for (const container of field.containers) this.sampleContainer(i, field, container);
    let best = present;
    let bestX = 0;
    let bestY = 0;
    let bestTop = -1;
    for (let k = 0; k < this.topCount; k++) this.approach(i, field, k);
    for (let n = 0; n < EXACT && best > 0; n++) {
      const k = this.lowestTop();
      if (k < 0) break;
      const value = this.refine(i, field, k);
      this.topValue[k] = Number.POSITIVE_INFINITY;
      if (value < best) {
        best = value;
        bestX = this.foundX;
        bestY = this.foundY;
        bestTop = k;
      }
    }
    if (bestTop < 0) return false;
    arrangement.x[i] = bestX;
    arrangement.y[i] = bestY;
    arrangement.orientation[i] = this.topOrientation[bestTop];
    arrangement.container[i] = this.topContainer[bestTop];
    overlaps.measure(i);
    return true;
  }

  /** The most promising sample not yet refined, -1 when none is left. */
  private lowestTop(): number {
    let lowest = -1;
    for (let k = 0; k < this.topCount; k++) {
      if (this.topValue[k] === Number.POSITIVE_INFINITY) continue;
      if (lowest < 0 || this.topValue[k] < this.topValue[lowest]) lowest = k;
    }
    return lowest;
  }

  private sampleAround(i: number, field: Field): void {
    const { arrangement, problem, random, range } = this;
    const orientations = problem.shapes[problem.shapeOf[i]].orientations;
    const container = arrangement.container[i];
    const x = arrangement.x[i];
    const y = arrangement.y[i];
    const { box } = problem.orientations[arrangement.orientation[i]];
    const spreadX = 0.3 * (box.maxX - box.minX);
    const spreadY = 0.3 * (box.maxY - box.minY);
    this.setRange(field, container, arrangement.orientation[i]);
    this.offer(
      i,
      clamped(x, range.minX, range.maxX),
      clamped(y, range.minY, range.maxY),
      arrangement.orientation[i],
      container,
    );
    for (let n = 0; n < LOCAL_SAMPLES; n++) {
      const turned = n % 4 === 3 && orientations.length > 1;
      const orientation = turned
        ? orientations[random.below(orientations.length)]
        : arrangement.orientation[i];
      if (!this.setRange(field, container, orientation)) continue;
      const sampleX = clamped(x + random.between(-spreadX, spreadX), range.minX, range.maxX);
      const sampleY = clamped(y + random.between(-spreadY, spreadY), range.minY, range.maxY);
      this.offer(i, sampleX, sampleY, orientation, container);
    }
  }

  private sampleContainer(i: number, field: Field, container: number): void {
    const { problem, random, range } = this;
    const orientations = problem.shapes[problem.shapeOf[i]].orientations;
    const each = Math.max(
      8,
      Math.ceil(GLOBAL_SAMPLES / (orientations.length * Math.sqrt(field.containers.length))),
    );
    for (const orientation of orientations) {
      if (!this.setRange(field, container, orientation)) continue;
      for (let n = 0; n < each; n++) {
        this.offer(
          i,
          random.between(range.minX, range.maxX),
          random.between(range.minY, range.maxY),
          orientation,
          container,
        );
      }
    }
  }

  private setRange(field: Field, container: number, orientation: number): boolean {
    const { problem, range } = this;
    setRange(
      range,
      problem.containers[container],
      problem.orientations[orientation],
      problem.margin,
      field.ends[container],
    );
    return range.minX <= range.maxX && range.minY <= range.maxY;
  }

  /** Keeps a sample when it is among the best so far. */
  private offer(i: number, x: number, y: number, orientation: number, container: number): void {
    const { topValue } = this;
    const full = this.topCount === REFINED;
    const limit = full ? topValue[REFINED - 1] : Number.POSITIVE_INFINITY;
    const value = this.roughOverlap(i, x, y, orientation, container, limit);
    if (value >= limit) return;
    let at = full ? REFINED - 1 : this.topCount++;
    for (; at > 0 && topValue[at - 1] > value; at--) {
      topValue[at] = topValue[at - 1];
      this.topX[at] = this.topX[at - 1];
      this.topY[at] = this.topY[at - 1];
      this.topOrientation[at] = this.topOrientation[at - 1];
      this.topContainer[at] = this.topContainer[at - 1];
    }
    topValue[at] = value;
    this.topX[at] = x;
    this.topY[at] = y;
    this.topOrientation[at] = orientation;
    this.topContainer[at] = container;
  }

  /** Weighted overlap of copy `i` at a place, read roughly; stops once above `limit`. */
  private roughOverlap(
    i: number,
    x: number,
    y: number,
    orientation: number,
    container: number,
    limit: number,
  ): number {
    const { arrangement, problem, overlaps } = this;
    const { orientations, pairs, gap } = problem;
    const { weight, count, left, right, top, bottom } = overlaps;
    const { box } = orientations[orientation];
    const fromX = x + box.minX - gap;
    const toX = x + box.maxX + gap;
    const fromY = y + box.minY - gap;
    const toY = y + box.maxY + gap;
    const row = i * count;
    let sum = 0;
    for (const hazard of problem.containers[container].hazards) {
      const wall = pairs.hazard(hazard, orientation);
      if (wall === null) return Number.POSITIVE_INFINITY;
      const depth = wall.roughDepth(x, y);
      if (depth > 0) sum += depth * weight[row + i];
    }
    for (let j = 0; j < count && sum < limit; j++) {
      if (left[j] >= toX || right[j] <= fromX || top[j] >= toY || bottom[j] <= fromY) continue;
      if (j === i || arrangement.container[j] !== container) continue;
      const { field, xx, xy, yx, yy } = pairs.pair(arrangement.orientation[j], orientation);
      const dx = x - arrangement.x[j];
      const dy = y - arrangement.y[j];
      const depth = field.roughDepth(xx * dx + xy * dy, yx * dx + yy * dy);
      if (depth > 0) sum += depth * weight[row + j];
    }
    return sum;
  }

  /** Readies probe and range for the k-th best sample and descends from it roughly; true when it is worth more. */
  private approach(i: number, field: Field, k: number): void {
    const { arrangement, overlaps, probe, range, problem } = this;
    const orientation = this.topOrientation[k];
    const container = this.topContainer[k];
    const { box } = problem.orientations[orientation];
    const size = Math.max(box.maxX - box.minX, box.maxY - box.minY);
    const fits = probe.gather(
      arrangement,
      i,
      orientation,
      container,
      this.topX[k],
      this.topY[k],
      size / 4,
      overlaps.weight,
    );
    if (!fits || !this.setRange(field, container, orientation)) {
      this.topValue[k] = Number.POSITIVE_INFINITY;
      return;
    }
    this.foundX = this.topX[k];
    this.foundY = this.topY[k];
    this.topValue[k] = this.descendRoughly(range, 0.08 * size, 0.004 * size);
    this.topX[k] = this.foundX;
    this.topY[k] = this.foundY;
  }

  private descendRoughly(range: Range, largest: number, smallest: number): number {
    const { probe } = this;
    let x = this.foundX;
    let y = this.foundY;
    let lowest = probe.roughOverlap(x, y, Number.POSITIVE_INFINITY);
    let step = largest;
    for (let rounds = 0; rounds < MOST_ROUNDS && step > smallest && lowest > 0; rounds++) {
      let bettered = false;
      for (let direction = 0; direction < COMPASS.length && lowest > 0; direction += 2) {
        const tryX = clamped(x + COMPASS[direction] * step, range.minX, range.maxX);
        const tryY = clamped(y + COMPASS[direction + 1] * step, range.minY, range.maxY);
        const overlap = probe.roughOverlap(tryX, tryY, lowest);
        if (overlap < lowest) {
          lowest = overlap;
          x = tryX;
          y = tryY;
          bettered = true;
        }
      }
      step = bettered ? Math.min(largest, step * 1.4) : step / 2;
    }
    this.foundX = x;
    this.foundY = y;
    return lowest;
  }

  /** Descends from the k-th best sample on the exact depths; the place is left in foundX, foundY. */
  private refine(i: number, field: Field, k: number): number {
    const { arrangement, overlaps, probe, range, problem } = this;
    const orientation = this.topOrientation[k];
    const container = this.topContainer[k];
    const { box } = problem.orientations[orientation];
    const size = Math.max(box.maxX - box.minX, box.maxY - box.minY);
    let x = this.topX[k];
    let y = this.topY[k];
    probe.gather(arrangement, i, orientation, container, x, y, size / 10, overlaps.weight);
    this.setRange(field, container, orientation);
    let lowest = probe.overlap(x, y, Number.POSITIVE_INFINITY);
    const slope = probe.slope(x, y);
    let step = 0.01 * size;
    for (let rounds = 0; rounds < MOST_ROUNDS && step > 0.3 * DEPTH_TOLERANCE && lowest > 0; rounds++) {
      let bettered = false;
      for (let direction = 0; direction < COMPASS.length && lowest > 0; direction += 2) {
        const tryX = clamped(x + COMPASS[direction] * step, range.minX, range.maxX);
        const tryY = clamped(y + COMPASS[direction + 1] * step, range.minY, range.maxY);
        const overlap = probe.overlap(tryX, tryY, lowest);
        if (overlap < lowest) {
          lowest = overlap;
          x = tryX;
          y = tryY;
          bettered = true;
        }
      }
      step = bettered ? step * 1.4 : step / 3;
      // What further steps can gain is bounded by the slope; a hundredth of the overlap is not worth them.
      if (step * slope < 0.01 * lowest) break;
    }
    this.foundX = x;
    this.foundY = y;
    return lowest;
  }
}

function clamped(value: number, least: number, most: number): number {
  return Math.min(most, Math.max(least, value));
}
