import { describe, expect, it } from 'vitest';
import { readJob } from '../../src/job/read-job.ts';
import { stockOfJob } from '../../src/job/stock-of-job.ts';

const board = { id: 'A', length: '24 in', width: '6 in' };

function issuesOf(defect: object) {
  const job = readJob(JSON.stringify({ pattern: 'p.svg', rack: 'rack.json', boards: [board] }));
  const rack = { boards: [{ ...board, id: 'R', defects: [defect] }] };
  return stockOfJob(job, { 'rack.json': JSON.stringify(rack) }, 'job.json').issues;
}

describe('a defect off its board', () => {
  it('is told with its file and field', () => {
    expect(issuesOf({ at: ['30 in', '3 in'], diameter: '1 in' })).toMatchObject([
      {
        kind: 'defect-off-board',
        severity: 'warning',
        expected: 'a place on the board, 0 to 609.6 mm along it and 0 to 152.4 mm across it',
        where: { file: 'rack.json', field: 'boards[0].defects[0]', board: 'R' },
      },
    ]);
  });

  it('is none when it bites into an edge, or crosses the board without a corner on it', () => {
    expect(issuesOf({ at: ['24 in', '3 in'], diameter: '1 in' })).toEqual([]);
    const crack = [
      ['5 in', '-1 in'],
      ['5.1 in', '-1 in'],
      ['5.1 in', '9 in'],
      ['5 in', '9 in'],
    ];
    expect(issuesOf({ outline: crack })).toEqual([]);
  });
});
