import { FretlayError } from '../../issues/fretlay-error.ts';
import { foundWords } from '../../issues/wrong-value.ts';
import type { LayOutOptions, SearchWorker } from '../../model/laying-out.ts';
import type { Found } from './search-task.ts';
import type { WorkerReport } from './search-worker.ts';

/** Starting workers, and hearing of those that fail. */

/** Workers as many as asked for; none where nothing says how to start one. The caller ends them with {@link endWorkers}. */
export function startWorkers({ workers = 1, startWorker }: LayOutOptions): SearchWorker[] {
  const started: SearchWorker[] = [];
  if (startWorker === undefined) return started;
  try {
    for (let n = 0; n < Math.max(1, workers); n++) started.push(startedBy(startWorker));
  } catch (error) {
    // A thread that nobody ends would keep its program running.
    endWorkers(started);
    throw error;
  }
  return started;
}

/**
 * Ends all of the workers that have not been ended before: where the code of one throws, the others as well before that is
 * told.
 */
export function endWorkers(workers: readonly SearchWorker[]): void {
  const thrown: unknown[] = [];
  for (const worker of workers)
    try {
      worker.terminate();
    } catch (error) {
      thrown.push(error);
    }
  if (thrown.length > 0) throw workerFailure(thrownWords(thrown[0]));
}

/** A worker that is listened to, or the failure of what was to start it: code of the caller, which may throw and hand back anything. */
function startedBy(startWorker: () => SearchWorker): SearchWorker {
  try {
    const worker: Partial<SearchWorker> | null = startWorker();
    if (typeof worker?.postMessage === 'function' && typeof worker.terminate === 'function')
      return heard(worker as SearchWorker);
  } catch (error) {
    throw workerFailure(thrownWords(error));
  }
  throw workerFailure('`startWorker` handed back something that is no worker');
}

/** What code of the caller has thrown, in words; that may be anything. */
function thrownWords(thrown: unknown): string {
  const message = (thrown as Partial<Error> | null | undefined)?.message;
  return typeof message === 'string' ? message : foundWords(thrown);
}

/**
 * The worker with an ear that is always open. A script that cannot be loaded fails while the first layouts are still
 * made in the calling thread; no search listens yet, and one that asks a dead worker would wait forever. So a failure
 * is kept, and is the answer to whatever is asked from then on. A worker that lives and keeps silent is not told from
 * one that searches or still loads on a slow machine: no time is set for it, the caller's signal ends the wait.
 */
function heard(worker: SearchWorker): SearchWorker {
  let failure: WorkerReport | undefined;
  let isEnded = false;
  const listened: SearchWorker = {
    onmessage: null,
    postMessage: (order) => {
      if (failure === undefined)
        try {
          worker.postMessage(order);
          return;
        } catch (error) {
          failure = { type: 'failed', message: thrownWords(error) };
        }
      // In a turn of its own, as from a worker that lives: who asks may only then begin to listen.
      queueMicrotask(() => listened.onmessage?.({ data: failure }));
    },
    terminate: () => {
      if (isEnded) return;
      isEnded = true;
      worker.terminate();
    },
  };
  const tell = (report: WorkerReport) => {
    // The first word is kept: a thread that fails tells why, and then only that it has ended.
    if (report.type === 'failed') failure ??= report;
    listened.onmessage?.({ data: report });
  };
  // Here nobody who calls is left to catch what is thrown, which would end the program.
  worker.onmessage = (event) => {
    const said: unknown = event?.data;
    if (typeof said !== 'object' || said === null)
      tell({ type: 'failed', message: `a message that is no report: ${foundWords(said)}` });
    else if (hasFind(said as WorkerReport)) tell(said as WorkerReport);
    else
      tell({ type: 'failed', message: 'a find that is no arrangement, as from a worker of another version' });
  };
  worker.onerror = (event) =>
    tell({ type: 'failed', message: event?.message || 'its script could not be loaded' });
  return listened;
}

/** Whether a report that has to hold an arrangement holds one. */
function hasFind(report: WorkerReport): boolean {
  if (report.type !== 'better' && report.type !== 'finished') return true;
  const { score, x, y, orientation, container, twist } = { ...report.found } as Partial<Found>;
  return typeof score === 'object' && [x, y, orientation, container, twist].every(ArrayBuffer.isView);
}

/** What is thrown when a search in a worker fails: the rest of the search is of no use without it. */
export function workerFailure(message: string): FretlayError {
  return new FretlayError([
    {
      kind: 'search-worker-failed',
      severity: 'error',
      message: 'a worker of the search failed',
      expected:
        'a worker that runs the module "fretlay/search-worker" (in Node: one from "fretlay/node-workers")',
      received: message,
      remedy:
        'Check the address that the worker is started from, or leave `startWorker` out to search without.',
    },
  ]);
}
