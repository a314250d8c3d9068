import { ProblemBuilder, type ProblemSpec } from '../problem/problem-spec.ts';
import { type Found, Searcher, type SearchTask } from './search-task.ts';

/** The worker's side of a search: tasks come in by message, better arrangements and the result go out. */

/** What a worker is told. */
export type WorkerOrder =
  | { readonly type: 'problem'; readonly spec: ProblemSpec }
  | { readonly type: 'search'; readonly task: SearchTask }
  | { readonly type: 'stop' };

/** What a worker tells. */
export type WorkerReport =
  | { readonly type: 'better' | 'finished'; readonly found: Found }
  | { readonly type: 'failed'; readonly message: string };

/**
 * Serves searches inside a worker. Call it once in the worker's entry file with a way to send; hand every message
 * that comes in to the function it returns.
 */
export function serveSearches(send: (report: WorkerReport) => void): (order: WorkerOrder) => void {
  let stop = new AbortController();
  let searcher: Searcher | undefined;
  const builder = new ProblemBuilder();
  return (order) => {
    if (order.type === 'stop') stop.abort();
    if (order.type === 'problem') searcher = new Searcher(order.spec, builder);
    if (order.type !== 'search' || searcher === undefined) return;
    stop = new AbortController();
    searcher
      .run(order.task, stop.signal, (found) => send({ type: 'better', found }))
      .then(
        (found) => send({ type: 'finished', found }),
        (error: unknown) => send({ type: 'failed', message: String(error) }),
      );
  };
}
