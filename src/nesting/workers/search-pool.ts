import type { SearchWorker } from '../../model/laying-out.ts';
import { better } from '../arrangement/score.ts';
import type { ProblemBuilder, ProblemSpec } from '../problem/problem-spec.ts';
import { type PartOfEffort, WHOLE } from '../running/budget.ts';
import type { FillingFound } from '../search/fillings.ts';
import { BOARDS_SETTLED } from '../search/solve.ts';
import { type Found, Searcher, type SearchTask } from './search-task.ts';
import type { WorkerOrder, WorkerReport } from './search-worker.ts';
import { endWorkers, workerFailure } from './start-workers.ts';

/** Several searches of one problem side by side, with seeds that follow one another; the best one wins. */

/**
 * Milliseconds a stopped worker gets to hand in its best: with what is done after that, the stop is over in 50. Few need
 * more, and what they have reported by then is at hand anyway.
 */
const LAST_CALL = 12;

/** Seeds of neighbouring workers lie this far apart, so that neighbouring seeds of the caller share none. */
const SEED_STEP = 7919;
const ROUND_STEP = 104729;

/**
 * Parts of the effort after which workers that search together exchange what they have found: all go on from the
 * best. The last part is the one in which the search compresses.
 */
const PARTS: readonly PartOfEffort[] = [
  { from: 0, to: 0.4 },
  { from: 0.4, to: 0.75 },
  { from: 0.75, to: 1 },
];

/** Share of the effort until which boards are filled one by one, at least, and the parts of it at most. */
const CHOSEN_UNTIL = 0.6;
const MOST_PARTS_OF_CHOOSING = 8;

/** Moves a copy that each of these parts takes at least: tries that are cut short at its end come to less. */
const MOVES_OF_COPY = 50;

/**
 * The parts where there are several boards to choose from: what each has found to fit on one of them is exchanged as well, and
 * soon of use to all.
 */
function partsOfBoards({ shapes }: ProblemSpec, { moves, seconds }: SearchSettings): readonly PartOfEffort[] {
  const copies = shapes.reduce((sum, shape) => sum + shape.copies, 0);
  const long =
    seconds === undefined ? (CHOSEN_UNTIL * moves) / (MOVES_OF_COPY * copies) : Number.POSITIVE_INFINITY;
  const count = Math.max(1, Math.min(MOST_PARTS_OF_CHOOSING, Math.floor(long)));
  const end = (n: number) => (CHOSEN_UNTIL * n) / count;
  return [
    ...Array.from({ length: count }, (_, n) => ({ from: end(n), to: end(n + 1) })),
    { from: CHOSEN_UNTIL, to: BOARDS_SETTLED },
    { from: BOARDS_SETTLED, to: 1 },
  ];
}

/** How a problem is to be searched: see {@link SearchTask}. */
export interface SearchSettings {
  readonly seed: number;
  readonly moves: number;
  readonly seconds?: number;
  /** True for a search that only tells what a choice comes to: it leaves whole lattices out. */
  readonly brief?: boolean;
  /** Arrangement to go on from where it has no overlaps. */
  readonly start?: Found | undefined;
}

/** Who searches. */
export interface SearchTeam {
  /** Those that search side by side; with none the search runs in the calling thread. */
  readonly workers: readonly SearchWorker[];
  readonly signal: AbortSignal | undefined;
  /** The one that built the problem before, if any: a search in the calling thread then need not build it again. */
  readonly builder?: ProblemBuilder;
}

