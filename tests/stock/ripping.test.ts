import { describe, expect, it } from 'vitest';
import { ringArea } from '../../src/geometry/ring.ts';
import { boundsOf } from '../../src/geometry/shapes.ts';
import type { Board } from '../../src/model/stock.ts';
import { boardsIn, wholeBoard } from '../../src/model/whole-board.ts';
import {
  cutInto,
  mayBeInLengths,
  mayBeRipped,
  rippedAnew,
  sectionOfFullWidth,
  stripsToTurn,
  type WaysToLie,
} from '../../src/stock/ripping.ts';
import { unitName, unitsOf } from '../../src/stock/units.ts';
import { MM_PER_UNIT } from '../../src/units/length.ts';
import { box, rectangle } from '../rectangle.ts';

const inch = (value: number) => value * MM_PER_UNIT.in;
const sheet = (length: number, width: number): Board => ({
  id: 'Sheet',
  species: 'birch plywood',
  thickness: 6,
  outline: rectangle(inch(length), inch(width)),
  defects: [],
  quantity: 2,
  price: 45,
});
const rules = (throat: number | undefined, longest?: number) => ({
  reach: { throat: throat === undefined ? undefined : inch(throat), longest },
  kerf: inch(1 / 8),
  margin: 3,
});
const part = (along: number, across: number): WaysToLie => [[inch(along), inch(across)]];

describe('sections in the full width of a board', () => {
  // By hand, Pythagoras, 16 in throat: 12 in wide ones turn up to 10.583 in long. A quarter of the throat is 4 in: boards up
  // to the root of 240, 15.49 in, turn in lengths that are worth cutting.
  it('are as long as they turn, or as the board, or as can be handled', () => {
    const along = (length: number, width: number, longest?: number) => {
      const room = sectionOfFullWidth(sheet(length, width), rules(16, longest).reach);
      return room && [room.along / inch(1), room.across / inch(1)];
    };
    expect(along(60, 12)).toEqual([expect.closeTo(10.583, 3), expect.closeTo(12, 3)]);
    expect(along(8, 12)).toEqual([expect.closeTo(8, 3), expect.closeTo(12, 3)]);
    expect(along(60, 12, inch(9))).toEqual([expect.closeTo(9, 3), expect.closeTo(12, 3)]);
    expect(along(60, 15.49)).toEqual([expect.closeTo(4.009, 2), expect.closeTo(15.49, 3)]);
    expect([along(60, 15.5), along(60, 24)]).toEqual([undefined, undefined]);
    expect(sectionOfFullWidth(sheet(60, 24), rules(undefined).reach)).toEqual({
      along: expect.closeTo(inch(60), 6),
      across: expect.closeTo(inch(24), 6),
    });
  });
});

// By hand, Pythagoras, 16 in throat, 1/8 in cut, 60 in sheet: 4, 5, 6 and 7 strips are 14.91, 11.90, 9.90 and 8.46 in wide;
// their sections turn up to 5.82, 10.69, 12.58 and 13.58 in long: 87, 127, 124 and 115 square inches.
describe('stripsToTurn', () => {
  it('takes the strips with the largest sections', () => {
    expect(stripsToTurn(sheet(60, 60), [], [], rules(16))).toBe(5);
    expect(stripsToTurn(sheet(60, 60), [part(4, 3)], [], rules(16))).toBe(5);
  });

  it('takes those in whose sections most parts have room', () => {
    // 11.8 in along and a margin of 3 mm at either end: more than 10.69 in, less than 12.58 in.
    expect(stripsToTurn(sheet(60, 60), [part(11.8, 5.5), part(4, 3)], [], rules(16))).toBe(6);
    expect(stripsToTurn(sheet(60, 60), [part(13, 5.5), part(4, 3)], [], rules(16))).toBe(7);
    // A part that has room in none is no reason for narrow strips.
    expect(stripsToTurn(sheet(60, 60), [part(17, 5), part(4, 3)], [], rules(16))).toBe(5);
    const eitherWay: WaysToLie = [...part(13.2, 8), ...part(8, 11.5)];
    expect(stripsToTurn(sheet(60, 60), [eitherWay], [], rules(16))).toBe(5);
  });

  it('leaves a board that turns in lengths worth cutting, and one under a saw without a throat', () => {
    // 15.4 in wide in 16 in: sections of 4.34 in, more than a quarter of the throat; 15.6 in: of 3.55 in, less.
    expect(stripsToTurn(sheet(60, 15.4), [], [], rules(16))).toBe(1);
    expect(stripsToTurn(sheet(60, 15.6), [], [], rules(16))).toBe(2);
    expect(stripsToTurn(sheet(60, 60), [], [], rules(undefined, 300))).toBe(1);
  });

  it('rips a board that turns as it is only for parts that have room on no other, and in its strips', () => {
    // 11 in wide in 16 in: sections of 11.62 in; its two strips of 5.44 in: of 15.05 in.
    const long = part(12.5, 4);
    const short = part(4, 3);
    expect(stripsToTurn(sheet(72, 11), [long, short], [], rules(16))).toBe(1);
    expect(stripsToTurn(sheet(72, 11), [long, short], [long], rules(16))).toBe(2);
    expect(stripsToTurn(sheet(72, 11), [part(12.5, 6), short], [part(12.5, 6)], rules(16))).toBe(1);
    // What is gained must be more than what is lost: here one part each.
    expect(stripsToTurn(sheet(72, 11), [long, part(6, 8)], [long], rules(16))).toBe(1);
  });

  it('counts no length that the board does not have, or that is not handled', () => {
    // 6 in long: a strip of 14.91 in turns 5.82 in, one of 11.90 in the whole 6 in: 87 against 71 square inches.
    expect(stripsToTurn(sheet(6, 60), [], [], rules(16))).toBe(4);
    expect(stripsToTurn(sheet(60, 60), [], [], rules(16, inch(6)))).toBe(4);
  });
});

