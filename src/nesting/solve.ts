import type { Arrangement } from './arrangement.ts';
import { construct } from './construct.ts';
import type { NestingProblem } from './problem.ts';
import type { Pulse } from './pulse.ts';

/** How a problem is to be solved. */
export interface SolveSettings {
  /** Copies of each shape in one set. */
  readonly perSet: readonly number[];
  /** Moves of the search. */
  readonly moves: number;
  readonly seed: number;
  readonly pulse: Pulse;
  /** Called with every better arrangement. */
  readonly onBetter: (arrangement: Arrangement, done: number) => void;
}

/** The passes of the engine, one after the other. */
export async function solve(problem: NestingProblem, settings: SolveSettings): Promise<Arrangement> {
  const first = await construct(problem, settings.perSet, settings.pulse);
  settings.onBetter(first, 0);
  return first;
}