/** See the top of the file. */
export async function searchTogether(
  spec: ProblemSpec,
  settings: SearchSettings,
  { workers, signal, builder }: SearchTeam,
  onBetter: (found: Found) => void,
): Promise<Found> {
  const { start: given, ...effort } = settings;
  const first = given === undefined ? {} : { start: given };
  if (workers.length === 0)
    return new Searcher(spec, builder).run({ ...effort, ...first, part: WHOLE }, signal, onBetter);
  // After a stop those that were deaf to it have ended.
  if (!signal?.aborted)
    for (const worker of workers) worker.postMessage({ type: 'problem', spec } satisfies WorkerOrder);
  // The start is not checked here but by the workers, who hand in none that is worse than a sound one: it is not among the
  // results itself.
  let best: Found | undefined;
  let fillings: readonly (readonly FillingFound[])[] = [];
  const parts = spec.containers.length > 1 ? partsOfBoards(spec, settings) : PARTS;
  for (const [round, part] of (workers.length === 1 ? [WHOLE] : parts).entries()) {
    if (signal?.aborted) break;
    const offer = (found: Found): void => {
      if (best !== undefined && !better(found.score, best.score)) return;
      best = found;
      onBetter(found);
    };
    const start = best ?? given;
    const results = await Promise.all(
      workers.map((worker, n) => {
        const seed = settings.seed + n * SEED_STEP + round * ROUND_STEP;
        const others = fillings.toSpliced(n, 1).flat();
        return searchIn(worker, { ...effort, seed, part, start, fillings: others }, signal, offer);
      }),
    );
    best = firstBest([...results.map(({ found }) => found), best]);
    fillings = results.map((result) => result.fillings);
    if (settings.moves === 0 && settings.seconds === undefined) break;
  }
  return (
    best ??
    new Searcher(spec, builder).run(
      { ...settings, moves: 0, seconds: undefined, part: WHOLE },
      signal,
      onBetter,
    )
  );
}

/**
 * The best of the results. Messages arrive in any order; the choice goes by the order of the workers, so that it
 * repeats.
 */
function firstBest(results: readonly (Found | undefined)[]): Found | undefined {
  return results.reduce<Found | undefined>(
    (kept, found) =>
      found !== undefined && (kept === undefined || better(found.score, kept.score)) ? found : kept,
    undefined,
  );
}

/** Searches that workers were asked for so far, by which a report tells of which one it is. */
let asked = 0;

/** What one worker hands in. */
interface HandedIn {
  /** The best it found; undefined when it was stopped before it had anything. */
  readonly found: Found | undefined;
  /** What it found to fit on single boards; nothing when it was stopped. */
  readonly fillings: readonly FillingFound[];
}

/** One search in one worker that nobody has stopped so far. */
function searchIn(
  worker: SearchWorker,
  task: SearchTask,
  signal: AbortSignal | undefined,
  offer: (found: Found) => void,
): Promise<HandedIn> {
  return new Promise((resolve, reject) => {
    let latest: Found | undefined;
    const number = ++asked;
    const send = (order: WorkerOrder) => worker.postMessage(order);
    let lastCall: ReturnType<typeof setTimeout> | undefined;
    const stop = () => {
      send({ type: 'stop' });
      lastCall = setTimeout(() => settle(endDeaf), LAST_CALL);
    };
    // It would compute on, on a core that is wanted for writing the layout down.
    const endDeaf = () => {
      try {
        endWorkers([worker]);
        resolve({ found: latest, fillings: [] });
      } catch (error) {
        reject(error);
      }
    };
    const settle = (finish: () => void) => {
      clearTimeout(lastCall);
      signal?.removeEventListener('abort', stop);
      worker.onmessage = null;
      finish();
    };
    worker.onmessage = ({ data }) => {
      const report = data as WorkerReport;
      if (report.type === 'failed') {
        settle(() => reject(workerFailure(report.message)));
        return;
      }
      // A worker that did not stop in time still tells of the search before, which was of other boards and parts.
      if (report.of !== number) return;
      latest = report.found;
      if (report.type === 'finished') settle(() => resolve(report));
      else {
        // Here the caller of the search is no longer on the stack: what the listener throws would end the program.
        try {
          offer(report.found);
        } catch (error) {
          settle(() => reject(error));
        }
      }
    };
    send({ type: 'search', number, task });
    signal?.addEventListener('abort', stop);
  });
}
