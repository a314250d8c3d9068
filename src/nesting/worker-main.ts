import { serveSearches, type WorkerOrder, type WorkerReport } from './workers/search-worker.ts';

/** Entry file of a search worker, for the standard Web Worker interface: start it with `new Worker(url)`. */

interface WorkerScope {
  postMessage(report: WorkerReport): void;
  onmessage: ((event: { readonly data: WorkerOrder }) => void) | null;
}

const scope = globalThis as unknown as WorkerScope;
const serve = serveSearches((report) => scope.postMessage(report));
scope.onmessage = ({ data }) => serve(data);