describe('cutInto', () => {
  it('shares out width and price, and counts the strips', () => {
    const strips = cutInto({ strips: 5, lengths: 1 }, sheet(60, 60), inch(1 / 8));
    const { maxY } = boundsOf(strips.outline);
    expect(5 * maxY + 4 * inch(1 / 8)).toBeCloseTo(inch(60), 3);
    expect(ringArea(strips.outline)).toBeCloseTo(inch(60) * maxY, 6);
    expect(strips).toMatchObject({ quantity: 10, price: 9, strips: 5 });
    expect(wholeBoard(strips)).toEqual({ ...sheet(60, 60), whole: undefined });
    expect(cutInto({ strips: 1, lengths: 1 }, sheet(60, 60), 3)).toEqual(sheet(60, 60));
    expect(
      cutInto({ strips: 2, lengths: 1 }, { ...sheet(60, 60), price: undefined }, 3).price,
    ).toBeUndefined();
  });

  it('shares out the length as well, and of strips', () => {
    const lengths = cutInto({ strips: 1, lengths: 4 }, sheet(60, 60), inch(1 / 8));
    const { maxX, maxY } = boundsOf(lengths.outline);
    expect(4 * maxX + 3 * inch(1 / 8)).toBeCloseTo(inch(60), 3);
    expect(maxY).toBe(inch(60));
    expect(lengths).toMatchObject({ quantity: 8, price: 11.25, lengths: 4 });
    expect(wholeBoard(lengths)).toEqual(sheet(60, 60));
    const both = cutInto({ strips: 5, lengths: 3 }, sheet(60, 60), inch(1 / 8));
    expect(both).toMatchObject({ quantity: 30, price: 3, strips: 5, lengths: 3 });
    expect(wholeBoard(both)).toEqual(sheet(60, 60));
    const taken = cutInto({ strips: 1, lengths: 4 }, { ...sheet(60, 60), takingCost: 8 }, 3);
    expect([taken.takingCost, wholeBoard(taken).takingCost]).toEqual([2, 8]);
    // Strips that are cut to length later are of the same board.
    const later = cutInto({ strips: 1, lengths: 3 }, cutInto({ strips: 5, lengths: 1 }, sheet(60, 60), 3), 3);
    expect(later).toMatchObject({ quantity: 30, strips: 5, lengths: 3 });
    expect(wholeBoard(later)).toEqual(sheet(60, 60));
    const byHand = wholeBoard({ ...sheet(20, 20), quantity: 12, price: 5, strips: 2, lengths: 3 });
    expect(byHand).toMatchObject({ quantity: 2, price: 30, outline: rectangle(inch(60), inch(40)) });
    expect(boardsIn({ copies: 3, strips: 2, lengths: 3 })).toBe(0.5);
  });

  it('is undone, to the cent and the cut', () => {
    const seven = wholeBoard(
      cutInto({ strips: 7, lengths: 1 }, { ...sheet(60, 60), price: 10 }, inch(1 / 8)),
    );
    expect([seven.price, seven.quantity, ringArea(seven.outline)]).toEqual([10, 2, inch(60) ** 2]);
    // Who writes strips by hand need not say what the board was: then it is the strips side by side.
    const byHand = wholeBoard({ ...sheet(60, 20), quantity: 6, price: 5, strips: 3 });
    expect(byHand).toMatchObject({ quantity: 2, price: 15, outline: rectangle(inch(60), inch(60)) });
    expect(wholeBoard({ ...sheet(60, 20), price: undefined, strips: 3 }).price).toBeUndefined();
    expect(boardsIn({ copies: 2, strips: 3, slices: 4 })).toBeCloseTo(1 / 6, 12);
    expect(boardsIn({ copies: 2 })).toBe(2);
  });

  it('is done anew with another number of strips, and a whole board counts what it did', () => {
    const five = cutInto({ strips: 5, lengths: 2 }, sheet(60, 60), inch(1 / 8));
    const six = cutInto({ strips: 6, lengths: 2 }, sheet(60, 60), inch(1 / 8));
    expect(rippedAnew(five, 6, inch(1 / 8))).toEqual(six);
    expect(rippedAnew({ ...five, takingCost: 6 }, 6, inch(1 / 8))).toEqual({ ...six, takingCost: 5 });
    expect(rippedAnew({ ...sheet(60, 60), takingCost: 6 }, 2, 3)).toMatchObject({ strips: 2, takingCost: 3 });
  });

  it('letters lengths from the left, strip by strip', () => {
    const blanks = cutInto({ strips: 2, lengths: 2 }, sheet(60, 40), 3);
    const names = unitsOf(blanks, undefined, new Set()).map((unit) => unitName(blanks, unit));
    expect(names.slice(0, 5)).toEqual(['Sheet-1a', 'Sheet-1b', 'Sheet-1c', 'Sheet-1d', 'Sheet-2a']);
  });

  it('names strips by their board and a letter', () => {
    const strips = cutInto({ strips: 3, lengths: 1 }, sheet(60, 40), 3);
    const names = unitsOf(strips, undefined, new Set(['Sheet-1b'])).map((unit) => unitName(strips, unit));
    expect(names).toEqual(['Sheet-1a', 'Sheet-1c', 'Sheet-2a', 'Sheet-2b', 'Sheet-2c']);
  });
});

