import { expect, it } from 'vitest';
import { readJob } from '../../src/job/read-job.ts';
import { runJob } from '../../src/job/run-job.ts';
import { preparingAmounts } from '../../src/sawing/time/preparing-amounts.ts';
import { preparingWords } from '../../src/sheet/preparing-words.ts';

const SQUARE =
  '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60"><path d="M5 5H50V50H5Z"/></svg>';
const board = (id: string, thickness: number) => ({ id, species: 'oak', thickness, length: 60, width: 60 });

/** Squares of 6 mm, one to a board: what is told of thinning, and what is laid out. */
async function run(fields: object) {
  const layers = { 'Layer 1': { thickness: 6 } };
  const job = readJob(JSON.stringify({ pattern: 'p.svg', layers, effort: 0, ...fields }));
  const { layout, issues } = await runJob(job, SQUARE);
  const told = issues.filter(({ kind }) => kind === 'board-to-plane' || kind === 'board-to-resaw');
  return { told, laid: layout.boards };
}

it('boards that are thinned are told when something lies on them, those that are bought too', async () => {
  const own = [board('A', 8), board('B', 8)];
  const { told } = await run({ sets: 1, boards: own });
  expect(told).toMatchObject([{ kind: 'board-to-plane', where: { board: 'A' } }]);
  expect(told[0].message).toBe('the board is 8 mm thick: plane it to 6 mm, 1 mm from each side');
  const { told: bought } = await run({ sets: 3, boards: own, forSale: [board('C', 8), board('D', 8)] });
  expect(bought.map(({ where }) => where?.board)).toEqual(['A', 'B', 'C']);
});

it('the surplus of a board that gives no second slice is resawn off, and the board keeps its name', async () => {
  // (14 + 3.175) / (6 + 1.5875 + 3.175) = 1.60: one piece, and 8 mm is too much to plane.
  const { told, laid } = await run({ boards: [board('A', 14)] });
  expect(told.map(({ kind, message }) => [kind, message])).toEqual([
    [
      'board-to-resaw',
      // By hand: 14 - 6 - 1.5875 - 3.175 = 3.2375.
      'the board is 14 mm thick: resaw the surplus off, a slice of 3.24 mm rough, and plane the board to 6 mm',
    ],
  ]);
  expect(told[0].remedy).toContain('not put into the rack');
  expect(laid).toMatchObject([{ id: 'A-1', slices: 1, planeTo: 6 }]);
  expect(preparingWords(laid[0], 'mm')).toEqual([['resaw', 'the surplus off, plane to 6 mm']]);
});

it('a surplus that is too thick to be planed off is resawn off slices as well', async () => {
  const wide = { layers: { 'Layer 1': { thickness: 22 } }, boards: [board('A', 76)] };
  const { told, laid } = await run(wide);
  // By hand: (76 - 3.175) / 2 = 36.41 rough, 36.41 - 22 - 1.59 - 3.175 = 9.65.
  expect(told[0].message).toBe(
    'the board is 76 mm thick: resaw it into 2 slices of 36.41 mm rough, the surplus off each that is used, a slice of 9.65 mm rough, and plane it to 22 mm',
  );
  expect(told[0].remedy).toContain('not put into the rack');
  expect(preparingWords(laid[0], 'mm')).toEqual([
    ['resaw', 'into 2 slices, and the surplus off each'],
    ['plane', 'each to 22 mm'],
  ]);
  expect(preparingAmounts({ boards: laid, kerf: 1 }).resawing).toBe(2);
});

it('asks whether a layer planed to a shaving was meant in inches', async () => {
  const { told } = await run({ layers: { 'Layer 1': { thickness: 0.75 } }, boards: [board('A', 19)] });
  expect(told.map(({ remedy }) => remedy)).toEqual([
    'If "0.75 in" was meant, write that. Or add boards of that thickness to the stock.',
  ]);
});
