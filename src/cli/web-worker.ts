import { Worker } from 'node:worker_threads';
import type { SearchWorker } from '../index.ts';

/** Web Workers on Node's worker threads: as much of the standard interface as a search needs. */

/** Starts a worker that serves searches; hand this to `layOut` as `startWorker`. */
export function startWorker(): SearchWorker {
  const entry = new URL('../nesting/worker-main.js', import.meta.url).href;
  const thread = new Worker(new URL('./web-worker-scope.js', import.meta.url), { workerData: { entry } });
  const worker: SearchWorker = {
    onmessage: null,
    onerror: null,
    postMessage: (message) => thread.postMessage(message),
    terminate: () => thread.terminate(),
  };
  thread.on('message', (data: unknown) => worker.onmessage?.({ data }));
  thread.on('error', (error) => worker.onerror?.({ message: String(error) }));
  return worker;
}
