import {
  type Arrangement,
  clampInto,
  type Field,
  fullEnds,
  untwist,
  usedEnd,
} from '../arrangement/arrangement.ts';
import { ExactCheck } from '../arrangement/exact-check.ts';
import type { NestingProblem } from '../problem/problem.ts';
import { Random } from '../running/random.ts';
import { isOver, type Run } from '../running/run.ts';
import { Compaction, maySlide } from '../sliding/compaction.ts';
import { mayTwist, settleTurning } from '../sliding/twisting.ts';
import { disturb } from './disturb.ts';
import { FailedTries } from './failed-tries.ts';
import { type Patience, Separation } from './separation.ts';

/**
 * Shortens the used length of one container, the others staying as long as they are: shrink, separate, and on
 * success shrink again; on failure go back to a good try, disturb it and try once more. The last part of the budget
 * goes to compression from the best layout in ever smaller steps.
 */

/** How to shorten. */
export interface ShortenSettings extends Run {
  /** Container whose used length counts, and all containers in play. */
  readonly container: number;
  readonly containers: readonly number[];
  readonly seed: number;
  readonly onBetter: (arrangement: Arrangement) => void;
}

/** Share of the budget for exploration; the rest is compression. */
const EXPLORATION = 0.75;

/** Share of the effort that copies may be turned in: of many copies the programs take as long as thousands of moves. */
const TURNING = 0.5;

/** Steps of exploration, as shares of the used length. */
const LARGEST_STEP = 0.02;
const LEAST_STEP = 0.001;

/** Patience while the steps are large, and at the least step. */
const BRIEF: Patience = { sweeps: 40, strikes: 1 };
const LONG: Patience = { sweeps: 200, strikes: 3 };

/** The best arrangement found; `start` must be free of overlaps. */
export async function shorten(
  problem: NestingProblem,
  start: Arrangement,
  settings: ShortenSettings,
): Promise<Arrangement> {
  const search = new Shortening(problem, start, settings);
  await search.explore();
  await search.compress();
  return search.best;
}

class Shortening {
  readonly best: Arrangement;
  private readonly problem: NestingProblem;
  private readonly settings: ShortenSettings;
  private readonly random: Random;
  private readonly separation: Separation;
  private readonly field: Field;
  private readonly origin: number;
  private bestEnd: number;
  private readonly compaction: Compaction | undefined;
  private shortest = false;
  /** Share of the whole budget that was gone when this began, and that went to turning since. */
  private readonly begun: number;
  private turned = 0;
  private readonly check: ExactCheck;
  private readonly tightened: Arrangement;
  private readonly before: Arrangement;

  constructor(problem: NestingProblem, start: Arrangement, settings: ShortenSettings) {
    this.problem = problem;
    this.settings = settings;
    this.best = start.clone();
    this.tightened = start.clone();
    this.before = start.clone();
    this.check = new ExactCheck(problem);
    this.begun = settings.budget.done;
    this.random = new Random(settings.seed);
    this.separation = new Separation(problem, this.random, settings.pulse, true);
    const ends = fullEnds(problem);
    this.field = { containers: settings.containers, ends };
    this.origin = problem.containers[settings.container].box.minX;
    this.bestEnd = usedEnd(problem, start, settings.container);
    if (maySlide(start)) {
      this.compaction = new Compaction(problem, this.field, settings.container, settings);
    }
  }

  async explore(): Promise<void> {
    const { separation, settings, random } = this;
    const failed = new FailedTries();
    let step = LARGEST_STEP;
    this.goOnFromBest();
    this.shrinkTo(this.shorter(step));
    while (!this.over(EXPLORATION)) {
      const patience = step > LEAST_STEP ? BRIEF : LONG;
      const apart = await separation.separate(this.field, patience, settings.budget);
      if (apart && (await this.accept())) {
        failed.clear();
        this.shrinkTo(this.shorter(step));
        continue;
      }
      await this.squeeze();
      if (this.over(EXPLORATION)) return;
      failed.keep(separation.arrangement, separation.lowest);
      failed.recall(separation.arrangement, random);
      if (step > LEAST_STEP) step = Math.max(LEAST_STEP, step / 3);
      else disturb(this.problem, separation.arrangement, random);
      this.shrinkTo(this.shorter(step));
    }
  }

  async compress(): Promise<void> {
    const { separation, settings, random } = this;
    const from = Math.max(EXPLORATION, settings.budget.done);
    let failures = 0;
    while (!this.over(1)) {
      const share = Math.min(1, Math.max(0, (settings.budget.done - from) / (1 - from)));
      const step = 0.002 * fallen(share);
      this.goOnFromBest();
      const end = this.shorter(step);
      this.closeGap(end, failures % 2 === 0 ? random.unit() : 1);
      const apart = await separation.separate(this.field, { sweeps: 100, strikes: 1 }, settings.budget);
      if (apart && (await this.accept())) continue;
      await this.squeeze();
      failures++;
    }
  }

