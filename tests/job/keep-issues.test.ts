import { expect, it } from 'vitest';
import { batchFromJob } from '../../src/job/batch-from-job.ts';
import { readJob } from '../../src/job/read-job.ts';
import { readPattern } from '../../src/job/read-pattern.ts';

const SQUARE =
  '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60"><g id="Hull"><path d="M5 5H50V50H5Z"/></g></svg>';

const told = (keep: object, fields: object = {}) => {
  const boards = [
    { id: 'Long', species: 'maple', thickness: 19, length: '48 in', width: '5-1/2 in' },
    { id: 'Wide', species: 'oak', thickness: 19, length: '20 in', width: '12 in' },
  ];
  const layers = { Hull: { species: 'maple' } };
  const job = readJob(JSON.stringify({ pattern: 'p.svg', unit: 'in', boards, layers, keep, ...fields }));
  const { issues } = batchFromJob(job, readPattern(SQUARE, job.pattern).pattern, 'job.json');
  return issues.filter(({ kind }) => kind === 'keep-unlikely');
};

it('tells a keeper that is wider than every board of the wood, and that the sizes may have changed places', () => {
  const [issue, ...more] = told({ length: '3 in', width: '8 in' });
  expect(more).toEqual([]);
  expect(issue).toMatchObject({
    severity: 'warning',
    expected: 'at most 48 in along the grain and 5-1/2 in across it',
    received: '3 in long and 8 in wide',
    where: { file: 'job.json', field: 'keep' },
  });
  expect(issue.remedy).toContain('if 8 in long and 3 in wide was meant');
  expect(told({ length: '8 ft', width: '3 ft' })[0].remedy).toContain('Look at the unit');
});

it('names the longest and the widest of the boards, and takes a rule that one board just does for', () => {
  const boards = [
    { id: 'Long', species: 'maple', thickness: 19, length: '48 in', width: '5-1/2 in' },
    { id: 'Wide', species: 'maple', thickness: 19, length: '20 in', width: '12 in' },
  ];
  const [issue] = told({ length: '50 in', width: '3 in' }, { boards });
  expect(issue.expected).toBe('at most 48 in along the grain and 12 in across it');
  // Long enough and wide enough, but no board is both.
  expect(told({ length: '40 in', width: '10 in' }, { boards })).toHaveLength(1);
  expect(told({ length: '48 in', width: '5-1/2 in' }, { boards })).toEqual([]);
});

it('says nothing where a board can leave it, or the rule is the usual one', () => {
  expect(told({ length: '8 in', width: '3 in' })).toEqual([]);
  expect(told({ length: '40 in', width: '5-1/2 in' })).toEqual([]);
  const small = [{ id: 'Scrap', thickness: 19, length: 100, width: 60 }];
  expect(told({}, { boards: small, layers: {} })).toEqual([]);
});

it('asks whether inches were meant where scraps of no use would be kept', () => {
  const [issue, ...more] = told({ length: 8, width: 3 });
  expect(more).toEqual([]);
  expect(issue).toMatchObject({ severity: 'warning', where: { file: 'job.json', field: 'keep' } });
  expect(issue.remedy).toContain('if "8 in" by "3 in" was meant');
  expect(told({ length: '1/4 in', width: '1/8 in' })[0].remedy).toMatch(/^Look at the unit/);
  // No board is 24 by 300 in.
  expect(told({ length: 24, width: 300 })[0].remedy).toMatch(/^Look at the unit/);
  expect(told({ length: 25, width: 10 })).toEqual([]);
});
