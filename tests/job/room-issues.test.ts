import { expect, it } from 'vitest';
import { batchFromJob } from '../../src/job/batch-from-job.ts';
import { readJob } from '../../src/job/read-job.ts';
import { readPattern } from '../../src/job/read-pattern.ts';

const BANK =
  '<svg xmlns="http://www.w3.org/2000/svg" width="160mm" height="60mm" viewBox="0 0 160 60"><g id="Shore"><path d="M5 5H155V55H5Z"/></g></svg>';

/** Kinds of what is told of a part of 150 x 50 mm on a board so wide, with margins of 3 mm. */
function told(width: number, restEdge: boolean) {
  const boards = [{ id: 'A', species: 'maple', thickness: 6, length: 400, width }];
  const job = readJob(JSON.stringify({ pattern: 'p.svg', boards, layers: { Shore: { restEdge } } }));
  return batchFromJob(job, readPattern(BANK, job.pattern).pattern, 'job.json').issues.map(({ kind }) => kind);
}

it('a part that stands on the straight edge asks for one margin, any other for two', () => {
  expect([told(53, true), told(56, false)]).toEqual([[], []]);
  expect([told(52.9, true), told(55.9, false)]).toEqual([
    ['part-larger-than-boards'],
    ['part-larger-than-boards'],
  ]);
});
