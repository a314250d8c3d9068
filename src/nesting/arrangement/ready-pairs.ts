import type { NestingProblem } from '../problem/problem.ts';
import type { Pulse } from '../running/pulse.ts';
import type { Arrangement } from './arrangement.ts';

/**
 * Builds the depth fields that the next move of a copy will ask for, giving way in between: a no-fit polygon of long
 * outlines takes up to a tenth of a second, and a move may be the first to ask for dozens.
 *
 * @param orientations those the copy may be tried in
 */
export async function readyPairs(
  problem: NestingProblem,
  arrangement: Arrangement,
  item: number,
  orientations: readonly number[],
  pulse: Pulse,
): Promise<void> {
  const { pairs } = problem;
  for (const moving of orientations) {
    for (let j = 0; j < arrangement.count; j++) {
      if (arrangement.container[j] < 0 || j === item) continue;
      const fixed = arrangement.orientation[j];
      if (pairs.knows(fixed, moving)) continue;
      // A search that has been told to stop leaves the field unfinished.
      for (const _ of pairs.pairSteps(fixed, moving)) {
        if (pulse.due) await pulse.breathe();
        if (pulse.stopped) return;
      }
      if (pulse.due) await pulse.breathe();
      if (pulse.stopped) return;
    }
  }
}
