import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';

const runner = fileURLToPath(new URL('run.js', import.meta.url));

/** Four L-shaped tiles on a strip: small enough that a bench ends at once. */
const TILES = {
  stripHeight: 4,
  allowedRotationsDeg: [0, 180],
  items: [
    {
      points: [
        [0, 0],
        [2, 0],
        [2, 1],
        [1, 1],
        [1, 3],
        [0, 3],
      ],
      quantity: 4,
    },
  ],
  totalArea: 16,
};

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'fretlay-bench-'));
  writeFileSync(path.join(folder, 'tiles.json'), JSON.stringify(TILES));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

// The benches are plain JavaScript on the built engine: no compiler tells them when it changes.
test.each([
  ['nesting', '--seconds', '1', '--seeds', '1', '--workers', '1'],
  ['turning', '--moves', '20'],
  ['lattices', '--moves', '20', '--seeds', '1'],
  ['aborts', '--runs', '1'],
])('the bench %s runs, and what it lays out is verified', (bench, ...options) => {
  const args = [runner, bench, '--instances', folder, '--only', 'tiles', ...options];
  const { stdout, stderr, status } = spawnSync(process.execPath, args, { encoding: 'utf8', timeout: 60_000 });
  expect(status, stderr).toBe(0);
  expect(stdout).toContain('tiles');
  expect(stderr).toMatch(/verified/);
  expect(`${stdout}${stderr}`).not.toMatch(/NOT VERIFIED|"verified":false/);
});

test('the bench of the printed pages runs', () => {
  const args = [runner, 'paper', '--boards', '1'];
  const { stdout, stderr, status } = spawnSync(process.execPath, args, { encoding: 'utf8', timeout: 60_000 });
  expect(status, stderr).toBe(0);
  expect(stdout).toMatch(/^69 parts on 1 boards, \d+ pages/);
});
