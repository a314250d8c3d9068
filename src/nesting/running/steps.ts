import type { Pulse } from './pulse.ts';

/**
 * Work that may take long as a generator that pauses after every few milliseconds: run through where nobody waits, or
 * with a look for an abort in every pause.
 */
export type Steps<Result> = Generator<undefined, Result>;

/** The result of steps run through without a pause. */
export function lastOf<Result>(steps: Steps<Result>): Result {
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}

/** The result of steps that give way to the thread when it is time; undefined when the search is told to stop before. */
export async function givingWay<Result>(steps: Steps<Result>, pulse: Pulse): Promise<Result | undefined> {
  for (;;) {
    const { done, value } = steps.next();
    if (pulse.due) await pulse.breathe();
    if (done) return value;
    if (pulse.stopped) return undefined;
  }
}
