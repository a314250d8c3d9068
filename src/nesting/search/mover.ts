import { type Arrangement, clamped, type Field, type Range, setRange } from '../arrangement/arrangement.ts';
import { Probe } from '../arrangement/probe.ts';
import type { NestingProblem } from '../problem/problem.ts';
import type { Random } from '../running/random.ts';
import { EdgeDescent } from './edge-descent.ts';
import type { Overlaps } from './overlaps.ts';
import { Sampler } from './sampler.ts';

/**
 * One move of the search: a copy is put where its weighted overlap is least. Positions are sampled over the
 * containers and around the present one in every orientation, looked at roughly, and the few best are followed
 * downhill on the exact depths (after Gardeyn, Vanden Berghe, Wauters 2025, on depth fields instead of circles).
 */

/** Samples over a whole container, for all orientations together. */
const GLOBAL_SAMPLES = 120;

/** Samples around the present position. */
const LOCAL_SAMPLES = 40;

/** Samples around it in its own orientation at least, however many others there are. */
const FEWEST_LOCAL = 10;

/** The same place and around it, as a share of the size of the copy. */
const NEIGHBOURHOOD = 0.3;

/** Samples that are followed downhill. */
const REFINED = 5;

/** How far a descent may lead, and how far it looks ahead, as shares of the size of the copy. */
const FARTHEST = 0.25;
const AHEAD = 0.125;

