import { expect, test } from 'vitest';
import type { SearchWorker } from '../../../src/model/laying-out.ts';
import { searchTogether } from '../../../src/nesting/workers/search-pool.ts';
import {
  serveSearches,
  type WorkerOrder,
  type WorkerReport,
} from '../../../src/nesting/workers/search-worker.ts';
import { TO_IMPROVE } from '../bars.ts';

/** A worker in this thread, and all that it was told and has told, as copies: nothing is shared between threads. */
function workerHere() {
  const orders: WorkerOrder[] = [];
  const reports: WorkerReport[] = [];
  const serve = serveSearches((report) => {
    reports.push(structuredClone(report));
    queueMicrotask(() => worker.onmessage?.({ data: structuredClone(report) }));
  });
  const worker: SearchWorker = {
    onmessage: null,
    postMessage: (order) => {
      orders.push(structuredClone(order as WorkerOrder));
      serve(structuredClone(order as WorkerOrder));
    },
    terminate: () => {},
  };
  return { worker, orders, reports };
}

const tasksOf = (orders: readonly WorkerOrder[]) =>
  orders.flatMap((order) => (order.type === 'search' ? [order.task] : []));
const toldIn = (reports: readonly WorkerReport[]) =>
  reports.flatMap((report) => (report.type === 'finished' ? [report.fillings] : []));

test('after every part of the effort each worker is told what the others found to fit on single boards', async () => {
  const [one, other] = [workerHere(), workerHere()];
  const settings = { seed: 1, moves: 500 };
  await searchTogether(
    TO_IMPROVE,
    settings,
    { workers: [one.worker, other.worker], signal: undefined },
    () => {},
  );
  const tasks = tasksOf(one.orders);
  expect(tasks.length).toBeGreaterThan(2);
  expect(tasks.map(({ fillings }) => fillings)).toEqual([[], ...toldIn(other.reports).slice(0, -1)]);
  expect(toldIn(other.reports)[0].length).toBeGreaterThan(2);
});

test('there are as many exchanges as leave fifty moves a copy between them, eight at most before the last two', async () => {
  const partsOf = async (moves: number) => {
    const { worker: first, orders } = workerHere();
    const workers = [first, workerHere().worker];
    await searchTogether(TO_IMPROVE, { seed: 1, moves }, { workers, signal: undefined }, () => {});
    return tasksOf(orders).map(({ part }) => part.to);
  };
  // Of eighteen bars three parts take 2,700 moves, which are three fifths of 4,500.
  expect(await partsOf(4499)).toEqual([0.3, 0.6, 0.9, 1]);
  expect(await partsOf(4501)).toEqual([0.2, 0.4, 0.6, 0.9, 1].map((to) => expect.closeTo(to, 12)));
  expect(await partsOf(100)).toEqual([0.6, 0.9, 1]);
  expect(await partsOf(20_000)).toHaveLength(10);
});

test('a worker that is stopped tells no fillings', async () => {
  const { worker, reports } = workerHere();
  const stop = new AbortController();
  const settings = { seed: 1, moves: 1e9 };
  await searchTogether(TO_IMPROVE, settings, { workers: [worker], signal: stop.signal }, () => stop.abort());
  expect(toldIn(reports).flat()).toEqual([]);
});
