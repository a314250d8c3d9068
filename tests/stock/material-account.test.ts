import { describe, expect, it } from 'vitest';
import type { BoardAreas, LaidBoard, Layout } from '../../src/model/layout.ts';
import type { Board } from '../../src/model/stock.ts';
import { materialAccount } from '../../src/stock/material-account.ts';
import { cutInto } from '../../src/stock/ripping.ts';
import { rectangle } from '../rectangle.ts';

const areas: BoardAreas = {
  board: 100_000,
  trims: 4000,
  defects: 1000,
  parts: 45_000,
  openings: 500,
  kerf: 4500,
  keepers: 35_000,
  scrap: 10_000,
};

const laid = (copies: number, species: string): LaidBoard => ({
  id: `${species}-1`,
  stock: species,
  species,
  thickness: 25.4,
  copies,
  usable: { outline: [], openings: [] },
  placements: [],
  areas,
});

/** 5-1/2 in x 8 ft x 1 in. */
const board = (species: string): Board => ({
  id: species,
  species,
  thickness: 25.4,
  outline: [
    [0, 0],
    [8 * 304.8, 0],
    [8 * 304.8, 5.5 * 25.4],
    [0, 5.5 * 25.4],
  ],
  defects: [],
  quantity: 9,
  price: undefined,
});

describe('materialAccount', () => {
  const layout = {
    boards: [laid(2, 'oak'), laid(1, 'cherry')],
    figures: { completeSets: 5 },
  } as unknown as Layout;
  const accounts = () => materialAccount(layout, [board('oak'), board('cherry')]);

  it('counts every board of a stack, and keeps yield and flaws apart', () => {
    const [oak, cherry] = accounts();
    expect(oak.areas).toMatchObject({ board: 200_000, parts: 90_000, keepers: 70_000 });
    expect(cherry.areas).toEqual(areas);
    // By hand: 45 of the 60 thousand mm2 of sound wood that are used up; 5 of 100 lost to trims and defects.
    expect(oak.yieldOfUsed).toBeCloseTo(45 / 60, 12);
    expect(oak.flawShare).toBeCloseTo(0.05, 12);
    expect(cherry.usedPerSet).toBeCloseTo(65_000 / 5, 9);
  });

  it('has no yield of nothing, no share of flaws without boards, and no use per set without a whole set', () => {
    const none = { board: 0, trims: 0, defects: 0, parts: 0, openings: 0, kerf: 0, keepers: 0, scrap: 0 };
    const accountOf = (measured: BoardAreas | undefined) =>
      materialAccount(
        {
          boards: [{ ...laid(1, 'oak'), areas: measured }],
          figures: { completeSets: 0 },
        } as unknown as Layout,
        [board('oak')],
      )[0];
    for (const measured of [none, undefined])
      expect(accountOf(measured)).toMatchObject({
        areas: none,
        yieldOfUsed: 0,
        flawShare: 0,
        usedPerSet: undefined,
      });
    // All that is used up is trims: there is a share of flaws, and still no yield.
    const flawed = accountOf({ ...none, board: 100, trims: 40, keepers: 60 });
    expect([flawed.yieldOfUsed, flawed.flawShare]).toEqual([0, 0.4]);
  });

  it('pays for a slice its share of a board, and for what stands in no stock nothing', () => {
    // Three slices of one board, two of them taken; the other board is twice as long.
    const long = { ...board('long'), outline: rectangle(16 * 304.8, 5.5 * 25.4) };
    const slices = [2, 4].map((copies) => ({ ...laid(copies, 'oak'), slices: 3 }));
    const [account] = materialAccount(
      {
        boards: [...slices, { ...laid(1, 'oak'), stock: 'lost' }],
        figures: { completeSets: 1 },
      } as unknown as Layout,
      [long, board('oak')],
    );
    expect(account.exactBoardFeet).toBeCloseTo((2 * 5.5 * 8) / 12, 9);
    expect(account.areas.board).toBe(700_000);
  });

  it('counts strips as shares of whole boards, in the tally too', () => {
    // Three strips of a board 5-1/2 in wide: strips of 1.75 in would be booked as 2 in each, and the cuts left out.
    const strips = cutInto({ strips: 3, lengths: 1 }, board('oak'), 3.175);
    const feet = (copies: number[]) => {
      const boards = copies.map((count) => ({ ...laid(count, 'oak'), strips: 3 }));
      const [account] = materialAccount({ boards, figures: { completeSets: 1 } } as unknown as Layout, [
        strips,
      ]);
      return [account.exactBoardFeet, account.tallyBoardFeet];
    };
    // Two of six strips: a third of two boards, of which one alone is booked half an inch up.
    expect(feet([1, 1])[0]).toBeCloseTo(((2 / 3) * 5.5 * 8) / 12, 9);
    expect(feet([1, 1])[1]).toBeCloseTo(((2 / 3) * 6 * 8) / 12, 9);
    expect(feet([2, 1, 3])[1]).toBeCloseTo(4 + (5 * 8) / 12, 9);
  });

  it('gives board feet exactly and by the tally rule', () => {
    const [oak, cherry] = accounts();
    // Exact 5.5 x 8 x 1 / 12; the tally books half an inch up, 6 x 8 / 12.
    expect(cherry.exactBoardFeet).toBeCloseTo((5.5 * 8) / 12, 9);
    expect(cherry.tallyBoardFeet).toBeCloseTo(4, 9);
    // Of two such boards one is booked up and one down.
    expect(oak.tallyBoardFeet).toBeCloseTo(4 + (5 * 8) / 12, 9);
  });
});
