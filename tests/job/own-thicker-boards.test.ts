import { expect, it } from 'vitest';
import { ownThickerIssues } from '../../src/job/own-thicker-boards.ts';
import type { Batch } from '../../src/model/batch.ts';
import type { Purchase } from '../../src/model/purchase.ts';
import type { Board } from '../../src/model/stock.ts';
import { rectangle } from '../rectangle.ts';

const board = (id: string, thickness: number, fields: Partial<Board> = {}): Board => ({
  ...{ id, species: 'oak', thickness, outline: rectangle(400, 120) },
  ...{ defects: [], quantity: 1, price: undefined },
  ...fields,
});
const demand = (part: string, length: number, width: number) => ({
  ...{ layer: 'Bank', part, species: 'oak', thickness: 19 },
  region: { outline: rectangle(length, width), openings: [] },
});

/** The boards of the maker's own that are named, where one board is bought and what lies on it is so large. */
function told(own: readonly Board[], length: number, width: number, alsoUsed: readonly string[] = []) {
  const batch = {
    ...{ boards: own, edgeMargin: 3, thicknessTolerance: 0.5 },
    demands: [demand('bought', length, width), demand('at hand', 100, 50)],
  } as unknown as Batch;
  const laid = (stock: string, part: string) => ({
    ...{ id: `${stock}-1`, stock, copies: 1 },
    placements: [{ layer: 'Bank', part }],
  });
  const boards = [laid('Shop', 'bought'), ...alsoUsed.map((stock) => laid(stock, 'at hand'))];
  const purchase = { items: [{ id: 'Shop' }], layout: { boards } } as unknown as Purchase;
  return ownThickerIssues(batch, purchase, 'mm').map(({ where, message }) => [
    where?.board,
    /could be (.*?) to/.exec(message)?.[1],
  ]);
}

it('names boards to plane and to resaw that lie unused, and none of the thickness that is bought', () => {
  // 19 mm and up to 6.35 mm more are planed, what is thicker is resawn.
  const own = [board('Same', 19), board('Plane', 25), board('Resaw', 44), board('Thin', 12)];
  expect(told(own, 200, 60)).toEqual([
    ['Plane', 'planed'],
    ['Resaw', 'resawn and planed'],
  ]);
});

it('names none that the layout takes already, unless more of it are there, nor another wood', () => {
  expect(told([board('Plane', 25)], 200, 60, ['Plane'])).toEqual([]);
  expect(told([board('Plane', 25, { quantity: 2 })], 200, 60, ['Plane'])).toEqual([['Plane', 'planed']]);
  expect(told([board('Ash', 25, { species: 'ash' })], 200, 60)).toEqual([]);
});

it('names one only where what is bought has room on it, whichever way it lies, inside the margins', () => {
  // Inside 3 mm all round 400 x 120 mm are 394 x 114 mm.
  const own = [board('Plane', 25)];
  expect(told(own, 394, 114)).toHaveLength(1);
  expect(told(own, 114, 394)).toHaveLength(1);
  expect(told(own, 394.1, 114)).toEqual([]);
  expect(told(own, 394, 114.1)).toEqual([]);
});
