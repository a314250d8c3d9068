import { type Arrangement, clampInto, type Field, fullEnds } from '../arrangement/arrangement.ts';
import { ExactCheck } from '../arrangement/exact-check.ts';
import type { NestingProblem } from '../problem/problem.ts';
import type { Budget } from '../running/budget.ts';
import type { Pulse } from '../running/pulse.ts';
import type { Random } from '../running/random.ts';
import { isOver, type Run } from '../running/run.ts';
import { Compaction, maySlide } from '../sliding/compaction.ts';
import { turnApart } from '../sliding/twisting.ts';
import { FailedTries } from './failed-tries.ts';
import { type Patience, Separation } from './separation.ts';

/** How long a try goes on without getting nearer. */
const PATIENCE: Patience = { sweeps: 60, strikes: 3 };

/** What the fittings of one problem share. */
export interface FittingTools {
  readonly problem: NestingProblem;
  readonly separation: Separation;
  readonly check: ExactCheck;
  readonly random: Random;
  readonly pulse: Pulse;
}

/** The tools for a problem, made when there is something to fit: tables grow with the square of the copies. */
export function fittingTools(problem: NestingProblem, random: Random, pulse: Pulse): FittingTools {
  const separation = new Separation(problem, random, pulse, false);
  return { problem, separation, check: new ExactCheck(problem), random, pulse };
}

/**
 * Tries to fit copies onto some boards as they are, one try after another: each starts where the caller says, or from
 * a try that failed, disturbed. What moves of single copies leave of the overlaps is then slid or turned out of them.
 */
export class Fitting {
  private readonly problem: NestingProblem;
  private readonly field: Field;
  private readonly separation: Separation;
  private readonly check: ExactCheck;
  private readonly random: Random;
  private readonly pulse: Pulse;
  private readonly failed: FailedTries;

  /**
   * @param boards containers to fit the copies onto
   * @param failed tries of before to go on from, to which those of now are added
   */
  constructor(
    { problem, separation, check, random, pulse }: FittingTools,
    boards: readonly number[],
    failed = new FailedTries(),
  ) {
    this.failed = failed;
    this.problem = problem;
    this.separation = separation;
    this.check = check;
    this.field = { containers: boards, ends: fullEnds(problem) };
    this.random = random;
    this.pulse = pulse;
  }

  /**
   * One try, which passes the exact check; undefined when it fails.
   *
   * @param start overlaps allowed; copies that lie nowhere stay there
   */
  tryFrom(start: Arrangement, budget: Budget): Promise<Arrangement | undefined> {
    this.separation.arrangement.copyFrom(start);
    return this.fit(budget);
  }

  /** Goes on with the try that came nearest, as it was left; undefined when it fails again, or when there was none. */
  async goOn(budget: Budget): Promise<Arrangement | undefined> {
    const { closest } = this;
    if (closest === undefined) return undefined;
    this.separation.arrangement.copyFrom(closest);
    return this.fit(budget);
  }

  /** One try from one that failed, disturbed; undefined when it fails too, or when there was none. */
  async tryAgain(budget: Budget): Promise<Arrangement | undefined> {
    if (this.failed.isEmpty) return undefined;
    const { arrangement } = this.separation;
    this.failed.recallDisturbed(this.problem, arrangement, this.random);
    // What reaches out of a board overlaps nothing there, and would be left as it lies.
    clampInto(this.problem, arrangement, this.field.ends);
    return this.fit(budget);
  }

  /**
   * Tries so often at most, first from `start` and then from what failed; undefined when all fail.
   *
   * @param ofTry what the next try may spend
   */
  async tryTimes(times: number, start: Arrangement, ofTry: () => Budget): Promise<Arrangement | undefined> {
    return (await this.tryFrom(start, ofTry())) ?? this.tryMore(times - 1, ofTry);
  }

  /** Tries so often at most, each time from what failed, while there are moves for it; undefined when all fail. */
  async tryMore(times: number, ofTry: () => Budget): Promise<Arrangement | undefined> {
    let found: Arrangement | undefined;
    for (let tried = 0; found === undefined && tried < times && !this.failed.isEmpty; tried++) {
      const budget = ofTry();
      if (isOver({ pulse: this.pulse, budget })) break;
      found = await this.tryAgain(budget);
    }
    return found;
  }

  /** Overlap of the try that came nearest, mm; infinite before any has failed. */
  get nearest(): number {
    return this.failed.nearest;
  }

  /** The try that came nearest, as it was left; undefined before any has failed. */
  get closest(): Arrangement | undefined {
    return this.failed.isEmpty ? undefined : this.failed.best;
  }

  private async fit(budget: Budget): Promise<Arrangement | undefined> {
    const { separation } = this;
    const { arrangement } = separation;
    if (await separation.separate(this.field, PATIENCE, budget)) return this.checked(arrangement.clone());
    // What is told to stop has measured nothing.
    if (this.pulse.stopped) return undefined;
    this.failed.keep(arrangement, separation.lowest);
    const run = { pulse: this.pulse, budget };
    return (await this.slidApart(arrangement, run)) ?? (await this.turnedApart(arrangement, run));
  }

  private async slidApart(arrangement: Arrangement, run: Run): Promise<Arrangement | undefined> {
    const { problem, field } = this;
    if (!maySlide(arrangement)) return undefined;
    const slid = arrangement.clone();
    const sliding = new Compaction(problem, field, field.containers[0], run);
    return (await sliding.separate(slid)) ? this.checked(slid) : undefined;
  }

  private async turnedApart(arrangement: Arrangement, run: Run): Promise<Arrangement | undefined> {
    const turned = arrangement.clone();
    const isApart = await turnApart(this.problem, turned, this.field.containers, run);
    return isApart ? this.checked(turned) : undefined;
  }

  private checked(arrangement: Arrangement): Arrangement | undefined {
    return this.check.passes(arrangement) ? arrangement : undefined;
  }
}
