import { describe, expect, it } from 'vitest';
import { coveredArea } from '../../src/geometry/area-check.ts';
import { FARTHEST_MM, fromGrid, snapRing, toGrid } from '../../src/geometry/integer-grid.ts';
import type { Ring } from '../../src/geometry/shapes.ts';
import { simplifyRegion, simplifyRing } from '../../src/geometry/simplify-ring.ts';
import { FretlayError } from '../../src/issues/fretlay-error.ts';

const square = (x: number, y: number, side: number): Ring => [
  [x, y],
  [x + side, y],
  [x + side, y + side],
  [x, y + side],
];

describe('the integer grid', () => {
  it('has ten thousand units to the millimetre', () => {
    expect(toGrid(1.23456)).toBe(12_346);
    expect(toGrid(-1.23456)).toBe(-12_346);
    expect(fromGrid(12_346)).toBe(1.2346);
  });

  it('reaches a hundred metres and refuses what lies beyond, or is no number', () => {
    expect(toGrid(FARTHEST_MM)).toBe(1e9);
    expect(toGrid(-FARTHEST_MM)).toBe(-1e9);
    for (const wrong of [FARTHEST_MM + 1, -FARTHEST_MM - 1, Number.NaN, Infinity]) {
      let issues: unknown;
      try {
        toGrid(wrong);
      } catch (error) {
        issues = error instanceof FretlayError ? error.issues : error;
      }
      expect(issues).toEqual([
        {
          kind: 'coordinate-out-of-range',
          severity: 'error',
          message: 'a coordinate is outside the range the geometry is exact in',
          expected: 'a number between -100000 and 100000 mm',
          received: `${wrong}`,
          remedy: 'Check the scale of the drawing.',
        },
      ]);
    }
  });

  it('drops points of a ring that fall on their neighbour, the closing one too', () => {
    expect(
      snapRing([
        [0, 0],
        [0.00004, 0],
        [1, 0],
        [1, 0.00006],
        [1, 1],
        [0.00001, -0.00001],
        [0, 0],
      ]),
    ).toEqual([
      [0, 0],
      [1, 0],
      [1, 0.0001],
      [1, 1],
    ]);
    expect(
      snapRing([
        [2, 2],
        [2, 2],
      ]),
    ).toEqual([[2, 2]]);
    expect(snapRing([])).toEqual([]);
  });
});

describe('coveredArea', () => {
  it('counts overlaps once, openings not at all, and says how much overlaps', () => {
    const one = { outline: square(0, 0, 10), openings: [square(1, 1, 2)] };
    const other = { outline: square(5, 5, 10), openings: [] };
    expect(coveredArea([one])).toEqual({ area: 96, overlap: 0 });
    expect(coveredArea([one, other])).toEqual({ area: 96 + 100 - 25, overlap: 25 });
    expect(coveredArea([one, { outline: square(20, 0, 1), openings: [] }]).overlap).toBe(0);
    expect(coveredArea([])).toEqual({ area: 0, overlap: 0 });
  });
});

describe('simplifyRing', () => {
  /** A square of 10 with a bump of `height` in the middle of its first side. */
  const bumped = (height: number): Ring => [
    [0, 0],
    [5, -height],
    [10, 0],
    [10, 10],
    [0, 10],
  ];

  it('leaves out what lies within the tolerance, and nothing else', () => {
    expect(simplifyRing(bumped(0.4), 0.5)).toEqual(square(0, 0, 10));
    expect(simplifyRing(bumped(0.6), 0.5)).toEqual(bumped(0.6));
    expect(simplifyRing(bumped(0.4), 0)).toEqual(bumped(0.4));
  });

  it('keeps a ring of four points, and one that would vanish', () => {
    expect(simplifyRing(square(0, 0, 1), 5)).toEqual(square(0, 0, 1));
    expect(simplifyRing(bumped(0.4), 50)).toEqual(bumped(0.4));
  });

  it('does so for every ring of a region', () => {
    const inner = bumped(0.4).map(([x, y]) => [20 + x, 20 + y] as const);
    expect(simplifyRegion({ outline: bumped(0.4), openings: [inner] }, 0.5)).toEqual({
      outline: square(0, 0, 10),
      openings: [square(20, 20, 10)],
    });
  });
});
