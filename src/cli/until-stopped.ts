/** Longest delay of a timer, ms; a longer one goes off at once. */
const LONGEST_DELAY = 2 ** 31 - 1;

/** What a search came to, and what ended it before its time. */
export interface Stopped<Result> {
  readonly result: Result;
  /** True when the clock or the person stopped it. */
  readonly isStopped: boolean;
  /** True when it was the person, by Ctrl-C: what was asked for afterwards may no longer be wanted. */
  readonly isInterrupted: boolean;
}

/**
 * Runs a search that Ctrl-C or the clock asks to stop; it then comes to an end with the best it has. A second Ctrl-C ends
 * the process as usual. What the search throws is thrown on.
 *
 * @param minutes after which it is asked to stop; never when undefined. The clock waits for the first layout, for
 *   without one all the minutes were spent on nothing; Ctrl-C does not.
 * @param search calls `onFirst` once it has a layout of everything
 */
export async function untilStopped<Result>(
  minutes: number | undefined,
  search: (signal: AbortSignal, onFirst: () => void) => Promise<Result>,
): Promise<Stopped<Result>> {
  const stop = new AbortController();
  let isInterrupted = false;
  const onInterrupt = () => {
    isInterrupted = true;
    stop.abort();
  };
  process.once('SIGINT', onInterrupt);
  let isTimeUp = false;
  let hasFirst = false;
  const onTimeUp = () => {
    isTimeUp = true;
    if (hasFirst) stop.abort();
  };
  const onFirst = () => {
    hasFirst = true;
    if (isTimeUp) stop.abort();
  };
  const timer =
    minutes === undefined ? undefined : setTimeout(onTimeUp, Math.min(minutes * 60_000, LONGEST_DELAY));
  try {
    const result = await search(stop.signal, onFirst);
    return { result, isStopped: stop.signal.aborted, isInterrupted };
  } finally {
    // A timer that is left running would keep the process waiting for it.
    clearTimeout(timer);
    process.removeListener('SIGINT', onInterrupt);
  }
}
