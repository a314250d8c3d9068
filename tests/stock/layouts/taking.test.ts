import { describe, expect, it } from 'vitest';
import type { Batch } from '../../../src/model/batch.ts';
import type { Layout } from '../../../src/model/layout.ts';
import type { Board } from '../../../src/model/stock.ts';
import { layOut } from '../../../src/nesting/lay-out.ts';
import { type TakingOrder, withTakingCosts } from '../../../src/stock/taking.ts';
import { rectangle } from '../../rectangle.ts';
import { oakBoard } from '../oak-board.ts';

/** Blocks of 100 x 100 mm from boards that are priced by their order. */
async function laidBlocks(sets: number, boards: Board[]): Promise<Layout> {
  const batch: Batch = {
    sets,
    demands: [
      {
        part: 'block',
        layer: 'Shore',
        region: { outline: rectangle(100, 100), openings: [] },
        veins: [],
        copiesPerSet: 1,
        species: 'oak',
        thickness: 19,
        rules: { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false },
      },
    ],
    boards,
    kerf: 1,
    clearance: 0,
    edgeMargin: 3,
    thicknessTolerance: 0.5,
    outlineTolerance: 0,
  };
  const { layout } = await layOut(batch, { effort: 2 });
  expect(layout.unplaced).toEqual([]);
  return layout;
}

/** Four blocks; every choice below has room for them. */
async function taken(order: TakingOrder): Promise<string[]> {
  const boards = [
    oakBoard('new and dear', 450, 20),
    oakBoard('old', 480, 18),
    oakBoard('cheap half', 230, 5),
    oakBoard('cheap other half', 230, 6),
    oakBoard('keeper', 470, 19, true),
  ];
  const since = new Map([
    ['new and dear', '2026-05-01'],
    ['old', '2024-01-01'],
    ['cheap half', '2026-05-01'],
    ['cheap other half', '2026-05-01'],
    ['keeper', '2026-04-01'],
  ]);
  const layout = await laidBlocks(4, withTakingCosts(boards, order, since));
  return layout.boards.map(({ stock }) => stock).sort();
}

describe('the order of taking boards', () => {
  it('takes the cheapest that do', async () => {
    expect(await taken('cheapest')).toEqual(['cheap half', 'cheap other half']);
  });

  it('takes keepers first', async () => {
    expect(await taken('keepers first')).toEqual(['keeper']);
  });

  it('fills keepers before fresh boards, also where they save none', async () => {
    // By hand: six blocks lie on the fresh board of 650 mm, with 39 mm left; keepers of 250 mm take two each.
    const boards = [oakBoard('fresh', 650, 20), oakBoard('K1', 250, 4, true), oakBoard('K2', 250, 4, true)];
    const layout = await laidBlocks(6, withTakingCosts(boards, 'keepers first'));
    const blocks = layout.boards.map(({ stock, placements }) => `${stock}: ${placements.length}`);
    expect(blocks.sort()).toEqual(['K1: 2', 'K2: 2', 'fresh: 2']);
  });

  it('takes no more keepers than the batch needs, and the smaller of those that do', async () => {
    const boards = [
      oakBoard('fresh', 650, 20),
      oakBoard('large', 480, 9, true),
      oakBoard('small', 250, 4, true),
      oakBoard('tiny', 120, 2, true),
    ];
    const layout = await laidBlocks(2, withTakingCosts(boards, 'keepers first'));
    expect(layout.boards.map(({ stock }) => stock)).toEqual(['small']);
  });

  it('takes the smaller of fresh boards at one price, free ones too', async () => {
    for (const price of [0, 12]) {
      const boards = [oakBoard('large', 900, price), oakBoard('small', 250, price)];
      const layout = await laidBlocks(2, withTakingCosts(boards, 'keepers first'));
      expect(layout.boards.map(({ stock }) => stock)).toEqual(['small']);
    }
  });

  it('takes the oldest first', async () => {
    expect(await taken('oldest')).toEqual(['old']);
  });

  it('takes the fewest', async () => {
    expect(await taken('fewest boards')).toHaveLength(1);
  });

  it('fills a board that is taken first where a longer and a shorter one before it cost less', async () => {
    const first = { ...oakBoard('first', 470, 19), takenFirst: true };
    const layout = await laidBlocks(2, [oakBoard('long', 700, 5), oakBoard('short', 230, 6), first]);
    expect(layout.boards.map(({ stock }) => stock)).toEqual(['first']);
  });
});
