import { expect, it } from 'vitest';
import { boundsOf } from '../../src/geometry/shapes.ts';
import { batchFromJob } from '../../src/job/batch-from-job.ts';
import { readJob } from '../../src/job/read-job.ts';
import { readPattern } from '../../src/job/read-pattern.ts';
import { runJob } from '../../src/job/run-job.ts';

const LEAF =
  '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60"><g id="Leaf"><path d="M5 5H50V50H5Z"/></g></svg>';
const board = { id: 'Oak', species: 'red oak', length: 400, width: 200, quantity: 4 };

/** What is told of stacks of boards so thick, mm, for so many sets and the stacks of a saw. */
function told(thickness: number, sets: number, saw = {}) {
  const layers = { Leaf: { stacked: true } };
  const boards = [{ ...board, thickness }];
  const job = readJob(JSON.stringify({ pattern: 'p.svg', sets, boards, layers, saw, unit: 'in' }));
  const { issues } = batchFromJob(job, readPattern(LEAF, job.pattern).pattern, 'job.json');
  return issues.filter(({ kind }) => kind === 'stack-not-made');
}

it('a stacked layer of boards of which two are too high for a stack is told, with both heights', () => {
  expect(told(19.05, 4)).toMatchObject([
    {
      severity: 'warning',
      expected: 'at most 3/4 in',
      received: 'twice 3/4 in',
      where: { field: 'layers.Leaf.stacked' },
    },
  ]);
  expect(told(19.05, 4, { stackHeight: '1-1/2 in' })).toEqual([]);
  expect(told(6, 4)).toEqual([]);
});

it('a single set makes no stack, and nothing is told of it', () => {
  expect(told(19.05, 1)).toEqual([]);
});

it('stacks that begin three boards for what one would hold are told, with what both cost', async () => {
  const woodTold = async (fields: object) => {
    const layers = { Leaf: { stacked: true } };
    const job = readJob(JSON.stringify({ pattern: 'p.svg', sets: 3, layers, effort: 0, ...fields }));
    const { issues } = await runJob(job, LEAF);
    return issues.filter(({ kind }) => kind === 'stack-takes-wood').map(({ message }) => message);
  };
  const small = { ...board, thickness: 6, length: 180, width: 60 };
  expect(await woodTold({ boards: [{ ...small, price: 7.5 }] })).toEqual([
    'in stacks the batch takes 3 boards for $22.50; sawn board by board 1 board for $7.50 would do, and in stacks made of lengths of a board 1 board for $7.50, by a quick layout',
  ]);
  expect(await woodTold({ boards: [small] })).toEqual([
    'in stacks the batch takes 3 boards; sawn board by board 1 board would do with 67 % less wood by area, and in stacks made of lengths of a board 1 board with 67 % less wood by area, by a quick layout',
  ]);
  // Nine fill the three boards either way.
  expect(await woodTold({ boards: [small], sets: 9 })).toEqual([]);
  expect(await woodTold({ forSale: [{ ...small, price: 4 }] })).toEqual([
    'in stacks the batch takes 3 boards for $12.00; sawn board by board 1 board for $4.00 would do, and in stacks made of lengths of a board 1 board for $4.00, by a quick layout',
  ]);
  // To be left whole; in lengths of 48 mm, which are too short to handle; and with a knot lengths are cut by eye.
  const aside =
    'in stacks the batch takes 3 boards for $22.50; sawn board by board 1 board for $7.50 would do, by a quick layout';
  const knot = { at: [20, 58], diameter: 2 };
  expect(await woodTold({ boards: [{ ...small, lengths: 1, price: 7.5 }] })).toEqual([aside]);
  expect(await woodTold({ boards: [{ ...small, length: 150, price: 7.5 }] })).toEqual([aside]);
  expect(await woodTold({ boards: [{ ...small, price: 7.5, defects: [knot] }] })).toEqual([aside]);
  // 20.6 mm gives two slices of 6 mm: three sets take one and a half boards in a stack, and a single slice else.
  const thick = { ...small, thickness: 20.64, price: 10 };
  const layer = { stacked: true, species: 'red oak', thickness: 6 };
  expect(await woodTold({ boards: [thick], layers: { Leaf: layer } })).toEqual([
    'in stacks the batch takes 1.5 boards for $15.00; sawn board by board 0.5 boards for $5.00 would do, and in stacks made of lengths of a board 0.5 boards for $5.00, by a quick layout',
  ]);
});

it('so many lengths are told as a stack may have where whole boards are bought for a lower one', async () => {
  const shore =
    '<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="100mm" viewBox="0 0 400 100"><g id="Fir"><path d="M0 60L30 0L60 60Z"/></g><g id="Slab"><path d="M100 0H220V80H100Z"/></g></svg>';
  const layers = { Fir: { stacked: true }, Slab: { stacked: true } };
  // Two boards in a stack, each copy twice on them, hold all three sets; of whole boards a stack of three takes one more.
  const shop = { ...board, thickness: 6, length: 900, price: 4, quantity: 99 };
  const told = async (fields: object) => {
    const job = readJob(
      JSON.stringify({ pattern: 'p.svg', sets: 3, layers, effort: 0, forSale: [{ ...shop, ...fields }] }),
    );
    const { issues, layout, purchase } = await runJob(job, shore);
    const notes = issues.filter(({ kind }) => kind === 'stack-takes-wood');
    return { notes, copies: layout.boards[0].copies, boards: purchase?.items.map(({ boards }) => boards) };
  };
  const whole = await told({});
  expect(whole).toMatchObject({ copies: 2, boards: [2] });
  expect(whole.notes[0].message).toContain('in stacks made of lengths of a board 1 board for $4.00');
  expect(whole.notes[0].remedy).toContain('"lengths": 3 of "Oak"');
  expect(await told({ lengths: 2 })).toMatchObject({ boards: [2] });
  expect(await told({ lengths: 3 })).toMatchObject({ copies: 3, boards: [1] });
});

it('a board in as many lengths as a stack has boards makes one, as that is told', async () => {
  const small = { ...board, thickness: 6, length: 180, width: 60, price: 7.5, lengths: 3 };
  const layers = { Leaf: { stacked: true } };
  const job = readJob(JSON.stringify({ pattern: 'p.svg', sets: 3, layers, effort: 0, boards: [small] }));
  const { layout, issues, verification } = await runJob(job, LEAF);
  expect(verification.breaches).toEqual([]);
  expect(layout.figures.completeSets).toBe(3);
  expect(layout.boards).toMatchObject([
    { id: 'Oak-1a', copies: 3, lengths: 3, pieces: ['Oak-1a', 'Oak-1b', 'Oak-1c'] },
  ]);
  // Two cuts of 1/8 in: (180 - 2 x 3.175) / 3.
  expect(boundsOf(layout.boards[0].usable.outline)).toMatchObject({ maxX: 57.8833, maxY: 60 });
  expect(issues.map(({ kind }) => kind)).not.toContain('stack-takes-wood');
});
