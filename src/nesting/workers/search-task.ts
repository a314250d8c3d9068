import { Arrangement } from '../arrangement/arrangement.ts';
import { type Score, scoreOf } from '../arrangement/score.ts';
import { constructInBoxes } from '../construct/construct.ts';
import type { NestingProblem } from '../problem/problem.ts';
import { ProblemBuilder, type ProblemSpec } from '../problem/problem-spec.ts';
import { ClockBudget, MoveBudget, type PartOfEffort } from '../running/budget.ts';
import { Pulse } from '../running/pulse.ts';
import type { FillingFound } from '../search/fillings.ts';
import { KeptTrials } from '../search/kept-trials.ts';
import { solve } from '../search/solve.ts';

/** One search as plain data: what goes to a worker and what comes back. */

/** A search to run. */
export interface SearchTask {
  readonly seed: number;
  /** Moves of the search. */
  readonly moves: number;
  /** Wall-clock seconds instead of moves: for benchmarks and people in a hurry; not repeatable. */
  readonly seconds?: number;
  /** The part of the whole effort to spend now. */
  readonly part: PartOfEffort;
  /** Whether whole lattices are left out; tried when left out. */
  readonly brief?: boolean | undefined;
  /** What an earlier part found, to go on from. */
  readonly start?: Found;
  /** What others found to fit on single boards in the part before. */
  readonly fillings?: readonly FillingFound[];
}

/** An arrangement as plain data. */
export interface Found {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly orientation: Int32Array;
  readonly container: Int32Array;
  /** Degrees turned on from the orientations. */
  readonly twist: Float64Array;
  readonly score: Score;
  /** Share of the budget that was gone, 0 to 1. */
  readonly done: number;
}

/** Runs searches of one problem, one after the other; the depth fields built for one serve the next. */
export class Searcher {
  private readonly spec: ProblemSpec;
  private readonly builder: ProblemBuilder;
  private trials = new KeptTrials();

  /** @param builder the one that built the problem before, when there was one */
  constructor(spec: ProblemSpec, builder = new ProblemBuilder()) {
    this.spec = spec;
    this.builder = builder;
  }

  /** Searches to the end of the part or until the signal; the result is the best arrangement found. */
  async run(
    task: SearchTask,
    signal: AbortSignal | undefined,
    onBetter: (found: Found) => void,
  ): Promise<Found> {
    const { moves, seconds, part, start, seed, brief, fillings = [] } = task;
    if (part.from === 0) this.trials = new KeptTrials();
    this.trials.learn(fillings);
    const budget = seconds === undefined ? new MoveBudget(moves, part) : new ClockBudget(seconds, part);
    const pulse = new Pulse(signal);
    const isLong = start === undefined && this.builder.takesLong(this.spec);
    const inBoxes = isLong ? await this.answerInBoxes(pulse, onBetter) : undefined;
    const problem = await this.builder.buildGivingWay(this.spec, pulse);
    const best = await solve(problem, {
      budget,
      seed,
      brief,
      start: start === undefined ? undefined : Arrangement.of(start),
      inBoxes,
      trials: this.trials,
      pulse,
      onBetter: (arrangement, done) => onBetter(foundOf(problem, arrangement, done)),
    });
    return foundOf(problem, best, part.to);
  }

  /** What was found to fit on single boards since this was asked last. */
  fillingsFound(): readonly FillingFound[] {
    return this.trials.found();
  }

  /** A place for every copy at once, while the outlines proper take a second to be made. */
  private async answerInBoxes(pulse: Pulse, onBetter: (found: Found) => void): Promise<Arrangement> {
    const boxed = this.builder.buildInBoxes(this.spec);
    const arrangement = await constructInBoxes(boxed, pulse);
    onBetter(foundOf(boxed, arrangement, 0));
    return arrangement;
  }
}

/** An arrangement as plain data, with its score and the share of the budget that was gone, a fraction from 0 to 1. */
export function foundOf(problem: NestingProblem, arrangement: Arrangement, done: number): Found {
  const { x, y, orientation, container, twist } = arrangement.clone();
  return { x, y, orientation, container, twist, score: scoreOf(problem, arrangement), done };
}
