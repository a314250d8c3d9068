import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  batchFromJob,
  FretlayError,
  type Layout,
  layOut,
  rackAfter,
  readJob,
  readLayout,
  readPattern,
  readRack,
  verifyLayout,
} from '../../src/index.ts';
import { generator, mutated } from './mutate.ts';

/** Cases of each of the three kinds of file: 2,000 in all; FUZZ_CASES=100000 for the long run. */
const CASES = Math.ceil(Number(process.env.FUZZ_CASES ?? 2000) / 3);

/** Half a second for each case, ms: many times what one takes, for machines that have much else to do. */
const LONGEST = Math.max(60_000, 500 * CASES);

const fixture = (name: string) => readFileSync(new URL(`../../fixtures/${name}`, import.meta.url), 'utf8');

/** Runs damaged files through a reader: each is read, or refused with a typed error that says where. */
function survives(
  text: string,
  seed: number,
  read: (damaged: string) => void,
): { read: number; refused: number } {
  const random = generator(seed);
  const before = Object.getOwnPropertyNames(Object.prototype).length;
  const counts = { read: 0, refused: 0 };
  for (let i = 0; i < CASES; i++) {
    const damaged = mutated(text, random);
    try {
      read(damaged);
      counts.read++;
    } catch (error) {
      if (!(error instanceof FretlayError))
        throw new Error(`case ${i} of seed ${seed}: ${damaged.slice(0, 2000)}`, { cause: error });
      for (const { kind, message } of error.issues) expect(`${kind}: ${message}`).toMatch(/^[a-z-]+: ./);
      counts.refused++;
    }
  }
  expect(Object.getOwnPropertyNames(Object.prototype).length).toBe(before);
  return counts;
}

describe(`${CASES} damaged files of each kind are read, or refused with a typed error`, async () => {
  const { pattern } = readPattern(fixture('first-cut/pattern.svg'));
  const job = fixture('first-cut/job.json');
  const { batch } = batchFromJob(readJob(job), pattern, 'job.json');
  const { layout } = await layOut(batch, { effort: 0 });

  it('job files, up to the batch', { timeout: LONGEST }, () => {
    const full = {
      ...JSON.parse(fixture('lake-shore/job.json')),
      ...JSON.parse(job),
      kerf: '1/32 in',
      layers: { Leaf: { species: 'basswood', grain: 'along' } },
    };
    const { read, refused } = survives(JSON.stringify(full), 1, (damaged) => {
      batchFromJob(readJob(damaged), pattern, 'job.json');
    });
    expect(Math.min(read, refused)).toBeGreaterThan(CASES / 20);
  });

  it('layout files, up to the verdict', { timeout: LONGEST }, () => {
    const { read, refused } = survives(JSON.stringify(layout), 2, (damaged) => {
      verifyLayout(readLayout(damaged));
    });
    expect(Math.min(read, refused)).toBeGreaterThan(CASES / 20);
  });

  it('racks, up to the rack after a batch', { timeout: LONGEST }, () => {
    const { read, refused } = survives(fixture('rack/rack.json'), 3, (damaged) => {
      readRack(damaged);
      rackAfter(damaged, layout as Layout, batch.boards, { design: 'leaf', sets: 1, date: undefined });
    });
    expect(Math.min(read, refused)).toBeGreaterThan(CASES / 20);
  });
});
