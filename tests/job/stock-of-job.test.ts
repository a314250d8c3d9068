import { expect, it } from 'vitest';
import { boardFromEntry } from '../../src/job/board-from-entry.ts';
import { readJob } from '../../src/job/read-job.ts';
import { stockOfJob } from '../../src/job/stock-of-job.ts';

it('names the field of the job where an entry has the id of one of the rack', () => {
  const board = (id: string) => ({ id, length: 400, width: 100 });
  const rack = { format: 'fretlay-rack', version: 1, boards: [board('K1'), board('K2')] };
  const job = readJob(
    JSON.stringify({
      ...{ pattern: 'p.svg', rack: 'rack.json' },
      boards: [board('Own'), board('K2')],
      forSale: [board('K1')],
    }),
  );
  const { issues } = stockOfJob(job, { 'rack.json': JSON.stringify(rack) }, 'job.json');
  expect(issues.map(({ kind, where }) => [kind, where?.field])).toEqual([
    ['board-id-repeated', 'boards[1].id'],
    ['board-id-repeated', 'forSale[0].id'],
  ]);
});

it('refuses a rack that is used up, once, where the job has no boards either', () => {
  const rack = { 'rack.json': JSON.stringify({ format: 'fretlay-rack', version: 1, boards: [] }) };
  const told = (fields: object) =>
    stockOfJob(readJob(JSON.stringify({ pattern: 'p.svg', rack: 'rack.json', ...fields })), rack, 'job.json')
      .issues;
  expect(told({})).toMatchObject([
    { kind: 'rack-empty', severity: 'error', where: { file: 'rack.json', field: 'boards' } },
  ]);
  const board = { id: 'Own', length: 400, width: 100 };
  for (const field of ['boards', 'forSale']) expect(told({ [field]: [board] })).toEqual([]);
});

it('names the field of a price that its board is too large for', () => {
  // 2000 by 300 mm are 6.46 square feet.
  const priced = (amount: number) => ({
    ...{ id: `${amount}`, length: 2000, width: 300 },
    price: { amount, per: 'square foot' },
  });
  const job = readJob(JSON.stringify({ pattern: 'p.svg', boards: [priced(1e8), priced(2e8)] }));
  expect(
    stockOfJob(job, {}, 'job.json').issues.map(({ kind, where, received }) => [kind, where?.field, received]),
  ).toEqual([['price-too-high', 'boards[1].price.amount', '1291669250.01']]);
});

it('prices a board by the cubic and the square metre', () => {
  // 2000 by 300 by 26 mm are 0.0156 m3 and 0.6 m2.
  const per = ['cubic metre', 'square metre'].map((per) => ({
    ...{ id: per, length: 2000, width: 300, thickness: 26 },
    price: { amount: 1500, per },
  }));
  const job = readJob(JSON.stringify({ pattern: 'p.svg', boards: per }));
  const prices = job.boards.map((entry) => boardFromEntry(entry).price);
  expect(prices[0]).toBeCloseTo(23.4, 9);
  expect(prices[1]).toBeCloseTo(900, 9);
});

it('tells ids repeated in the job with those of the rack, at the places the offers were written', () => {
  const board = (id: string) => ({ id, length: 400, width: 100 });
  const graded = { id: 'Oak', grade: 'FAS', nominal: '4/4' };
  const dear = { ...board('Dear'), price: { amount: 1e9, per: 'board foot' }, length: 5000, width: 900 };
  const job = readJob(
    JSON.stringify({
      ...{ pattern: 'p.svg', rack: 'rack.json' },
      boards: [board('A'), board('A'), board('K1')],
      forSale: [graded, board('A'), graded, dear],
    }),
  );
  const rack = JSON.stringify({ format: 'fretlay-rack', version: 1, boards: [board('K1')] });
  const { issues } = stockOfJob(job, { 'rack.json': rack }, 'job.json');
  expect(issues.map(({ kind, where }) => [kind, where?.field])).toEqual([
    ['price-too-high', 'forSale[3].price.amount'],
    ['board-id-repeated', 'boards[1].id'],
    ['board-id-repeated', 'forSale[1].id'],
    ['board-id-repeated', 'forSale[2].id'],
    ['board-id-repeated', 'boards[2].id'],
  ]);
});

it('warns of boards of the job of which there are more than an earlier batch left', () => {
  const board = (id: string, quantity: number) => ({ id, length: 400, width: 100, quantity });
  const job = readJob(
    JSON.stringify({ pattern: 'p.svg', rack: 'rack.json', boards: [board('New', 1), board('Sawn', 3)] }),
  );
  const told = (id: string, left: number) => {
    const takenOfJobs = [{ id, boards: 2, left }];
    return stockOfJob(job, { 'rack.json': JSON.stringify({ boards: [], takenOfJobs }) }, 'job.json').issues;
  };
  expect(told('Other', 1)).toEqual([]);
  expect(told('Sawn', 3)).toEqual([]);
  expect(told('Sawn', 2)).toMatchObject([
    {
      ...{ kind: 'board-used-before', severity: 'warning', expected: '2 left', received: '3 at hand' },
      message: expect.stringContaining('took 2 boards'),
      where: { file: 'job.json', field: 'boards[1]' },
    },
  ]);
});
