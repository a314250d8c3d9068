import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Point } from '../../src/geometry/shapes.ts';
import { containerFrom } from '../../src/nesting/problem/problem-spec.ts';
import { Random } from '../../src/nesting/running/random.ts';
import { type Found, Searcher } from '../../src/nesting/workers/search-task.ts';
import { blob } from './random-batch.ts';

/** A number that changes with any bit of any position (FNV-1a over the bytes). */
function fingerprint({ x, y, orientation, container }: Found): string {
  let hash = 0x811c9dc5;
  for (const array of [x, y, orientation, container]) {
    for (const byte of new Uint8Array(array.buffer)) hash = Math.imul(hash ^ byte, 0x01000193) >>> 0;
  }
  return hash.toString(16).padStart(8, '0');
}

test('the same job, seed and effort give the same layout bit for bit: the stored fingerprint', async () => {
  const random = new Random(21);
  const shapes = [30, 12, 7].map((points) => ({
    region: { outline: blob(random, points, 15, 30, points > 10), openings: [] },
    lies: [0, 180].map((degrees) => ({ degrees, turnedOver: false })),
    stands: false,
    copies: 6,
    perSet: 1,
  }));
  const board = {
    outline: [
      [0, 0],
      [400, 0],
      [400, 120],
      [0, 120],
    ] as const,
    openings: [],
  };
  const spec = { shapes, containers: [containerFrom(board, 1, 0)], gap: 1, margin: 2 };
  const task = { seed: 3, moves: 1500, part: { from: 0, to: 1 } };
  const found = await new Searcher(spec).run(task, undefined, () => {});
  const again = await new Searcher(spec).run(task, undefined, () => {});
  expect(fingerprint(again)).toBe(fingerprint(found));
  expect(found.score.missing).toBe(0);
  // Changes whenever the engine does; it must not change with the machine.
  expect(fingerprint(found)).toBe('37c80b06');
});

test('copies that turn come to the same layout bit for bit: the stored fingerprint', async () => {
  const random = new Random(22);
  // In thousandths: the sines that the outlines are made with are those of the machine.
  const whole = ([x, y]: Point): Point => [Math.round(1000 * x) / 1000, Math.round(1000 * y) / 1000];
  const shapes = [14, 7].map((points) => ({
    region: { outline: blob(random, points, 15, 30, points > 10).map(whole), openings: [] },
    lies: [0, 180].map((degrees) => ({ degrees, turnedOver: false, twist: [-9, 9] as const })),
    stands: false,
    copies: 4,
    perSet: 1,
  }));
  const board = {
    outline: [
      [0, 0],
      [300, 0],
      [300, 120],
      [0, 120],
    ] as const,
    openings: [],
  };
  const spec = { shapes, containers: [containerFrom(board, 1, 0)], gap: 1, margin: 2 };
  const found = await new Searcher(spec).run(
    { seed: 3, moves: 400, part: { from: 0, to: 1 } },
    undefined,
    () => {},
  );
  expect(found.twist.some((twist) => twist !== 0)).toBe(true);
  expect(fingerprint(found)).toBe('bc73446f');
});

test('the search asks for no function whose last bit each browser and each version of Node may choose', () => {
  const engine = new URL('../../src/nesting/', import.meta.url);
  const files = readdirSync(engine, { recursive: true, encoding: 'utf8' }).filter(
    // The check of a finished layout decides nothing about where copies lie.
    (name) => name.endsWith('.ts') && !name.startsWith('verify'),
  );
  expect(files.length).toBeGreaterThan(60);
  const asks = files.filter((name) =>
    /Math\.(?!(abs|ceil|floor|fround|imul|max|min|round|sign|sqrt|trunc)\()\w+\(|\w\)? \*\* /.test(
      readFileSync(new URL(name, engine), 'utf8'),
    ),
  );
  expect(asks).toEqual([]);
});
