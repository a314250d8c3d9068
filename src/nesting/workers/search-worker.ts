import { ProblemBuilder, type ProblemSpec } from '../problem/problem-spec.ts';
import type { FillingFound } from '../search/fillings.ts';
import { type Found, Searcher, type SearchTask } from './search-task.ts';

/** The worker's side of a search: tasks come in by message, better arrangements and the result go out. */

/** What a worker is told. */
export type WorkerOrder =
  | { readonly type: 'problem'; readonly spec: ProblemSpec }
  | { readonly type: 'search'; readonly number: number; readonly task: SearchTask }
  | { readonly type: 'stop' };

/** What a worker tells; `of` is the number of the search that found it. */
export type WorkerReport =
  | { readonly type: 'better'; readonly of: number; readonly found: Found }
  | {
      readonly type: 'finished';
      readonly of: number;
      readonly found: Found;
      readonly fillings: readonly FillingFound[];
    }
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
    const { number: of, task } = order;
    const { signal } = stop;
    const asked = searcher;
    asked
      .run(task, signal, (found) => send({ type: 'better', of, found }))
      .then(
        // After a stop nobody goes on with the fillings, and thousands of copies would take their time to be sent.
        (found) =>
          send({ type: 'finished', of, found, fillings: signal.aborted ? [] : asked.fillingsFound() }),
        (error: unknown) => send({ type: 'failed', message: String(error) }),
      );
  };
}
