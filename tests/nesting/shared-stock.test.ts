import { describe, expect, test } from 'vitest';
import type { Batch, Demand } from '../../src/model/batch.ts';
import type { Board } from '../../src/model/stock.ts';
import { layOut } from '../../src/nesting/lay-out.ts';
import { verifyLayout } from '../../src/nesting/verify.ts';
import { rectangle } from '../rectangle.ts';

const leaf: Demand = {
  part: 'leaf',
  layer: 'L',
  region: { outline: rectangle(90, 90), openings: [] },
  veins: [],
  copiesPerSet: 1,
  species: 'birch',
  thickness: 6,
  rules: { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false },
  stack: 3,
};
const single: Demand = { ...leaf, part: 'single', stack: 1 };
/** Four squares have room on a board, eight copies of the leaf on a pile of two. */
const sheet: Board = {
  id: 'S',
  species: 'birch',
  thickness: 6,
  outline: rectangle(200, 200),
  defects: [],
  quantity: 3,
  price: 10,
};
const batch: Batch = {
  sets: 3,
  demands: [leaf, single],
  boards: [sheet],
  kerf: 1,
  clearance: 0,
  edgeMargin: 2,
  thicknessTolerance: 0.5,
  outlineTolerance: 0,
};

async function laid(change: Partial<Batch>, effort = 0) {
  const { layout } = await layOut({ ...batch, ...change }, { effort });
  expect(verifyLayout(layout).breaches).toEqual([]);
  const piles = layout.boards.map(({ copies, placements }) => [copies, placements[0].part]);
  return { piles, unplaced: layout.unplaced.length };
}

describe('stacked and single layers of one wood', () => {
  test('share the boards: stacks are lower where the single parts would find none', async () => {
    for (const effort of [0, 0.2]) {
      const { piles, unplaced } = await laid({}, effort);
      expect(unplaced).toBe(0);
      expect(piles.filter(([, part]) => part === 'single')).toEqual([[1, 'single']]);
      expect(Math.max(...piles.map(([copies]) => Number(copies)))).toBe(2);
    }
  });

  test('keep their high stacks where there are boards for all', async () => {
    const { piles, unplaced } = await laid({ boards: [{ ...sheet, quantity: 4 }] });
    expect({ piles, unplaced }).toEqual({
      piles: [
        [3, 'leaf'],
        [1, 'single'],
      ],
      unplaced: 0,
    });
  });

  test('keep their high stacks where lower ones leave as much out', async () => {
    // Of a wood of its own: its missing board is none that a stack of birch could leave.
    const oak = { ...single, species: 'oak' };
    const { piles, unplaced } = await laid({ demands: [leaf, oak] });
    expect({ piles, unplaced }).toEqual({ piles: [[3, 'leaf']], unplaced: 3 });
  });
});
