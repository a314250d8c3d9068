import type { Arrangement } from '../arrangement/arrangement.ts';
import { costOfUsed, scoreOf } from '../arrangement/score.ts';
import { allCopies, copiesOfSets } from '../construct/construct.ts';
import { mayFit } from '../problem/area-of-copies.ts';
import { countsByShape } from '../problem/copies-by-shape.ts';
import type { NestingProblem } from '../problem/problem.ts';
import type { Random } from '../running/random.ts';
import type { Run } from '../running/run.ts';
import { FillingChoices } from './filling-choices.ts';
import type { KeptTrials } from './kept-trials.ts';

/**
 * Cheaper boards or more sets for a batch, from boards filled one by one: what is found to fit on one board fits on all of its
 * kind, and a few copies changed on it are soon tried, where all copies of the batch at once take their time. Choices of boards,
 * each with what is known to fit on it, are put together until one has a place for every copy (after the patterns of Gilmore and
 * Gomory 1961, found by trials and put together greedily instead of by linear programs).
 */

/**
 * Offers layouts that cost less.
 *
 * @param start a complete arrangement
 * @param kept what was tried before, which this goes on with and adds to
 * @param accept takes an arrangement over, or finds fault with it
 */
export async function boardByBoard(
  problem: NestingProblem,
  start: Arrangement,
  kept: KeptTrials,
  random: Random,
  run: Run,
  accept: (arrangement: Arrangement) => boolean,
): Promise<void> {
  const trials = await kept.begin(problem, start, random, run);
  if (trials === undefined) return;
  const { fillings } = trials;
  const choices = new FillingChoices(fillings, countsByShape(problem, allCopies(problem)), random);
  let best = costOfUsed(scoreOf(problem, start));
  for (;;) {
    const complete = await trials.complete(choices, below(best), run);
    if (complete === undefined) return;
    const arrangement = fillings.arranged(complete.fillings);
    if (accept(arrangement)) best = costOfUsed(scoreOf(problem, arrangement));
    else choices.refused(complete);
  }
}

/**
 * Offers layouts of more complete sets.
 *
 * @param start an arrangement without overlaps, in which copies lie nowhere
 * @param kept as for {@link boardByBoard}
 * @param accept takes an arrangement over, or finds fault with it
 */
export async function moreSetsByBoard(
  problem: NestingProblem,
  start: Arrangement,
  kept: KeptTrials,
  random: Random,
  run: Run,
  accept: (arrangement: Arrangement) => boolean,
): Promise<void> {
  const trials = await kept.begin(problem, start, random, run);
  if (trials === undefined) return;
  const { fillings } = trials;
  let best = start;
  for (;;) {
    const { sets, missing } = scoreOf(problem, best);
    // A board may hold more sets than were asked for: one more than lie now is what is wanted.
    const wanted = copiesOfSets(problem, 0, sets + 1, problem.pinned);
    if (missing === 0 || wanted.length === 0 || !mayFit(problem, wanted)) return;
    const choices = new FillingChoices(fillings, countsByShape(problem, wanted), random);
    const complete = await trials.complete(choices, Number.POSITIVE_INFINITY, run);
    if (complete === undefined) return;
    const arrangement = fillings.arranged(complete.fillings);
    if (!accept(arrangement)) return;
    best = arrangement;
  }
}

/** What is cheaper costs less than this: sums of the same costs differ by their rounding. */
function below(cost: number): number {
  return cost * (1 - 1e-9);
}