  /** The search goes on from the best arrangement, its copies in the listed orientations. */
  private goOnFromBest(): void {
    const { arrangement } = this.separation;
    arrangement.copyFrom(this.best);
    untwist(this.problem, arrangement, this.field.ends);
  }

  private over(share: number): boolean {
    const { settings } = this;
    return this.shortest || isOver(settings) || settings.budget.done >= share;
  }

  /** Where the used length ends when it is shorter by a share of it. */
  private shorter(share: number): number {
    return this.bestEnd - share * (this.bestEnd - this.origin);
  }

  /**
   * Takes over what has been separated, compacted; false when the exact check finds fault with it. The search
   * itself goes on from the loose arrangement: a jammed one is harder to shrink.
   */
  private async accept(): Promise<boolean> {
    const { tightened: arrangement } = this;
    arrangement.copyFrom(this.separation.arrangement);
    await this.compaction?.compact(arrangement);
    await this.turnOn(arrangement);
    // Free of overlaps and yet no shorter: the widest copy alone fills the length.
    this.shortest = usedEnd(this.problem, arrangement, this.settings.container) >= this.bestEnd;
    return this.shortest || this.takeOver(arrangement);
  }

  /** What could not be set apart at the length asked for may fit into one between that and the best. */
  private async squeeze(): Promise<void> {
    const { separation, tightened, compaction, field, settings } = this;
    const { container } = settings;
    const end = field.ends[container];
    tightened.copyFrom(separation.arrangement);
    field.ends[container] = this.bestEnd;
    let apart = compaction !== undefined && (await compaction.separate(tightened));
    if (apart) await compaction?.compact(tightened);
    field.ends[container] = end;
    if (apart) await this.turnOn(tightened);
    else {
      // What is one small overlap short often has room around a corner.
      tightened.copyFrom(separation.arrangement);
      apart = await this.turnWithin(tightened, this.bestEnd);
    }
    if (apart && usedEnd(this.problem, tightened, container) < this.bestEnd - 1e-6) this.takeOver(tightened);
  }

  /** Makes an arrangement the best one; false when the exact check finds fault with it. */
  private takeOver(arrangement: Arrangement): boolean {
    if (!this.check.passes(arrangement)) return false;
    this.best.copyFrom(arrangement);
    this.bestEnd = usedEnd(this.problem, arrangement, this.settings.container);
    this.settings.onBetter(this.best);
    return true;
  }

  /** Lets copies turn as they slide, where the grain is free: what is free of overlaps is shorter after it, or as it was. */
  private async turnOn(arrangement: Arrangement): Promise<void> {
    const { problem, before, settings } = this;
    const end = usedEnd(problem, arrangement, settings.container);
    before.copyFrom(arrangement);
    const isFree = await this.turnWithin(arrangement, end);
    const isShorter = usedEnd(problem, arrangement, settings.container) < end;
    if (!isFree || !isShorter || !this.check.passes(arrangement)) arrangement.copyFrom(before);
  }

  /** Slides and turns what lies in the container until it ends before `end`; false when it does not, or may not turn. */
  private async turnWithin(arrangement: Arrangement, end: number): Promise<boolean> {
    const { problem, settings } = this;
    const { budget, container } = settings;
    const isDear = this.turned > TURNING * (budget.done - this.begun);
    if (isDear || !mayTwist(problem, arrangement, container)) return false;
    const before = budget.done;
    const isFree = await settleTurning(problem, arrangement, container, settings, {
      limit: end,
      shorten: true,
    });
    this.turned += budget.done - before;
    return isFree;
  }

  /** Sets the end of the container and pushes everything inside it. */
  private shrinkTo(end: number): void {
    const { arrangement } = this.separation;
    this.field.ends[this.settings.container] = end;
    clampInto(this.problem, arrangement, this.field.ends);
  }

  /** Shrinks by moving everything right of a cut to the left. */
  private closeGap(end: number, cut: number): void {
    const { arrangement } = this.separation;
    const { container } = this.settings;
    const line = this.origin + cut * (end - this.origin);
    const shift = this.bestEnd - end;
    for (let i = 0; i < arrangement.count; i++) {
      if (arrangement.container[i] === container && arrangement.x[i] > line) arrangement.x[i] -= shift;
    }
    this.shrinkTo(end);
  }
}

/** Where the steps of compression end, as a share of the first. */
const FALLEN = 0.02;

/**
 * {@link FALLEN} to the power of a share from 0 to 1, of roots for each binary digit of it: the last bit of a power is
 * left to each browser and each version of Node, that of a root is not.
 */
function fallen(share: number): number {
  let power = 1;
  let root = FALLEN;
  for (let rest = share; rest > 0; rest = 2 * (rest % 1)) {
    if (rest >= 1) power *= root;
    root = Math.sqrt(root);
  }
  return power;
}
