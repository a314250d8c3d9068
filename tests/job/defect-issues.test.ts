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

it('tells of a knot of inches that was written without their unit', () => {
  expect(issuesOf({ at: [10, 2], diameter: 1 })).toMatchObject([
    {
      kind: 'size-unlikely',
      severity: 'warning',
      received: '1 millimetres',
      where: { file: 'rack.json', field: 'boards[0].defects[0]', board: 'R' },
    },
  ]);
  expect(issuesOf({ at: [10, 2], diameter: 3 })).toEqual([]);
});

it('tells of a crack right across a board which piece of it is left aside', () => {
  const across = (at: number, to: string) => ({
    outline: [
      [`${at} in`, '-1 in'],
      [`${at + 0.1} in`, '-1 in'],
      [`${at + 0.1} in`, to],
      [`${at} in`, to],
    ],
  });
  expect(issuesOf(across(15, '9 in'))).toMatchObject([
    {
      kind: 'board-parted',
      message:
        'defects part "R": parts are laid out on 0 to 381 mm along it, 0 to 152.4 mm across, and nothing on 383.5 to 609.6 mm along it, 0 to 152.4 mm across',
      where: { file: 'rack.json', field: 'boards[0]', board: 'R' },
    },
  ]);
  expect(issuesOf(across(15, '5 in'))).toEqual([]);
});

describe('an outline that is none', () => {
  const bowtie = [
    [0, 0],
    [300, 100],
    [300, 0],
    [0, 100],
  ];
  const crack = {
    outline: [
      [100, 0],
      [150, 0],
      [200, 0],
    ],
  };
  const svg = '<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="100mm" viewBox="0 0 300 100">';
  const files = {
    'rack.json': JSON.stringify({ boards: [board, { ...board, id: 'R', defects: [crack] }] }),
    'plank.svg': `${svg}<path d="M0 0L300 90L300 0L0 100Z"/></svg>`,
  };
  const told = (stock: object) =>
    stockOfJob(readJob(JSON.stringify({ pattern: 'p.svg', ...stock })), files, 'job.json').issues.map(
      ({ kind, where }) => ({ kind, ...where }),
    );

  it('is told by its file, field and board', () => {
    const outline = { id: 'W', outline: bowtie };
    const kind = 'outline-invalid';
    expect(told({ boards: [board, outline], forSale: [{ ...board, id: 'S', defects: [crack] }] })).toEqual([
      { kind, file: 'job.json', field: 'boards[1].outline', board: 'W' },
      { kind, file: 'job.json', field: 'forSale[0].defects[0]', board: 'S' },
    ]);
    expect(told({ boards: [{ ...board, id: 'W' }], rack: 'rack.json' })).toEqual([
      { kind, file: 'rack.json', field: 'boards[1].defects[0]', board: 'R' },
    ]);
    expect(told({ boards: [{ id: 'W', drawing: { file: 'plank.svg' } }] })).toEqual([
      { kind, file: 'job.json', field: 'boards[0].drawing', board: 'W' },
    ]);
  });
});
