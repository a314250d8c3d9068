import { FretlayError } from '../../issues/fretlay-error.ts';
import type { LayOutOptions, SearchWorker } from '../../model/laying-out.ts';
import type { WorkerReport } from './search-worker.ts';

/** Starting workers, and hearing of those that fail. */

/** Workers as many as asked for; none where nothing says how to start one. The caller terminates them. */
export function startWorkers({ workers = 1, startWorker }: LayOutOptions): SearchWorker[] {
  const started: SearchWorker[] = [];
  if (startWorker === undefined) return started;
  try {
    for (let n = 0; n < Math.max(1, workers); n++) started.push(heard(startedBy(startWorker)));
  } catch (error) {
    // A thread that nobody ends would keep its program running.
    for (const worker of started) worker.terminate();
    throw error;
  }
  return started;
}

/** A worker, or the failure of what was to start it: code of the caller, which may throw and hand back anything. */
function startedBy(startWorker: () => SearchWorker): SearchWorker {
  let worker: Partial<SearchWorker> | null;
  try {
    worker = startWorker();
  } catch (error) {
    throw workerFailure(error instanceof Error ? error.message : `${error}`);
  }
  if (typeof worker?.postMessage !== 'function' || typeof worker.terminate !== 'function')
    throw workerFailure('`startWorker` handed back something that is no worker');
  return worker as SearchWorker;
}

/**
 * The worker with an ear that is always open. A script that cannot be loaded fails while the first layouts are still
 * made in the calling thread; no search listens yet, and one that asks a dead worker would wait forever. So a failure
 * is kept, and is the answer to whatever is asked from then on. A worker that lives and keeps silent is not told from
 * one that searches or still loads on a slow machine: no time is set for it, the caller's signal ends the wait.
 */
function heard(worker: SearchWorker): SearchWorker {
  let failure: WorkerReport | undefined;
  const listened: SearchWorker = {
    onmessage: null,
    postMessage: (order) => {
      if (failure === undefined) worker.postMessage(order);
      // In a turn of its own, as from a worker that lives: who asks may only then begin to listen.
      else queueMicrotask(() => listened.onmessage?.({ data: failure }));
    },
    terminate: () => worker.terminate(),
  };
  const tell = (data: unknown) => {
    const report = data as WorkerReport;
    // The first word is kept: a thread that fails tells why, and then only that it has ended.
    if (report.type === 'failed') failure ??= report;
    listened.onmessage?.({ data });
  };
  worker.onmessage = ({ data }) => tell(data);
  worker.onerror = ({ message }) =>
    tell({ type: 'failed', message: message || 'its script could not be loaded' } satisfies WorkerReport);
  return listened;
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
