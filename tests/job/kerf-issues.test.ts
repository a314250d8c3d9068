import { expect, it } from 'vitest';
import { kerfIssues } from '../../src/job/kerf-issues.ts';
import { readJob } from '../../src/job/read-job.ts';
import { runJob } from '../../src/job/run-job.ts';

const board = { id: 'Oak', species: 'red oak', thickness: 19, length: 400, width: 200 };
const jobWith = (fields: object) =>
  readJob(JSON.stringify({ pattern: 'p.svg', boards: [board], effort: 0, ...fields }));
const told = (fields: object) => kerfIssues(jobWith(fields), 'job.json');

it('a kerf that no blade saws is remarked on by the whole job, with what was likely meant', async () => {
  const square =
    '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60"><path d="M5 5H50V50H5Z"/></svg>';
  const { issues } = await runJob(jobWith({ kerf: 12 }), square);
  const [issue] = issues.filter(({ kind }) => kind === 'kerf-unlikely');
  expect(issue).toMatchObject({
    severity: 'warning',
    // The widest blade of the table saws .028 in, the finest .012 in.
    expected: 'at most 1.42 mm; the common blades saw 0.30 to 0.71 mm',
    received: '12 mm',
    where: { file: 'job.json', field: 'kerf' },
  });
  expect(issue.remedy).toContain('If "0.012 in" or "1.2 mm" was meant');
});

it.each([
  [5, 'If "0.5 mm" was meant'],
  [20, 'If "0.02 in" was meant'],
  ['0.9 in', 'If "0.9 mm" was meant'],
  ['1/4 in', 'If "0.635 mm" was meant'],
  [500, 'Write the unit with it'],
  // A thirty-second of an inch, its unit forgotten.
  [0.03125, 'If "0.03125 in" or "0.3125 mm" was meant'],
])('guesses what a kerf of %s may have been', (kerf, guess) => {
  expect(told({ kerf })[0].remedy).toContain(guess);
});

it('says nothing of kerfs that blades saw, and tells that of a blade at the blade', () => {
  for (const kerf of [0, 0.15, 0.3, 1, 1.42, '1/32 in']) expect(told({ kerf })).toEqual([]);
  const mine = { name: 'Mine', width: 1, thickness: 0.4, kerf: 5 };
  const fields = told({ kerf: 'blade', work: { blade: 'Mine', blades: [mine] } }).map(({ where }) => where);
  expect(fields).toEqual([{ file: 'job.json', field: 'work.blades[0].kerf' }]);
});
