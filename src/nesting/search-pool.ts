import type { SearchWorker } from '../model/laying-out.ts';
import { better } from './score.ts';
import { type Found, runTask, type SearchTask } from './search-task.ts';
import type { WorkerOrder, WorkerReport } from './search-worker.ts';

/** Several searches of one problem side by side, with seeds that follow one another; the best one wins. */

/** Milliseconds a stopped worker gets to hand in its best. */
const LAST_CALL = 35;

/** Seeds of neighbouring workers lie this far apart, so that neighbouring seeds of the caller share none. */
const SEED_STEP = 7919;

/** See the top of the file. Without workers the search runs in the calling thread. */
export async function searchTogether(
  task: SearchTask,
  workers: readonly SearchWorker[],
  signal: AbortSignal | undefined,
  onBetter: (found: Found) => void,
): Promise<Found> {
  if (workers.length === 0) return runTask(task, signal, onBetter);
  let best: Found | undefined;
  const offer = (found: Found): void => {
    if (best !== undefined && !better(found.score, best.score)) return;
    best = found;
    onBetter(found);
  };
  const results = await Promise.all(
    workers.map((worker, n) => searchIn(worker, { ...task, seed: task.seed + n * SEED_STEP }, signal, offer)),
  );
  const finished = results.filter((found) => found !== undefined);
  // Messages arrive in any order; the choice goes by the order of the workers, so that it repeats.
  const winner = finished.reduce<Found | undefined>(
    (kept, found) => (kept === undefined || better(found.score, kept.score) ? found : kept),
    undefined,
  );
  return winner ?? best ?? (await runTask({ ...task, moves: 0, seconds: undefined }, signal, onBetter));
}

/** One search in one worker; undefined when it was stopped before it had anything to hand in. */
function searchIn(
  worker: SearchWorker,
  task: SearchTask,
  signal: AbortSignal | undefined,
  offer: (found: Found) => void,
): Promise<Found | undefined> {
  return new Promise((resolve, reject) => {
    let latest: Found | undefined;
    const send = (order: WorkerOrder) => worker.postMessage(order);
    const stop = () => {
      send({ type: 'stop' });
      setTimeout(() => settle(() => resolve(latest)), LAST_CALL);
    };
    const settle = (finish: () => void) => {
      signal?.removeEventListener('abort', stop);
      worker.onmessage = null;
      finish();
    };
    worker.onmessage = ({ data }) => {
      const report = data as WorkerReport;
      if (report.type === 'failed') {
        settle(() => reject(new Error(report.message)));
        return;
      }
      latest = report.found;
      if (report.type === 'finished') settle(() => resolve(report.found));
      else offer(report.found);
    };
    send({ type: 'search', task });
    if (signal?.aborted) stop();
    else signal?.addEventListener('abort', stop);
  });
}
