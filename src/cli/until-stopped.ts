import { setImmediate } from 'node:timers/promises';

/** What a search came to, and whether the person ended it before its time. */
export interface Stopped<Result> {
  readonly result: Result;
  /** True when Ctrl-C stopped it: what was asked for afterwards may no longer be wanted. */
  readonly isInterrupted: boolean;
}

/**
 * Runs a search that Ctrl-C asks to stop; it then comes to an end with the best it has. A second Ctrl-C ends the process
 * as usual. What the search throws is thrown on.
 */
export async function untilStopped<Result>(
  search: (signal: AbortSignal) => Promise<Result>,
): Promise<Stopped<Result>> {
  const stop = new AbortController();
  const onInterrupt = () => stop.abort();
  process.once('SIGINT', onInterrupt);
  try {
    const result = await search(stop.signal);
    // Ctrl-C during the last stretch of work is delivered when the event loop next asks for input: where the work was
    // itself woken by input, that is not before the second turn.
    await setImmediate();
    await setImmediate();
    return { result, isInterrupted: stop.signal.aborted };
  } finally {
    process.removeListener('SIGINT', onInterrupt);
  }
}
