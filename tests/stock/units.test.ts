import { describe, expect, it } from 'vitest';
import type { Board } from '../../src/model/stock.ts';
import { pilesOf, unitName, unitsOf } from '../../src/stock/units.ts';
import { usableOf } from '../../src/stock/usable.ts';

const rectangle = (x: number, y: number, width: number, height: number) =>
  [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ] as const;
const oak: Board = {
  id: 'Oak',
  species: 'red oak',
  thickness: 20,
  outline: rectangle(0, 0, 600, 150),
  defects: [],
  quantity: 3,
  price: undefined,
};
const names = (slices: number | undefined, taken: readonly string[] = [], board = oak) =>
  unitsOf(board, slices, new Set(taken)).map((unit) => unitName(board, unit));

describe('the single boards of an entry', () => {
  it('are numbered, and their slices lettered', () => {
    expect(names(undefined)).toEqual(['Oak-1', 'Oak-2', 'Oak-3']);
    expect(names(2)).toEqual(['Oak-1a', 'Oak-1b', 'Oak-2a', 'Oak-2b', 'Oak-3a', 'Oak-3b']);
    expect(unitName(oak, { number: 1, slice: 26 })).toBe('Oak-1z');
    expect(unitName(oak, { number: 1, slice: 27 })).toBe('Oak-1s27');
  });

  it('are those that no one has taken', () => {
    expect(names(undefined, ['Oak-2'])).toEqual(['Oak-1', 'Oak-3']);
    expect(names(2, ['Oak-1', 'Oak-3'])).toEqual(['Oak-2a', 'Oak-2b']);
    // A board of which a slice is taken is cut up already.
    expect(names(undefined, ['Oak-1', 'Oak-2', 'Oak-3'])).toEqual([]);
  });

  it('are whole ones, and no more than a problem looks at', () => {
    expect(names(undefined, [], { ...oak, quantity: 1.5 })).toEqual(['Oak-1']);
    expect(names(undefined, [], { ...oak, quantity: 500 })).toHaveLength(60);
    const crowd = { ...oak, quantity: 500 };
    expect(unitsOf(crowd, undefined, new Set(), new Set(), 80.5)).toHaveLength(81);
    expect(unitsOf(crowd, undefined, new Set(), new Set(), 400)).toHaveLength(300);
    // Ten boards of twenty strips each are all looked at.
    expect(names(undefined, [], { ...oak, strips: 20, quantity: 200 })).toHaveLength(200);
  });

  it('come in full piles for sawing together', () => {
    const units = unitsOf({ ...oak, quantity: 5 }, undefined, new Set());
    expect(pilesOf(units, 2).map((pile) => pile.map(({ number }) => number))).toEqual([
      [1, 2],
      [3, 4],
    ]);
    expect(pilesOf(units, 6)).toEqual([]);
  });
});

describe('what may be used of a board', () => {
  it('is its outline less its defects, as openings or bites', () => {
    expect(usableOf(oak)).toEqual({ outline: oak.outline, openings: [] });
    const knot = rectangle(100, 50, 20, 20);
    const usable = usableOf({ ...oak, defects: [knot] });
    expect(usable.openings).toHaveLength(1);
    expect(usable.outline).toHaveLength(4);
    const bitten = usableOf({ ...oak, defects: [rectangle(100, -10, 20, 30)] });
    expect(bitten.openings).toEqual([]);
    expect(bitten.outline).toHaveLength(8);
  });

  it('is the largest piece when defects part the board', () => {
    const split = rectangle(200, -10, 20, 200);
    const { outline } = usableOf({ ...oak, defects: [split] });
    const xs = outline.map(([x]) => x);
    expect([Math.min(...xs), Math.max(...xs)]).toEqual([220, 600]);
  });
});
