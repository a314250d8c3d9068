import { parentPort, workerData } from 'node:worker_threads';

/** Entry of a worker thread: gives the module named in the worker's data the scope of a standard Web Worker. */

interface WebWorkerScope {
  postMessage?: (message: unknown) => void;
  onmessage?: (event: { readonly data: unknown }) => void;
}

const scope = globalThis as unknown as WebWorkerScope;
scope.postMessage = (message) => parentPort?.postMessage(message);
await import((workerData as { entry: string }).entry);
// Messages wait in the port until someone listens, so none is lost while the module loads.
parentPort?.on('message', (data: unknown) => scope.onmessage?.({ data }));
