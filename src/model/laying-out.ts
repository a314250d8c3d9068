import type { Layout } from './layout.ts';

/**
 * Thousands of moves of the search when nobody names a number: the moves of the lake-shore batch then take some seconds.
 */
export const USUAL_EFFORT = 120;

/** Most thousands of moves that may be asked for, in a job and of `layOut`: more is a slip of the hand. */
export const MOST_EFFORT = 1_000_000;

/** Greatest seed: the generator of random numbers takes 32 bits, beyond them two seeds would be one. */
export const MOST_SEED = 2 ** 31;

/** Most minutes that a search may be given: more is a slip of the hand. */
export const MOST_MINUTES = 1e9;

/** How hard and how `layOut` is to search. */
export interface LayOutOptions {
  /**
   * Effort in thousands of moves of the search, shared out over the groups of boards, most to those with most to be
   * saved: dear wood, and many copies; 0 stops at the first complete answer. Default {@link USUAL_EFFORT}.
   */
  readonly effort?: number | undefined;
  /** Seed of the search: same job, seed and effort give the same layout. Default 1. */
  readonly seed?: number | undefined;
  /** Stops the search; the best layout so far is returned. */
  readonly signal?: AbortSignal | undefined;
  /**
   * Called with the state of the search; never more often than the search improves or 10 times a second. What it throws
   * ends the search, and `layOut` rejects with it.
   */
  readonly onProgress?: ((progress: LayOutProgress) => void) | undefined;
  /**
   * Searches side by side, each with its own seed and the whole effort; the best one wins. Same job, seed, effort
   * and number of workers give the same layout. Default 1; more need `startWorker`.
   */
  readonly workers?: number | undefined;
  /**
   * Starts a worker that serves searches; without it the search runs in the calling thread. In Node hand over the
   * `startWorker` of `fretlay/node-workers`; in a browser start a standard Worker from `fretlay/search-worker`. One
   * that runs another script and never answers is waited for until the signal.
   */
  readonly startWorker?: (() => SearchWorker) | undefined;
}

/** What a worker tells. Declared as methods, so that a standard Worker fits, whose events say more than is read here. */
export interface SearchWorkerEvents {
  message(event: { readonly data: unknown }): void;
  error(event: { readonly message: string }): void;
}

/** The part of the standard Web Worker that the engine uses. */
export interface SearchWorker {
  postMessage(message: unknown): void;
  onmessage: SearchWorkerEvents['message'] | null;
  /** Called when the worker cannot go on, has ended by itself, or its script cannot be loaded. */
  onerror?: SearchWorkerEvents['error'] | null;
  terminate(): unknown;
}

/** A report from the running search. */
export interface LayOutProgress {
  /** Share of the effort spent, 0 to 1; 1 in the last call, with the layout that is handed back, unless the search was stopped. */
  readonly done: number;
  /** One line for a person: what is being searched. */
  readonly message: string;
  /** The best valid layout so far, of all woods: the first layout of those that are still to be searched. */
  readonly best: Layout;
}
