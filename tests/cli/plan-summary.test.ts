import { expect, it } from 'vitest';
import { filesOf } from '../../src/cli/plan-files.ts';
import { summary } from '../../src/cli/plan-summary.ts';
import { drawJob } from '../../src/job/draw-job.ts';
import { readJob } from '../../src/job/read-job.ts';
import { type JobResult, runJob } from '../../src/job/run-job.ts';

const SQUARE =
  '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60"><path d="M5 5H50V50H5Z"/></svg>';
const board = { id: 'A', species: 'red oak', length: 100, width: 80 };
const JOB = { pattern: 'p.svg', boards: [board], costs: { batchSizes: [] }, effort: 0 };

it('the summary names the files that are there, and of a layout that breaks a rule neither sheets nor a price', async () => {
  const job = readJob(JSON.stringify(JOB));
  const right = await runJob(job, SQUARE);
  const breach = { kind: 'parts-too-close', severity: 'error', message: 'too near' } as const;
  const wrong: JobResult = {
    ...right,
    verification: { ...right.verification, ok: false, breaches: [breach] },
  };
  for (const result of [right, wrong]) {
    const drawings = await drawJob(job, result);
    const files = filesOf(result, drawings).map(({ name }) => name);
    const said = summary(result, drawings, 'mm', 'out');
    const named = [...said.matchAll(/out\/(\S+\.(?:pdf|html))/g)].map(([, name]) => name);
    expect(files).toEqual(expect.arrayContaining(named));
    const isRight = result === right;
    expect(named).toEqual(isRight ? ['report.html', 'boards.pdf'] : ['report.html']);
    expect(/Estimate for a piece/.test(said)).toBe(isRight);
    expect(/do not cut from this layout/.test(said)).toBe(!isRight);
    expect(/Before you saw: fingers/.test(said)).toBe(isRight);
    expect(/<dt>Price of a piece/.test(drawings.report)).toBe(isRight);
    // The tables below must not contradict the top: no money at all where nothing may be sawn.
    expect(/\$\d/.test(drawings.report)).toBe(isRight);
    expect(files.includes('workings.txt')).toBe(isRight);
  }
});

it('the summary tells the boards to buy from those on the shelf', async () => {
  // Two squares of 45 mm lie side by side on a board of 100 x 80 mm.
  const more = { sets: 3, forSale: [{ ...board, id: 'B', price: 4 }] };
  const job = readJob(JSON.stringify({ ...JOB, ...more }));
  const result = await runJob(job, SQUARE);
  const said = summary(result, await drawJob(job, result), 'mm', 'out');
  expect(said).toContain('Boards to take: 1 of A, 1 of B (to buy).');
});

it('what the saw has to watch in parts that are not cut in this batch is not told', async () => {
  const pair =
    '<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="60mm" viewBox="0 0 80 60"><g id="Hull"><path d="M5 5H58V58H5Z"/></g><g id="Peg"><path d="M70 5H76V20H70Z"/></g></svg>';
  const told = async (layers: object) => {
    const job = readJob(JSON.stringify({ ...JOB, layers }));
    const result = await runJob(job, pair);
    const drawings = await drawJob(job, result);
    const counted = /1 part too small to hold/.test(summary(result, drawings, 'mm', 'out'));
    return [counted, /too small to hold near the blade/.test(drawings.report)];
  };
  expect(await told({})).toEqual([true, true]);
  expect(await told({ Peg: { copiesPerSet: 0 } })).toEqual([false, false]);
});

it('parts are too small to hold by the size that the job says', async () => {
  const told = async (work: object) => {
    const job = readJob(JSON.stringify({ ...JOB, work }));
    const result = await runJob(job, SQUARE);
    return /part too small to hold/.test(summary(result, await drawJob(job, result), 'mm', 'out'));
  };
  expect([await told({}), await told({ holdSize: 45 }), await told({ holdSize: 46 })]).toEqual([
    true,
    false,
    true,
  ]);
});
