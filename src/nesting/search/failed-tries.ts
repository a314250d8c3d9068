import type { Arrangement } from '../arrangement/arrangement.ts';
import type { NestingProblem } from '../problem/problem.ts';
import type { Random } from '../running/random.ts';
import { disturb } from './disturb.ts';

/** Tries kept to start from. */
const MOST = 12;

/** Overlaps that differ by less, as a share of them, are those of one layout that was found again. */
const ALIKE = 1e-3;

interface Try {
  readonly arrangement: Arrangement;
  readonly overlap: number;
}

/**
 * Arrangements that could not be set apart, the nearest to it first: a search that is stuck goes on from one of
 * them, disturbed, for what is one small overlap short is a better start than a new one.
 */
export class FailedTries {
  private readonly tries: Try[] = [];

  /**
   * Keeps a copy of an arrangement with its total overlap, while it is among the nearest. What was found before is not
   * kept once more: copies of one layout would soon take the place of all others.
   */
  keep(arrangement: Arrangement, overlap: number): void {
    const { tries } = this;
    if (tries.some((kept) => Math.abs(kept.overlap - overlap) <= ALIKE * overlap)) return;
    tries.push({ arrangement: arrangement.clone(), overlap });
    tries.sort((a, b) => a.overlap - b.overlap);
    if (tries.length > MOST) tries.pop();
  }

  /** Least overlap of the kept ones, in the unit it was kept in; infinite when there are none. */
  get nearest(): number {
    return this.tries[0]?.overlap ?? Number.POSITIVE_INFINITY;
  }

  get isEmpty(): boolean {
    return this.tries.length === 0;
  }

  /** The nearest of the kept ones; there is one. */
  get best(): Arrangement {
    return this.tries[0].arrangement;
  }

  clear(): void {
    this.tries.length = 0;
  }

  /** Writes one of the kept arrangements over `arrangement`; good ones are likelier. */
  recall(arrangement: Arrangement, random: Random): void {
    const share = random.unit();
    // The square of a uniform number leans to the front.
    arrangement.copyFrom(this.tries[Math.floor(this.tries.length * share * share)].arrangement);
  }

  /** As {@link recall}, disturbed. */
  recallDisturbed(problem: NestingProblem, arrangement: Arrangement, random: Random): void {
    this.recall(arrangement, random);
    disturb(problem, arrangement, random);
  }
}
