import { Worker } from 'node:worker_threads';
import { describe, expect, test } from 'vitest';
import { startWorker } from '../../dist/cli/search-workers.js';
import { asWebWorker } from '../../src/cli/web-worker.ts';
import type { Batch } from '../../src/model/batch.ts';
import { layOut } from '../../src/nesting/lay-out.ts';
import { rectangle } from '../rectangle.ts';

/** Threads run built files: those of `dist`, which `npm test` has built before. */
const built = (name: string) => new URL(`../../dist/${name}`, import.meta.url);

/** Two square huts on one board. */
const huts: Batch = {
  sets: 2,
  demands: [
    {
      part: 'hut',
      layer: 'Shore',
      region: { outline: rectangle(20, 20), openings: [] },
      veins: [],
      copiesPerSet: 1,
      species: 'lime',
      thickness: 6,
      rules: { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false },
    },
  ],
  boards: [
    {
      id: 'A',
      species: 'lime',
      thickness: 6,
      outline: rectangle(60, 60),
      defects: [],
      quantity: 1,
      price: 0,
    },
  ],
  kerf: 1,
  clearance: 0,
  edgeMargin: 2,
  thicknessTolerance: 0.5,
  outlineTolerance: 0.05,
};

const failedWith = (received: RegExp) => ({
  name: 'FretlayError',
  issues: [{ kind: 'search-worker-failed', received: expect.stringMatching(received) }],
});

describe('a search on threads of Node', () => {
  test('finds the same layout again', async () => {
    const options = { effort: 0.05, seed: 3, workers: 2, startWorker };
    const [first, second] = [await layOut(huts, options), await layOut(huts, options)];
    expect(first.layout.figures.completeSets).toBe(2);
    expect(second.layout).toEqual(first.layout);
  });

  test.each([
    ['as soon as it has loaded', '', /ended by itself, with exit code 0/],
    [
      'when it is asked',
      "require('node:worker_threads').parentPort.on('message', () => process.exit(3))",
      /exit code 3/,
    ],
    ['with an error', "throw new Error('no such blade')", /no such blade/],
  ])('is refused when a thread ends %s', async (_, script, told) => {
    const start = () => asWebWorker(new Worker(script, { eval: true }));
    await expect(layOut(huts, { workers: 2, startWorker: start })).rejects.toMatchObject(failedWith(told));
  });

  test('is refused on a bare thread, with the name of the entry that serves', async () => {
    const start = () => asWebWorker(new Worker(built('nesting/worker-main.js')));
    await expect(layOut(huts, { startWorker: start })).rejects.toMatchObject(
      failedWith(/fretlay\/node-workers/),
    );
  });

  test('that has ended its thread itself tells of no failure', async () => {
    const worker = startWorker();
    const told: string[] = [];
    worker.onerror = ({ message }) => told.push(message);
    await worker.terminate();
    expect(told).toEqual([]);
  });
});
