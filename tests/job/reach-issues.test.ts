import { expect, it } from 'vitest';
import { batchFromJob } from '../../src/job/batch-from-job.ts';
import { reachIssues } from '../../src/job/reach-issues.ts';
import { readJob } from '../../src/job/read-job.ts';
import { readPattern } from '../../src/job/read-pattern.ts';

const SQUARE =
  '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60"><path d="M5 5H50V50H5Z"/></svg>';
const board = { id: 'Oak', species: 'red oak', thickness: 19, length: 400, width: 200 };
const jobWith = (saw: object) => readJob(JSON.stringify({ pattern: 'p.svg', boards: [board], saw }));
const told = (saw: object) => reachIssues(jobWith(saw), 'job.json');

it('a throat of a plain number of inches is remarked on by the whole job, with what was likely meant', () => {
  const job = jobWith({ throat: 16 });
  const { issues } = batchFromJob(job, readPattern(SQUARE, job.pattern).pattern, 'job.json');
  const [issue] = issues.filter(({ kind }) => kind === 'reach-unlikely');
  expect(issue).toMatchObject({
    severity: 'warning',
    expected: 'at least 200 mm',
    received: '16 millimetres',
    where: { file: 'job.json', field: 'saw.throat' },
  });
  expect(issue.remedy).toContain('if "16 in" was meant');
});

it.each([
  [{ throat: 21 }, 'if "21 in" or "21 cm" was meant'],
  [{ throat: 46 }, 'if "46 cm" was meant'],
  [{ longest: 30 }, 'if "30 in" or "30 cm" was meant'],
  [{ throat: 3 }, 'write the unit with it'],
])('guesses what %j may have been', (saw, guess) => {
  expect(told(saw)[0].remedy).toContain(guess);
});

it.each([
  [{ throat: '16 ft' }, 'at most 1000 mm', '4876.8 mm'],
  [{ longest: '20 ft' }, 'at most 3000 mm', '6096 mm'],
])('remarks on %j, with which boards stay whole', (saw, expected, received) => {
  expect(told(saw)).toMatchObject([{ kind: 'reach-unlikely', severity: 'warning', expected, received }]);
});

it('does not take a throat of inches for a plain number', () => {
  const [issue] = told({ throat: '3 in' });
  expect(issue).toMatchObject({ received: '76.2 mm' });
  expect(issue.remedy).toBe(
    'Measure from the blade to the back of the saw, and see whether another unit was meant.',
  );
  expect(told({ longest: '5 in' })[0].remedy).toBe('See whether another unit was meant.');
});

it('says nothing of reaches that saws have, or of none', () => {
  for (const saw of [{}, { throat: '16 in' }, { throat: 400, longest: '20 in' }])
    expect(told(saw)).toEqual([]);
});
