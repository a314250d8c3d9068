import { serveSearches, type WorkerOrder, type WorkerReport } from './workers/search-worker.ts';

/**
 * Entry file of a search worker, for the standard Web Worker interface: start it with
 * `new Worker(url, { type: 'module' })`. On a worker thread of Node it needs the scope that `fretlay/node-workers`
 * gives it.
 */

interface WorkerScope {
  postMessage?: (report: WorkerReport) => void;
  onmessage: ((event: { readonly data: WorkerOrder }) => void) | null;
}

const scope = globalThis as unknown as WorkerScope;
// A bare thread of Node would end without a word here, and whoever started it would wait for an answer for ever.
if (scope.postMessage === undefined)
  throw new Error(
    '"fretlay/search-worker" runs in a Web Worker; in Node hand `layOut` the `startWorker` of "fretlay/node-workers"',
  );
const serve = serveSearches((report) => scope.postMessage?.(report));
scope.onmessage = ({ data }) => serve(data);
