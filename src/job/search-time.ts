import type { Issue } from '../issues/issue.ts';
import type { LayOutOptions } from '../model/laying-out.ts';
import type { Layout } from '../model/layout.ts';
import { OwnStop } from '../nesting/running/own-stop.ts';

/** How the searches of a job share the time they are given. */

/** Longest delay of a timer, ms; a longer one goes off at once. */
const LONGEST_DELAY = 2 ** 31 - 1;

/** ms that a timer is set late: it may go off a little before its time, and would then find that it is not over yet. */
const LATE = 2;

/** Gives the searches of a job, one after the other, their share of the minutes there are for all. */
export class SearchTime {
  readonly #options: LayOutOptions;
  /** ms; undefined when there is time without end. */
  readonly #length: number | undefined;
  readonly #begin = performance.now();
  #isStopped = false;

  constructor(options: LayOutOptions, minutes: number | undefined) {
    this.#options = options;
    this.#length = minutes === undefined ? undefined : minutes * 60_000;
  }

  /** True when a search has been stopped before its end, by the clock or by the caller. */
  get isStopped(): boolean {
    return this.#isStopped;
  }

  /** True when the caller has asked to stop: nothing more is to be begun. The clock asks for no such haste. */
  get isCalledOff(): boolean {
    return this.#options.signal?.aborted === true;
  }

  /**
   * Runs a search until its time is over: at `share` of all the time while copies are without a place, so that what is
   * asked next has its time too, and at the end of it otherwise. The clock waits for the first layout of everything,
   * for without one all the time was spent on nothing; the caller's signal does not.
   */
  async search<Found>(share: number, run: (options: LayOutOptions) => Promise<Found>): Promise<Found> {
    const { signal, onProgress } = this.#options;
    const length = this.#length;
    if (length === undefined) {
      const found = await run(this.#options);
      this.#isStopped ||= this.isCalledOff;
      return found;
    }
    const own = new OwnStop(signal);
    let best: Layout | undefined;
    const look = () => {
      if (best === undefined) return;
      const end = best.unplaced.length > 0 ? share * length : length;
      if (performance.now() - this.#begin >= end) own.stop();
    };
    const spent = performance.now() - this.#begin;
    const timers = [share, 1].map((part) =>
      setTimeout(look, Math.min(Math.max(0, part * length - spent) + LATE, LONGEST_DELAY)),
    );
    try {
      return await run({
        ...this.#options,
        signal: own.signal,
        onProgress: (progress) => {
          best = progress.best;
          look();
          onProgress?.(progress);
        },
      });
    } finally {
      // A timer that is left running would keep the process waiting for it.
      for (const timer of timers) clearTimeout(timer);
      own.release();
      this.#isStopped ||= own.signal.aborted;
    }
  }

  /**
   * Looks for what quick layouts tell beside the one that was found, in what is left of the time; none once a search has been
   * stopped or the time is over. A look that the clock ends leaves the search as it is: that had come to its end.
   */
  async notes(look: (signal: AbortSignal | undefined) => Promise<Issue[]>): Promise<Issue[]> {
    const { signal } = this.#options;
    if (this.#isStopped || this.isCalledOff) return [];
    if (this.#length === undefined) return look(signal);
    const left = this.#length - (performance.now() - this.#begin);
    if (left <= 0) return [];
    const own = new OwnStop(signal);
    const timer = setTimeout(own.stop, Math.min(left, LONGEST_DELAY));
    try {
      return await look(own.signal);
    } finally {
      clearTimeout(timer);
      own.release();
    }
  }
}
