import { describe, expect, it } from 'vitest';
import type { Board } from '../../src/model/stock.ts';
import {
  boardFeetOf,
  boardFeetPaid,
  cubicMetresPaid,
  squareFeetOf,
  squareMetresOf,
  tallyBoardFeet,
} from '../../src/stock/lumber-measure.ts';
import { SHEET_SIZES } from '../../src/stock/sheet-sizes.ts';
import { MM_PER_UNIT } from '../../src/units/length.ts';
import { outsideCheck } from '../outside-check.ts';
import { rectangle } from '../rectangle.ts';

function board(inches: number, feet: number, thickness: number, more: Partial<Board> = {}): Board {
  const length = feet * MM_PER_UNIT.ft;
  const width = inches * MM_PER_UNIT.in;
  return {
    id: 'A',
    species: 'cherry',
    thickness: thickness * MM_PER_UNIT.in,
    outline: rectangle(length, width),
    defects: [],
    quantity: 1,
    price: undefined,
    ...more,
  };
}

describe('tally', () => {
  // Tally practice as dealers tell it: 5-1/4 in x 8-1/2 ft books as 5 x 8; 2-1/8 x 7-3/4 in x 8 ft 3 in has
  // 11.322 board feet by volume.
  it('books widths to the nearest inch and lengths to the foot below', () => {
    outsideCheck({
      what: 'Board feet of 5-1/4 in x 8-1/2 ft in a tally (booked as 5 x 8), and of 2-1/8 x 7-3/4 in x 8 ft 3 in',
      source: 'Tally practice as dealers tell it (common practice); 11.322 by volume',
      expected: [40 / 12, 11.322],
      found: [tallyBoardFeet([board(5.25, 8.5, 1)]), boardFeetOf(board(7.75, 8.25, 2.125))],
      tolerance: 5e-4,
    });
  });

  it('takes exact half inches alternately up and down', () => {
    expect(tallyBoardFeet([board(5.5, 12, 1), board(5.5, 12, 1)])).toBeCloseTo(6 + 5, 9);
  });

  it('takes halves in turn over all boards, two inches thick for twice as much, wherever they lie in their drawing', () => {
    const moved = board(5.5, 12, 1);
    const away = moved.outline.map(([x, y]) => [x + 700, y + 90] as const);
    expect(tallyBoardFeet([{ ...moved, quantity: 3, outline: away }])).toBeCloseTo(6 + 5 + 6, 9);
    expect(tallyBoardFeet([board(6, 12, 2)])).toBeCloseTo(12, 9);
    expect(tallyBoardFeet([board(48, 8, 1, { sheet: true }), board(6, 12, 1)])).toBeCloseTo(6, 9);
  });

  it('counts thin stock as an inch, and sheets not at all', () => {
    expect(tallyBoardFeet([board(6, 8, 0.5)])).toBeCloseTo(4, 9);
    expect(boardFeetPaid(board(6, 8, 0.5))).toBeCloseTo(4, 9);
    expect(boardFeetPaid(board(6, 8, 13 / 16, { nominal: 2 * MM_PER_UNIT.in }))).toBeCloseTo(8, 9);
    expect(boardFeetOf(board(6, 8, 0.5))).toBeCloseTo(2, 9);
    expect(boardFeetOf(board(48, 8, 0.5, { sheet: true }))).toBe(0);
    expect(squareFeetOf(board(48, 8, 0.5, { sheet: true }))).toBeCloseTo(32, 9);
  });
});

it('pays for metres of what is sold, thin stock as it is', () => {
  const metric = { ...board(1, 1, 1), thickness: 13, outline: rectangle(2500, 200) };
  expect(cubicMetresPaid(metric)).toBeCloseTo(0.0065, 12);
  expect(cubicMetresPaid({ ...metric, nominal: 2 * MM_PER_UNIT.in })).toBeCloseTo(0.0254, 12);
  expect(cubicMetresPaid({ ...metric, sheet: true })).toBeCloseTo(0.0065, 12);
  expect(squareMetresOf(metric)).toBeCloseTo(0.5, 12);
});

describe('sheet sizes', () => {
  // Dealers' lists of Baltic birch: the "5x5" sheet is 1525 mm, 60.04 in, square.
  it('has the 5x5 sheet 60.04 in square', () => {
    outsideCheck({
      what: 'Sides of the 5x5 sheet of Baltic birch, in',
      source: "Dealers' lists: 1525 mm, 60.04 in",
      expected: [60.04, 60.04],
      found: SHEET_SIZES['5x5'].map((side) => side / MM_PER_UNIT.in),
      tolerance: 5e-3,
    });
    expect(SHEET_SIZES['4x8']).toEqual([2440, 1220]);
  });
});
