import { expect, it } from 'vitest';
import { batchFromJob } from '../../src/job/batch-from-job.ts';
import { readJob } from '../../src/job/read-job.ts';
import { readPattern } from '../../src/job/read-pattern.ts';

const SQUARE =
  '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60"><g id="Hull"><path d="M5 5H50V50H5Z"/></g></svg>';

const told = (boards: readonly object[], fields: object = {}) => {
  const all = boards.map((board, i) => ({ id: `B${i}`, length: 400, width: 200, ...board }));
  const job = readJob(JSON.stringify({ pattern: 'p.svg', boards: all, ...fields }));
  const { issues } = batchFromJob(job, readPattern(SQUARE, job.pattern).pattern, 'job.json');
  return issues.filter(({ kind }) => kind === 'thickness-assumed');
};
const thin = { layers: { Hull: { thickness: '1/4 in' } }, unit: 'in' };

it('a board without a thickness is warned of where its wood is of another elsewhere', () => {
  expect(told([{ thickness: '1/4 in' }, {}, {}], thin)).toMatchObject([
    {
      severity: 'warning',
      message: 'nothing says how thick this board is, nor 1 more board: 0.748 in is taken',
      expected: 'its thickness: other wood of this job has 1/4 in',
      where: { file: 'job.json', board: 'B1' },
    },
  ]);
  expect(told([{}], { ...thin, unit: 'mm' })).toMatchObject([{ severity: 'warning' }]);
});

it('and noted in inches, but not where the usual thickness of millimetres will do', () => {
  expect(told([{}], { unit: 'in' })).toMatchObject([{ severity: 'note', where: { board: 'B0' } }]);
  expect(told([{}])).toEqual([]);
  for (const board of [{ thickness: '3/4 in' }, { nominal: '4/4' }])
    expect(told([board], { unit: 'in' })).toEqual([]);
});
