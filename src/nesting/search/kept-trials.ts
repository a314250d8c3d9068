import type { Arrangement } from '../arrangement/arrangement.ts';
import type { NestingProblem } from '../problem/problem.ts';
import type { Random } from '../running/random.ts';
import type { Run } from '../running/run.ts';
import { FillingTrials } from './filling-trials.ts';
import type { FillingFound } from './fillings.ts';

/**
 * Trials to fill single boards that go on from one part of the effort to the next, with what other workers have found
 * meanwhile: what one of them found to fit on one board and what another found on the next make a layout together.
 */
export class KeptTrials {
  #trials: FillingTrials | undefined;
  #hasBegun = false;
  /** What others have found and the trials do not know yet. */
  #learnt: readonly FillingFound[] = [];
  /** Number of the fillings, in the order they became known, that the others know. */
  #told = 0;

  /** Whether boards were tried to be filled in a part before. */
  get hasBegun(): boolean {
    return this.#hasBegun;
  }

  /** Takes in what others have found on the boards of the same problem. */
  learn(found: readonly FillingFound[]): void {
    this.#learnt = found;
  }

  /** The trials of before, or new ones; undefined when boards hold too much for them. */
  async begin(
    problem: NestingProblem,
    start: Arrangement,
    random: Random,
    run: Run,
  ): Promise<FillingTrials | undefined> {
    if (!this.#hasBegun) {
      this.#hasBegun = true;
      this.#trials = await FillingTrials.begun(problem, start, random, run);
      return this.#trials;
    }
    if (this.#trials === undefined) return undefined;
    const { fillings } = this.#trials;
    fillings.addFrom(start);
    for (const filling of this.#learnt) fillings.addFound(filling);
    this.#learnt = [];
    // All of that came from others, who know it.
    this.#told = fillings.known;
    return this.#trials;
  }

  /** What was found since this was asked last. */
  found(): readonly FillingFound[] {
    const all = this.#trials?.fillings.all ?? [];
    const found = all.slice(this.#told);
    this.#told = all.length;
    return found.map(({ kind, counts, layout }) => ({ kind, counts, layout }));
  }
}
