import type { PairTable } from '../problem/pair-table.ts';
import type { NestingProblem } from '../problem/problem.ts';
import type { Pulse } from '../running/pulse.ts';
import { givingWay } from '../running/steps.ts';
import type { Arrangement } from './arrangement.ts';

/**
 * Depth fields built before they are asked for, giving way in between: a no-fit polygon of long outlines takes up to a
 * tenth of a second, and a move may be the first to ask for dozens. Moves themselves cannot give way.
 */

/**
 * Builds what the next move of a copy will ask for around the copies that lie somewhere.
 *
 * @param item number of the copy
 * @param orientations numbers of those the copy may be tried in
 */
export async function readyPairs(
  problem: NestingProblem,
  arrangement: Arrangement,
  item: number,
  orientations: readonly number[],
  pulse: Pulse,
): Promise<void> {
  const { pairs } = problem;
  const { count, container, orientation } = arrangement;
  // Around which something is missing: nearly always nothing. Copies of one shape follow each other and lie in few
  // orientations, so the same is not asked twice in a row.
  const lying = new Set<number>();
  let last = -1;
  for (let j = 0; j < count; j++) {
    if (container[j] < 0 || j === item || orientation[j] === last) continue;
    last = orientation[j];
    for (let k = 0; k < orientations.length; k++) {
      if (!pairs.knows(last, orientations[k])) lying.add(last);
    }
  }
  if (lying.size > 0) await readyFields(pairs, lying, orientations, pulse);
}

/** Builds the fields of all `moving` orientations around all `fixed` ones; both are given by their numbers. */
export async function readyFields(
  pairs: PairTable,
  fixed: Iterable<number>,
  moving: readonly number[],
  pulse: Pulse,
): Promise<void> {
  for (const still of fixed) {
    for (const orientation of moving) {
      if (pairs.knows(still, orientation)) continue;
      // A search that has been told to stop leaves the field unfinished.
      await givingWay(pairs.pairSteps(still, orientation), pulse);
      if (pulse.stopped) return;
    }
  }
}
