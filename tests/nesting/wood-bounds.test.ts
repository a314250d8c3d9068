import { expect, test } from 'vitest';
import type { Ring } from '../../src/geometry/shapes.ts';
import type { Batch } from '../../src/model/batch.ts';
import { layOut } from '../../src/nesting/lay-out.ts';
import { woodBounds } from '../../src/nesting/wood-bounds.ts';
import { randomBatch } from './random-batch.ts';

const rectangle = (width: number, height: number): Ring => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];

function tiles(sets: number, change: Partial<Batch> = {}): Batch {
  return {
    sets,
    demands: [
      {
        part: 'tile',
        layer: 'shore',
        region: { outline: rectangle(50, 50), openings: [] },
        veins: [],
        copiesPerSet: 1,
        species: 'cherry',
        thickness: 6,
        rules: { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false },
      },
    ],
    boards: [
      {
        id: 'A',
        species: 'cherry',
        thickness: 6,
        outline: rectangle(200, 100),
        defects: [],
        quantity: 3,
        price: undefined,
      },
    ],
    kerf: 0,
    clearance: 0,
    edgeMargin: 0,
    thicknessTolerance: 0.5,
    outlineTolerance: 0,
    ...change,
  };
}

test('tiles that fill their boards leave nothing to save; one that needs a board of its own leaves what is bare', async () => {
  const full = tiles(16);
  expect(woodBounds(full, (await layOut(full, { effort: 0 })).layout)).toEqual([
    { species: 'cherry', thickness: 6, boards: 2, atLeast: 2, filled: 1, savedAtMost: 0 },
  ]);
  const oneMore = tiles(9);
  const [bound] = woodBounds(oneMore, (await layOut(oneMore, { effort: 0 })).layout);
  expect(bound).toMatchObject({ boards: 2, atLeast: 2 });
  // One board in use from end to end, and the other over the length of one tile.
  expect(bound.filled).toBeCloseTo(9 / 10, 5);
  expect(bound.savedAtMost).toBeCloseTo(1 / 10, 5);
});

test('tiles that leave room for no others above them save nothing by the waste beside them', async () => {
  const wide = tiles(5, {
    demands: [{ ...tiles(1).demands[0], region: { outline: rectangle(60, 60), openings: [] } }],
  });
  const [bound] = woodBounds(wide, (await layOut(wide, { effort: 0 })).layout);
  expect(bound).toMatchObject({ boards: 2, atLeast: 2, savedAtMost: 0 });
  expect(bound.filled).toBeCloseTo(0.6, 5);
});

test('tiles that were to be stacked and lie beside others on their board are bounded with these', async () => {
  const [tile] = tiles(1).demands;
  const board = { ...tiles(1).boards[0], quantity: 1 };
  const mixed = tiles(4, {
    demands: [
      { ...tile, stack: 2 },
      { ...tile, part: 'moon', layer: 'sky' },
    ],
    boards: [board],
  });
  expect(woodBounds(mixed, (await layOut(mixed, { effort: 0 })).layout)).toEqual([
    { species: 'cherry', thickness: 6, boards: 1, atLeast: 1, filled: 1, savedAtMost: 0 },
  ]);
});

test('nothing is said of wood that is short', async () => {
  const short = tiles(30);
  expect(woodBounds(short, (await layOut(short, { effort: 0 })).layout)).toEqual([]);
});

test('no layout of random jobs is better than its bound', async () => {
  let bounds = 0;
  for (let seed = 1; seed <= 10; seed++) {
    const job = { ...randomBatch(seed), sets: 2 };
    for (const { boards, atLeast, filled, savedAtMost } of woodBounds(
      job,
      (await layOut(job, { effort: 0 })).layout,
    )) {
      bounds++;
      expect(atLeast, `seed ${seed}`).toBeLessThanOrEqual(boards);
      expect(filled).toBeGreaterThan(0);
      expect(filled).toBeLessThan(1);
      expect(savedAtMost).toBeGreaterThan(0);
    }
  }
  expect(bounds).toBeGreaterThan(5);
});

// Three strips, 3 mm apart, fill the board; grown and rounded to the grid they are larger by 0.00003 mm.
test('a board that is filled to the last digit is enough for what lies on it', async () => {
  const [length, width] = [71.13457, 100.00003];
  const [tile] = tiles(3).demands;
  const [board] = tiles(3).boards;
  const batch = tiles(3, {
    demands: [{ ...tile, region: { outline: rectangle(length, width), openings: [] } }],
    boards: [{ ...board, outline: rectangle(3 * length + 6, width) }],
    kerf: 3,
  });
  const { layout } = await layOut(batch, { effort: 0 });
  expect(layout.boards).toHaveLength(1);
  expect(woodBounds(batch, layout)[0].atLeast).toBe(1);
});