describe('a board with trimmed ends', () => {
  const trim = { topEdge: 0, straightEdge: 0, leftEnd: inch(1), rightEnd: 0 };

  it('is ripped, and each strip trimmed; but not cut into lengths, for not all of them have an end of it', () => {
    const board = { ...sheet(60, 60), trim };
    expect(mayBeRipped(board)).toBe(true);
    expect(mayBeInLengths(board)).toBe(false);
    expect(mayBeInLengths({ ...board, trim: { ...trim, leftEnd: 0 } })).toBe(true);
    expect(cutInto({ strips: 3, lengths: 1 }, board, 3).trim).toEqual(trim);
  });

  it('is ripped for what is left of its length', () => {
    const rules = { reach: { throat: 400, longest: undefined }, kerf: 3, margin: 0 };
    const board = { ...sheet(0, 0), outline: rectangle(500, 760) };
    const strips = (leftEnd: number) => stripsToTurn({ ...board, trim: { ...trim, leftEnd } }, [], [], rules);
    // By Pythagoras a third, 251.3 mm, turns in 311 mm, and a half, 378.5 mm, in 129 mm: of 130 mm the half has more.
    expect([strips(0), strips(370)]).toEqual([3, 2]);
  });
});

describe('mayBeRipped', () => {
  it('is so of plain rectangles', () => {
    const board = sheet(60, 60);
    expect(mayBeRipped(board)).toBe(true);
    const trim = { topEdge: 0, straightEdge: 0, leftEnd: 0, rightEnd: 0 };
    expect(mayBeRipped({ ...board, trim: { ...trim, topEdge: 5 } })).toBe(false);
    expect(mayBeRipped({ ...board, trim: { ...trim, straightEdge: 'clean' } })).toBe(false);
    expect(mayBeRipped({ ...board, defects: [box(10, 10, 20, 20)] })).toBe(false);
    expect(mayBeRipped({ ...board, outline: [...rectangle(100, 50), [0, 25]] })).toBe(true);
    expect(mayBeRipped({ ...board, outline: [...rectangle(100, 50), [-3, 25]] })).toBe(false);
  });
});