/** See the top of the file. One object serves a whole search; moves allocate nothing. */
export class Mover {
  private readonly problem: NestingProblem;
  private readonly arrangement: Arrangement;
  private readonly overlaps: Overlaps;
  private readonly probe: Probe;
  private readonly descent: EdgeDescent;
  private readonly sampler: Sampler;
  private readonly range: Range = { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  private readonly topX = new Float64Array(REFINED);
  private readonly topY = new Float64Array(REFINED);
  private readonly topOrientation = new Int32Array(REFINED);
  private readonly topContainer = new Int32Array(REFINED);
  private readonly topValue = new Float64Array(REFINED);
  private topCount = 0;
  /** Samples that overlap more are not followed. */
  private ceiling = Number.POSITIVE_INFINITY;

  constructor(problem: NestingProblem, arrangement: Arrangement, overlaps: Overlaps, random: Random) {
    this.problem = problem;
    this.arrangement = arrangement;
    this.overlaps = overlaps;
    this.probe = new Probe(problem);
    this.descent = new EdgeDescent(this.probe);
    this.sampler = new Sampler(problem, arrangement, overlaps, random, GLOBAL_SAMPLES);
  }

  /** Moves copy `i` to the best place found; false when the present one is as good. */
  move(i: number, field: Field): boolean {
    const present = this.overlaps.weightedOfCopy(i);
    if (this.placeAnywhere(i, field, present, Number.POSITIVE_INFINITY) >= present) return false;
    this.overlaps.measure(i);
    return true;
  }

  /**
   * Lays copy `i` at the best place found whose weighted overlap is below `most`, and returns that overlap; infinite when
   * there is none, and the copy then stays where it is. Who calls measures its overlaps.
   */
  placeAnywhere(i: number, field: Field, most: number, ceiling: number): number {
    this.beginAround(i, field, ceiling);
    for (const container of field.containers) this.sampleContainer(i, field, container);
    return this.layAtBest(i, field, most);
  }

  /** As {@link placeAnywhere}, near where the copy lies alone. */
  placeNear(i: number, field: Field, most: number, ceiling: number): number {
    this.beginAround(i, field, ceiling);
    return this.layAtBest(i, field, most);
  }

  /** Forgets the samples before, and looks around where copy `i` lies. */
  private beginAround(i: number, field: Field, ceiling: number): void {
    this.topCount = 0;
    this.ceiling = ceiling;
    this.sampleAround(i, field);
  }

  /** Follows the best samples down and lays copy `i` where that leads lowest. */
  private layAtBest(i: number, field: Field, most: number): number {
    const { arrangement } = this;
    let best = most;
    for (let k = 0; k < this.topCount && best > 0; k++) {
      const value = this.refine(i, field, k);
      if (value >= best) continue;
      best = value;
      arrangement.x[i] = this.descent.x;
      arrangement.y[i] = this.descent.y;
      arrangement.orientation[i] = this.topOrientation[k];
      arrangement.container[i] = this.topContainer[k];
    }
    return best < most ? best : Number.POSITIVE_INFINITY;
  }

  /** Samples the present place, and places around it in the present orientation and in the others. */
  private sampleAround(i: number, field: Field): void {
    const { arrangement, problem } = this;
    const { orientations } = problem.shapes[problem.shapeOf[i]];
    const container = arrangement.container[i];
    const present = arrangement.orientation[i];
    const others = orientations.length - 1;
    const turned = others > 0 ? Math.ceil(LOCAL_SAMPLES / 4 / others) : 0;
    if (this.setRange(field, container, present)) {
      const x = clamped(arrangement.x[i], this.range.minX, this.range.maxX);
      const y = clamped(arrangement.y[i], this.range.minY, this.range.maxY);
      this.narrowRange(i, x, y);
      this.sampler.spread(this.range, Math.max(FEWEST_LOCAL, LOCAL_SAMPLES - turned * others), present);
      this.sampler.include(x, y);
      this.offerSamples(i, present, container);
    }
    for (const orientation of orientations) {
      if (orientation === present || !this.setRange(field, container, orientation)) continue;
      const x = clamped(arrangement.x[i], this.range.minX, this.range.maxX);
      const y = clamped(arrangement.y[i], this.range.minY, this.range.maxY);
      this.narrowRange(i, x, y);
      this.sampler.spread(this.range, turned, orientation);
      this.offerSamples(i, orientation, container);
    }
  }

  /** Narrows the range to the neighbourhood of (x, y). */
  private narrowRange(i: number, x: number, y: number): void {
    const { arrangement, problem, range } = this;
    const { box } = problem.orientations[arrangement.orientation[i]];
    const spreadX = NEIGHBOURHOOD * (box.maxX - box.minX);
    const spreadY = NEIGHBOURHOOD * (box.maxY - box.minY);
    range.minX = Math.max(range.minX, x - spreadX);
    range.maxX = Math.min(range.maxX, x + spreadX);
    range.minY = Math.max(range.minY, y - spreadY);
    range.maxY = Math.min(range.maxY, y + spreadY);
  }

  /** Samples a whole container in every orientation. */
  private sampleContainer(i: number, field: Field, container: number): void {
    const { problem, range } = this;
    const { orientations } = problem.shapes[problem.shapeOf[i]];
    const wanted = GLOBAL_SAMPLES / (orientations.length * Math.sqrt(field.containers.length));
    for (const orientation of orientations) {
      if (!this.setRange(field, container, orientation)) continue;
      this.sampler.spread(range, Math.ceil(Math.max(8, wanted)), orientation);
      this.offerSamples(i, orientation, container);
    }
  }

  private offerSamples(i: number, orientation: number, container: number): void {
    const { sampler } = this;
    if (!sampler.measure(i, orientation, container, this.worstKept())) return;
    for (let n = 0; n < sampler.count; n++) {
      this.offer(sampler.x[n], sampler.y[n], sampler.overlap[n], orientation, container);
    }
  }

  /** What a sample has to stay below to be among the best. */
  private worstKept(): number {
    return this.topCount === REFINED ? this.topValue[REFINED - 1] : this.ceiling;
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
  private offer(x: number, y: number, value: number, orientation: number, container: number): void {
    const { topValue } = this;
    if (value >= this.worstKept()) return;
    let at = this.topCount === REFINED ? REFINED - 1 : this.topCount++;
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

  /** Descends from the k-th best sample; the place is left in {@link descent}. */
  private refine(i: number, field: Field, k: number): number {
    const { arrangement, overlaps, probe, range, problem } = this;
    const orientation = this.topOrientation[k];
    const container = this.topContainer[k];
    const { box } = problem.orientations[orientation];
    const size = Math.max(box.maxX - box.minX, box.maxY - box.minY);
    const x = this.topX[k];
    const y = this.topY[k];
    const reach = FARTHEST * size;
    if (!probe.gather(arrangement, i, orientation, container, x, y, reach, overlaps))
      return Number.POSITIVE_INFINITY;
    if (!this.setRange(field, container, orientation)) return Number.POSITIVE_INFINITY;
    range.minX = Math.max(range.minX, x - reach);
    range.maxX = Math.min(range.maxX, x + reach);
    range.minY = Math.max(range.minY, y - reach);
    range.maxY = Math.min(range.maxY, y + reach);
    return this.descent.descend(x, y, range, AHEAD * size);
  }
}
