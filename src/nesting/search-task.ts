import { Arrangement } from './arrangement.ts';
import { type Budget, ClockBudget, MoveBudget } from './budget.ts';
import { buildProblem, type ProblemSpec } from './problem-spec.ts';
import { Pulse } from './pulse.ts';
import { type Score, scoreOf } from './score.ts';
import { solve } from './solve.ts';

/** One search as plain data: what goes to a worker and what comes back. */

/** A search to run. */
export interface SearchTask {
  readonly spec: ProblemSpec;
  readonly seed: number;
  /** Moves of the search. */
  readonly moves: number;
  /** Wall-clock seconds instead of moves: for benchmarks and people in a hurry; not repeatable. */
  readonly seconds?: number;
}

/** An arrangement as plain data. */
export interface Found {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly orientation: Int32Array;
  readonly container: Int32Array;
  readonly score: Score;
  /** Share of the budget that was gone, 0 to 1. */
  readonly done: number;
}

/** Runs a search to its end or until the signal stops it; the result is the best arrangement found. */
export async function runTask(
  task: SearchTask,
  signal: AbortSignal | undefined,
  onBetter: (found: Found) => void,
): Promise<Found> {
  const { problem } = buildProblem(task.spec);
  const budget: Budget =
    task.seconds === undefined ? new MoveBudget(task.moves) : new ClockBudget(task.seconds);
  const found = (arrangement: Arrangement, done: number): Found => ({
    x: arrangement.x.slice(),
    y: arrangement.y.slice(),
    orientation: arrangement.orientation.slice(),
    container: arrangement.container.slice(),
    score: scoreOf(problem, arrangement),
    done,
  });
  const best = await solve(problem, {
    perSet: task.spec.shapes.map(({ perSet }) => perSet),
    budget,
    seed: task.seed,
    pulse: new Pulse(signal),
    onBetter: (arrangement, done) => onBetter(found(arrangement, done)),
  });
  return found(best, 1);
}

/** The arrangement a search handed back. */
export function arrangementOf(found: Found): Arrangement {
  const arrangement = new Arrangement(found.x.length);
  arrangement.x.set(found.x);
  arrangement.y.set(found.y);
  arrangement.orientation.set(found.orientation);
  arrangement.container.set(found.container);
  return arrangement;
}
