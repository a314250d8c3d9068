import { Worker } from 'node:worker_threads';
import type { SearchWorker } from '../model/laying-out.ts';
import { asWebWorker } from './web-worker.ts';

/** Entry `fretlay/node-workers`: search workers on Node's worker threads. */

/**
 * Starts a worker thread that serves searches; hand this function itself to `layOut` or `runJob` as `startWorker`,
 * which end the thread when they are done. For Node alone: in a browser start a standard Worker from
 * `fretlay/search-worker`.
 *
 * @throws Error of Node's own when it can start no thread
 */
export function startWorker(): SearchWorker {
  // An address beside this file, so that it holds in an installed package as well as in this repository.
  const entry = new URL('../nesting/worker-main.js', import.meta.url).href;
  return asWebWorker(
    new Worker(new URL('./web-worker-scope.js', import.meta.url), { workerData: { entry } }),
  );
}
