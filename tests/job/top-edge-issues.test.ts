import { expect, it } from 'vitest';
import { batchFromJob } from '../../src/job/batch-from-job.ts';
import { readJob } from '../../src/job/read-job.ts';
import { readPattern } from '../../src/job/read-pattern.ts';

const FIR =
  '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60"><g id="Firs"><path d="M5 50L30 5L55 50Z"/></g></svg>';
const box = [
  [0, 0],
  [400, 0],
  [400, 120],
  [0, 120],
];

function told(board: object, restEdge = true) {
  const job = readJob(
    JSON.stringify({
      ...{ pattern: 'p.svg', unit: 'mm', layers: { Firs: { restEdge } } },
      boards: [{ id: 'Oak', species: 'oak', straightTopEdge: true, ...board }],
    }),
  );
  const { issues } = batchFromJob(job, readPattern(FIR, job.pattern).pattern, 'job.json');
  return issues
    .filter(({ kind }) => kind === 'top-edge-not-straight')
    .map(({ message, where }) => [message, where]);
}

it('a top edge that is said to be straight and slants, or is unsound all along, is told', () => {
  const where = { file: 'job.json', board: 'Oak', field: 'straightTopEdge' };
  const slanting = [[0, 0.2], ...box.slice(1)];
  expect(told({ outline: slanting })).toEqual([
    [expect.stringContaining('as it is drawn that is not level over half of its length'), where],
  ]);
  const strip = { outline: box.map(([x, y]) => [x * 2 - 200, y / 12 - 2]) };
  expect(told({ length: 400, width: 120, defects: [strip] })).toEqual([
    [expect.stringContaining('a defect runs all along that'), where],
  ]);
  // Ripped off it is straight, and where nothing is to stand nobody asks.
  expect(told({ outline: slanting, trim: { topEdge: 1 } })).toEqual([]);
  expect(told({ outline: slanting }, false)).toEqual([]);
  expect(told({ outline: box })).toEqual([]);
  expect(told({ length: 400, width: 120, defects: [{ at: [200, 0], diameter: 20 }] })).toEqual([]);
});
