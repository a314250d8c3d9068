import { expect, it } from 'vitest';
import { logIssues } from '../../src/job/log-issues.ts';
import { readJob } from '../../src/job/read-job.ts';

const board = { id: 'Oak', species: 'red oak', thickness: 19, length: 400, width: 200 };
const told = (...lines: object[]) => {
  const work = { log: lines.map((line) => ({ species: 'black walnut', thickness: '19.05 mm', ...line })) };
  return logIssues(readJob(JSON.stringify({ pattern: 'p.svg', boards: [board], work })), 'job.json');
};

it('a log of hours for minutes, or of millimetres for metres, is remarked on, and one that is likely is not', () => {
  // 5.2 m at 7.9 to 15.7 min, times the root of 1.010: 41 to 82 min.
  const [hours] = told({ minutes: 1.5, cutLength: '5.2 m' });
  expect(hours).toMatchObject({
    severity: 'warning',
    expected: 'about 41 min to 82 min',
    where: { field: 'work.log[0]' },
  });
  expect(told({ minutes: 95, cutLength: 5.2 })).toHaveLength(1);
  expect(told({ minutes: 30, cutLength: '5.2 m' })).toEqual([]);
  expect(told({ minutes: 240, cutLength: '5.2 m' })).toEqual([]);
});

it('a wood of the log that the table of woods lacks is told once, as a slip where it is nearly one of those', () => {
  // Sugar maple has 1450 lbf: taken for 1000, its 5 m would count a sixth less, by the root of 1.45.
  const line = { minutes: 60, cutLength: '5 m', species: 'sugar mapel' };
  const [slip, ...others] = told(line, line);
  expect(others).toEqual([]);
  expect(slip).toMatchObject({ severity: 'warning', where: { field: 'work.log[0].species' } });
  expect(slip.message).toContain('did you mean "sugar maple"?');
  expect(told({ minutes: 60, cutLength: '5 m', species: 'lilac' })).toMatchObject([
    { kind: 'species-without-facts', severity: 'note' },
  ]);
  expect(told({ minutes: 60, cutLength: '5 m', species: 'Hard Maple' })).toEqual([]);
});
