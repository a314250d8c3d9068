import type { Worker } from 'node:worker_threads';
import type { SearchWorker } from '../model/laying-out.ts';

/**
 * A worker thread of Node as a standard Web Worker: as much of the interface as a search needs. An end of the thread
 * that nobody asked for is an error here, as no Web Worker ends by itself and nothing would ever answer from then on.
 */
export function asWebWorker(thread: Worker): SearchWorker {
  const ended = (code: number) =>
    worker.onerror?.({ message: `its thread ended by itself, with exit code ${code}` });
  const worker: SearchWorker = {
    onmessage: null,
    onerror: null,
    postMessage: (message) => thread.postMessage(message),
    terminate: () => {
      thread.off('exit', ended);
      return thread.terminate();
    },
  };
  thread.on('message', (data: unknown) => worker.onmessage?.({ data }));
  thread.on('error', (error) => worker.onerror?.({ message: String(error) }));
  thread.on('exit', ended);
  return worker;
}
