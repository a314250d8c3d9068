import { describe, expect, it } from 'vitest';
import type { Ring } from '../../src/geometry/shapes.ts';
import { isLevelAt, isStraightAbove } from '../../src/stock/sound-edges.ts';

describe('the top edge of a board', () => {
  it('is straight where it is said to be, ripped off by the trim, or that of a whole sheet', () => {
    expect(isStraightAbove({})).toBe(false);
    expect(isStraightAbove({ sheet: true })).toBe(true);
    expect(isStraightAbove({ straightTopEdge: true })).toBe(true);
    expect(isStraightAbove({ trim: { topEdge: 5, straightEdge: 0, leftEnd: 0, rightEnd: 0 } })).toBe(true);
    expect(isStraightAbove({ trim: { topEdge: 0, straightEdge: 5, leftEnd: 5, rightEnd: 5 } })).toBe(false);
  });

  it('of a keeper of a sheet may be the side of a cut, and is what is said of it', () => {
    expect(isStraightAbove({ sheet: true, keeper: true })).toBe(false);
    expect(isStraightAbove({ sheet: true, keeper: true, straightTopEdge: true })).toBe(true);
    expect(isStraightAbove({ keeper: true })).toBe(false);
    expect(isStraightAbove({ sheet: true, straightTopEdge: false })).toBe(false);
  });
});

describe('an edge', () => {
  /** A board of 1000 x 100 mm whose lower edge rises by 20 mm up to a place, and is level from there on. */
  const rising = (until: number): Ring => [
    [0, 0],
    [1000, 0],
    [1000, 100],
    [until, 100],
    [0, 80],
  ];

  it('is level where it is so over half of its length', () => {
    expect([400, 500, 501, 1000].map((until) => isLevelAt(rising(until), 100))).toEqual([
      true,
      true,
      false,
      false,
    ]);
    expect(isLevelAt(rising(1000), 0)).toBe(true);
  });

  it('is looked at between two places alone: 300 of 700 mm, 400 of 800, 400 of 500', () => {
    const level = (from: number, to: number) => isLevelAt(rising(400), 100, [from, to]);
    expect([level(0, 700), level(0, 800), level(400, 800), level(0, 300)]).toEqual([
      false,
      true,
      true,
      false,
    ]);
  });

  it('of a board with a notch is level in its pieces together', () => {
    const notched = (width: number): Ring => [
      [0, 0],
      [1000, 0],
      [1000, 100],
      [300 + width, 100],
      [300 + width, 60],
      [300, 60],
      [300, 100],
      [0, 100],
    ];
    expect([499, 501].map((width) => isLevelAt(notched(width), 100))).toEqual([true, false]);
  });
});
