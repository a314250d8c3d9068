import { expect, it } from 'vitest';
import { readJob } from '../../src/job/read-job.ts';
import { runJob } from '../../src/job/run-job.ts';

const BANK =
  '<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="60mm" viewBox="0 0 200 60"><g id="Bank"><path d="M0 10H190V50H0Z"/></g></svg>';
const board = { id: 'Oak', species: 'red oak', length: 600, width: 160, quantity: 4, price: 12 };

/** What is told of banks of 190 x 40 mm: three stand on a straight edge of 600 mm, and three strips of 51 mm make a board. */
async function told(sets: number, fields: object, bank: object = {}) {
  const layers = { Bank: { restEdge: true, ...bank } };
  const job = { pattern: 'p.svg', sets, layers, effort: 0, boards: [board], ...fields };
  const { issues } = await runJob(readJob(JSON.stringify(job)), BANK);
  return issues.filter(({ kind }) => kind === 'strips-take-less');
}

it('parts that stand on the straight edges of more boards than strips of them would take are told, with both', async () => {
  const [note] = await told(9, {});
  expect(note).toMatchObject({ severity: 'note', where: { board: 'Oak' } });
  expect(note.message).toContain(
    'ripped into strips first, 1 board for $12.00 would do in place of 3 boards for $36.00, by a quick layout',
  );
  expect(note.remedy).toContain('3 for "Oak"');
  expect(await told(9, { boards: [{ ...board, strips: 3 }] })).toEqual([]);
  // One board does as it is, and free parts use all of its width.
  expect(await told(3, {})).toEqual([]);
  expect(await told(9, {}, { restEdge: false })).toEqual([]);
  const [bare] = await told(9, { boards: [{ ...board, price: undefined }] });
  expect(bare.message).toContain('1 board would do in place of 3 boards,');
});

it('so are copies that strips would hold, but not of boards that are too narrow, have a knot or a pin', async () => {
  const [note] = await told(20, {});
  expect(note.message).toContain('would hold 8 more copies than 4 boards do as they are');
  expect(await told(20, { boards: [{ ...board, width: 80 }] })).toEqual([]);
  const defects = [{ at: [300, 80], diameter: 10 }];
  expect(await told(20, { boards: [{ ...board, defects }] })).toEqual([]);
  const pinned = [{ layer: 'Bank', part: 'part 1', board: 'Oak', at: [10, 120] }];
  expect(await told(20, { pinned })).toEqual([]);
});

it('and boards that need not be bought', async () => {
  const forSale = [{ ...board, id: 'Offer', quantity: 9, price: 20 }];
  const [note] = await told(9, { boards: [{ ...board, quantity: 1 }], forSale });
  expect(note.message).toContain('1 board of your own for $12.00 would do in place of 3 boards for $52.00');
});
