import { describe, expect, test } from 'vitest';
import type { SearchWorker } from '../../../src/model/laying-out.ts';
import { layOut } from '../../../src/nesting/lay-out.ts';
import { Searcher } from '../../../src/nesting/workers/search-task.ts';
import type { WorkerOrder, WorkerReport } from '../../../src/nesting/workers/search-worker.ts';
import { rectangle } from '../../rectangle.ts';
import { PLAIN_GAPS, plainBoard, plainDemand } from '../plain-batch.ts';
import { randomBatch } from '../random-batch.ts';

/** A worker that never answers; what it is asked is kept. */
function silentWorker(): SearchWorker & { readonly asked: unknown[]; isEnded: boolean } {
  const asked: unknown[] = [];
  return {
    asked,
    isEnded: false,
    onmessage: null,
    onerror: null,
    postMessage(order) {
      asked.push(order);
    },
    terminate() {
      this.isEnded = true;
    },
  };
}

describe('a worker that fails', () => {
  test('before the search asks it ends the search with an error that says what to do', async () => {
    const worker = silentWorker();
    const startWorker = () => {
      // As a browser does when the script is not where it is looked for: before any message, without a word.
      queueMicrotask(() => worker.onerror?.({ message: '' }));
      return worker;
    };
    const { signal } = new AbortController();
    await expect(layOut(randomBatch(5), { startWorker, signal })).rejects.toMatchObject({
      name: 'FretlayError',
      issues: [{ kind: 'search-worker-failed', received: 'its script could not be loaded' }],
    });
    expect(worker.isEnded).toBe(true);
  });

  test('in the middle of its search ends the search as well', async () => {
    const worker = silentWorker();
    worker.postMessage = (order) => {
      worker.asked.push(order);
      if (worker.asked.length === 2) queueMicrotask(() => worker.onerror?.({ message: 'out of memory' }));
    };
    await expect(layOut(randomBatch(5), { startWorker: () => worker })).rejects.toThrow('out of memory');
    expect(worker.asked).toMatchObject([{ type: 'problem' }, { type: 'search' }]);
  });

  test('tells why it failed, not only that it has ended', async () => {
    const worker = silentWorker();
    worker.postMessage = () => {
      worker.onerror?.({ message: 'out of memory' });
      worker.onerror?.({ message: 'its thread ended' });
    };
    await expect(layOut(randomBatch(5), { startWorker: () => worker })).rejects.toMatchObject({
      issues: [{ received: 'out of memory' }],
    });
  });

  // What is thrown in a listener has no caller to catch it, and would end the program.
  test.each([
    ['a message of nothing', { data: null }, 'a message that is no report: null'],
    ['an event of nothing', null, 'a message that is no report: nothing'],
    ['a word', { data: 'ready' }, 'a message that is no report: "ready"'],
    [
      'a find of another kind',
      { data: { type: 'finished', of: 1, found: { x: [1] } } },
      expect.stringContaining('another version'),
    ],
  ])('by %s ends the search', async (_, event, received) => {
    const worker = silentWorker();
    worker.postMessage = () => worker.onmessage?.(event as never);
    await expect(layOut(randomBatch(5), { startWorker: () => worker })).rejects.toMatchObject({
      issues: [{ kind: 'search-worker-failed', received }],
    });
  });

  const none = silentWorker();
  test.each([
    [
      'a getter',
      {
        ...none,
        get postMessage(): never {
          throw new Error('own');
        },
      },
      'own',
    ],
    [
      'a message',
      {
        ...none,
        postMessage: () => {
          throw Symbol('own');
        },
      },
      'symbol',
    ],
    ['an ear', Object.freeze({ ...none }), expect.stringContaining('onmessage')],
    [
      'its end',
      {
        ...none,
        postMessage: () => {
          throw 'own';
        },
        terminate: () => {
          throw Object.create(null);
        },
      },
      'object',
    ],
  ] as const)('by what %s throws ends the search with an error of this kind', async (_, worker, received) => {
    await expect(layOut(randomBatch(5), { startWorker: () => worker as never })).rejects.toMatchObject({
      name: 'FretlayError',
      issues: [{ kind: 'search-worker-failed', received }],
    });
  });

  test('to end leaves none of the others running', async () => {
    const [stuck, other] = [silentWorker(), silentWorker()];
    stuck.postMessage = () => stuck.onerror?.({ message: 'out of memory' });
    stuck.terminate = () => {
      throw new Error('own');
    };
    const left = [stuck, other];
    const startWorker = () => left.shift()!;
    await expect(layOut(randomBatch(5), { workers: 2, startWorker })).rejects.toThrow();
    expect(other.isEnded).toBe(true);
  });

  test('to hear a stop is ended once, also where the whole search ends it again', async () => {
    const deaf = silentWorker();
    let ends = 0;
    deaf.terminate = () => ends++;
    const stop = new AbortController();
    deaf.postMessage = (order) => {
      if ((order as { type: string }).type === 'search') setTimeout(() => stop.abort());
    };
    await layOut(randomBatch(5), { startWorker: () => deaf, signal: stop.signal });
    expect(ends).toBe(1);
  });

  test('to start leaves none of the others running', async () => {
    const first = silentWorker();
    let started = 0;
    const startWorker = () => {
      if (started++ > 0) throw new Error('no more threads');
      return first;
    };
    await expect(layOut(randomBatch(5), { workers: 2, startWorker })).rejects.toThrow('no more threads');
    expect(first.isEnded).toBe(true);
  });
});

/** A worker that tells of so many finds in a row, and does not end by itself. */
function tellingWorker(times: number): ReturnType<typeof silentWorker> {
  const worker = silentWorker();
  let searcher: Searcher;
  worker.postMessage = (order) => {
    const asked = order as WorkerOrder;
    if (asked.type === 'problem') searcher = new Searcher(asked.spec);
    if (asked.type !== 'search') return;
    const once = { seed: 1, moves: 0, part: { from: 0, to: 1 } };
    searcher
      .run(once, undefined, () => {})
      .then((found) => {
        for (let n = 0; n < times; n++) {
          const better = { ...found, score: { ...found.score, cost: found.score.cost - n } };
          worker.onmessage?.({
            data: { type: 'better', of: asked.number, found: better } satisfies WorkerReport,
          });
        }
      });
  };
  return worker;
}

describe('an onProgress that throws', () => {
  const demands = [plainDemand('square', rectangle(20, 20))];
  const batch = { ...PLAIN_GAPS, sets: 2, demands, boards: [plainBoard('B', 100, 50)] };
  for (const [when, times] of [
    ['at once', 1],
    ['at a late report', 2],
  ] as const)
    test(`${when} ends the search with what it has thrown, and the workers`, async () => {
      const worker = tellingWorker(times);
      const thrown = new RangeError('of the caller');
      let calls = 0;
      const onProgress = () => {
        if (++calls >= times) throw thrown;
      };
      await expect(layOut(batch, { startWorker: () => worker, onProgress })).rejects.toBe(thrown);
      expect(calls).toBe(times);
      expect(worker.isEnded).toBe(true);
    });
});
