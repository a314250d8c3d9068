import { expect, test } from 'vitest';
import { boxRing } from '../../../src/geometry/shapes.ts';
import type { SearchWorker } from '../../../src/model/laying-out.ts';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import {
  containerFrom,
  ProblemBuilder,
  type ProblemSpec,
} from '../../../src/nesting/problem/problem-spec.ts';
import { searchTogether } from '../../../src/nesting/workers/search-pool.ts';
import { foundOf } from '../../../src/nesting/workers/search-task.ts';
import type { WorkerOrder, WorkerReport } from '../../../src/nesting/workers/search-worker.ts';

const square = (size: number) => ({
  outline: boxRing({ minX: 0, minY: 0, maxX: size, maxY: size }),
  openings: [],
});

/** Four sets of one square of 33 mm and two of 10 mm. */
const spec: ProblemSpec = {
  shapes: [
    { size: 33, copies: 4, perSet: 1 },
    { size: 10, copies: 8, perSet: 2 },
  ].map(({ size, ...counts }) => ({
    region: square(size),
    lies: [{ degrees: 0, turnedOver: false }],
    stands: false,
    ...counts,
  })),
  containers: [containerFrom(square(77), 1, 0)],
  gap: 0,
  margin: 0,
};

/** A worker whose every search ends with so many large and small squares on the board. */
function workerThatFinds(large: number, small: number): SearchWorker {
  const arrangement = new Arrangement(12);
  arrangement.container.fill(0, 0, large);
  arrangement.container.fill(0, 4, 4 + small);
  const found = foundOf(new ProblemBuilder().build(spec), arrangement, 1);
  const worker: SearchWorker = {
    onmessage: null,
    postMessage: (order) => {
      const asked = order as WorkerOrder;
      if (asked.type !== 'search') return;
      const report: WorkerReport = { type: 'finished', of: asked.number, found, fillings: [] };
      queueMicrotask(() => worker.onmessage?.({ data: report }));
    },
    terminate: () => {},
  };
  return worker;
}

test('of several workers the one with more complete sets is believed, not the one with more copies', async () => {
  for (const workers of [
    [workerThatFinds(2, 4), workerThatFinds(1, 8)],
    [workerThatFinds(1, 8), workerThatFinds(2, 4)],
  ]) {
    const found = await searchTogether(
      spec,
      { seed: 1, moves: 10 },
      { workers, signal: undefined },
      () => {},
    );
    expect(found.container.filter((container) => container >= 0)).toHaveLength(6);
  }
});

test('what a worker tells late, of the search before, is no answer to the next one', async () => {
  const late = workerThatFinds(2, 4);
  const { postMessage } = late;
  late.postMessage = (order) => {
    const asked = order as WorkerOrder;
    // Told once more with the next search, as by a worker that did not stop in time.
    if (asked.type === 'search') postMessage({ ...asked, number: asked.number - 1 } satisfies WorkerOrder);
  };
  const team = { workers: [late], signal: AbortSignal.timeout(20) };
  const found = await searchTogether(spec, { seed: 1, moves: 0 }, team, () => {});
  expect(found.container.filter((container) => container >= 0)).not.toHaveLength(6);
});

test('a start with overlaps is never the answer, however good it would be; a sound one is, of a search that is stopped', async () => {
  const search = async (arrangement: Arrangement, workers: SearchWorker[], signal?: AbortSignal) => {
    const start = foundOf(new ProblemBuilder().build(spec), arrangement, 0);
    const settings = { seed: 1, moves: 10, start };
    const { container } = await searchTogether(spec, settings, { workers, signal }, () => {});
    return container.filter((k) => k >= 0).length;
  };
  const overlapping = new Arrangement(12);
  overlapping.container.fill(0);
  expect(await search(overlapping, [workerThatFinds(1, 8), workerThatFinds(2, 4)])).toBe(6);
  const silent: SearchWorker = { onmessage: null, postMessage: () => {}, terminate: () => {} };
  expect(await search(overlapping, [silent], AbortSignal.abort())).toBeLessThan(12);
  // Two large squares side by side.
  const sound = new Arrangement(12);
  sound.container.fill(0, 0, 2);
  sound.x.set([16.5, 49.5]);
  sound.y.fill(16.5);
  expect(await search(sound, [silent], AbortSignal.abort())).toBe(2);
});

test('a worker that is deaf to a stop is ended, so that it computes no longer; one that answers is left to the caller', async () => {
  const ended: string[] = [];
  const stop = new AbortController();
  const deaf: SearchWorker = { onmessage: null, postMessage: () => {}, terminate: () => ended.push('deaf') };
  const answering = workerThatFinds(2, 4);
  const { postMessage } = answering;
  let search: WorkerOrder | undefined;
  answering.postMessage = (order) => {
    const asked = order as WorkerOrder;
    if (asked.type === 'search') search = asked;
    if (asked.type === 'stop') postMessage(search);
  };
  answering.terminate = () => ended.push('answering');
  setTimeout(() => stop.abort(), 5);
  const team = { workers: [deaf, answering], signal: stop.signal };
  const { container } = await searchTogether(spec, { seed: 1, moves: 10 }, team, () => {});
  expect(container.filter((k) => k >= 0)).toHaveLength(6);
  expect(ended).toEqual(['deaf']);
});
