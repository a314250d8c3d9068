import { describe, expect, test } from 'vitest';
import type { Batch } from '../../src/model/batch.ts';
import { layOut } from '../../src/nesting/lay-out.ts';
import { verifyLayout } from '../../src/nesting/verify.ts';
import { rectangle } from '../rectangle.ts';
import { PLAIN_GAPS, plainBoard, plainDemand, soundLayout } from './plain-batch.ts';

const tile = plainDemand('tile', rectangle(90, 90), { thickness: 12 });
const exact = plainBoard('exact', 100, 100, { thickness: 12.2, price: 50 });
const toPlane = plainBoard('to plane', 200, 100, { thickness: 15, price: 1 });
const toResaw = plainBoard('to resaw', 200, 100, { thickness: 38, price: 1 });
const batch: Batch = { sets: 1, demands: [tile], boards: [toResaw, toPlane, exact], ...PLAIN_GAPS };

async function laid(change: Partial<Batch>, effort = 0) {
  const layout = await soundLayout({ ...batch, ...change }, effort);
  const boards = layout.boards.map(({ stock, planeTo, slices, placements }) => [
    stock,
    placements.length,
    planeTo,
    slices,
  ]);
  return { unplaced: layout.unplaced.length, boards };
}

/** One tile has room on the exact board, two on each of the others or of their slices. */
describe('wood that asks for more work', () => {
  test('is left alone while the exact wood does, however cheap it is', async () => {
    expect(await laid({})).toEqual({ unplaced: 0, boards: [['exact', 1, undefined, undefined]] });
  });

  test.each([0, 0.2])(
    'is gone on to for copies that find no place: planed, then resawn (effort %d)',
    async (effort) => {
      expect(await laid({ sets: 3 }, effort)).toEqual({
        unplaced: 0,
        boards: [
          ['exact', 1, undefined, undefined],
          ['to plane', 2, 12, undefined],
        ],
      });
      const all = await laid({ sets: 7 }, effort);
      expect(all.unplaced).toBe(0);
      expect(all.boards).toContainEqual(['exact', 1, undefined, undefined]);
      expect(all.boards).toContainEqual(['to plane', 2, 12, undefined]);
      expect(all.boards.filter(([stock]) => stock === 'to resaw')).toEqual([
        ['to resaw', 2, 12, 2],
        ['to resaw', 2, 12, 2],
      ]);
    },
  );

  test('is gone on to beside the other woods as they were searched, also in what is told on the way', async () => {
    // The search has the flags of holly on the cheap board, the first layout on the dear one; of the tiles one stays out.
    const outline = [
      [0, 0],
      [40, 0],
      [28, 18],
      [40, 30],
      [0, 30],
    ] as const;
    const rules = { ...tile.rules, grain: 'free' } as const;
    const flag = plainDemand('flag', outline, { species: 'holly', copiesPerSet: 2, rules });
    const boards = [
      exact,
      plainBoard('to plane', 100, 100, { thickness: 15, price: 1 }),
      plainBoard('dear', 200, 200, { species: 'holly', price: 50 }),
      plainBoard('cheap', 116, 76, { species: 'holly', price: 10 }),
    ];
    const told: string[][] = [];
    await layOut(
      { ...batch, sets: 3, demands: [tile, flag], boards },
      {
        // The tiles cost more, and get most of it.
        effort: 0.2,
        onProgress: ({ best }) => {
          expect(verifyLayout(best).breaches).toEqual([]);
          told.push(best.boards.map(({ stock }) => stock));
        },
      },
    );
    expect(told.at(-1)).toEqual(['exact', 'to plane', 'cheap']);
  });

  test('goes to the wood that makes more sets whole with it, whichever the batch names first', async () => {
    const bar = plainDemand('bar', rectangle(90, 90), { thickness: 20 });
    const boards = [
      plainBoard('four tiles', 400, 100, { thickness: 12 }),
      plainBoard('one bar', 100, 100, { thickness: 20 }),
      { ...toResaw, thickness: 50 },
    ];
    for (const demands of [
      [tile, bar],
      [bar, tile],
    ]) {
      const layout = await soundLayout({ ...batch, sets: 5, demands, boards });
      // One tile more would leave four bars out.
      expect(layout.unplaced.map(({ part, set }) => [part, set])).toEqual([['tile', 5]]);
      expect(layout.figures.completeSets).toBe(4);
    }
  });

  test('is not taken from a layer that needs it as it is', async () => {
    const thick = { ...tile, part: 'thick', thickness: 38 };
    const { boards, unplaced } = await laid({ sets: 2, demands: [tile, thick], boards: [exact, toResaw] });
    expect(boards).toEqual([
      ['exact', 1, undefined, undefined],
      ['to resaw', 2, undefined, undefined],
    ]);
    expect(unplaced).toBe(1);
  });

  test('is planed to what all layers of a wood can be made of', async () => {
    const thicker = { ...tile, part: 'thicker', thickness: 12.4 };
    const { boards } = await laid({ demands: [tile, thicker], boards: [exact, toPlane] });
    expect(boards).toContainEqual(['to plane', 1, 12.2, undefined]);
  });
});
