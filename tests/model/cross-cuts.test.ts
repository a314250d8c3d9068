import { describe, expect, it } from 'vitest';
import type { Line } from '../../src/geometry/shapes.ts';
import {
  crossCutLines,
  crossCuts,
  halfCutBetween,
  ripsBeside,
  stripBetween,
} from '../../src/model/cross-cuts.ts';
import { box } from '../rectangle.ts';

const usableTo = (maxX: number) => ({ outline: box(0, 0, maxX, 150), openings: [] });
const sections = [
  { from: 0, to: 300 },
  { from: 303, to: 600 },
];

describe('cross-cuts', () => {
  it('lie in the middle of what they take, and after the last section where a little wood is left', () => {
    expect(crossCuts({ sections, usable: usableTo(600) })).toEqual([301.5]);
    expect(crossCuts({ sections, usable: usableTo(602) })).toEqual([301.5, 601]);
    // A hundredth of a millimetre is rounding.
    expect(crossCuts({ sections, usable: usableTo(600.01) })).toEqual([301.5]);
    expect(crossCuts({ usable: usableTo(600) })).toEqual([]);
    expect(halfCutBetween(sections)).toBe(1.5);
  });

  it('end at a strip that is ripped off before, with the middle of the rip', () => {
    // A keeper over both sections, 50 mm wide along the upper edge; the rip takes 3 mm.
    const rip: Line = [
      [0, 51.5],
      [600, 51.5],
    ];
    const rectangle = { minX: 0, minY: 0, maxX: 600, maxY: 50 };
    const region = { outline: box(0, 0, 600, 50), openings: [] };
    const keeper = { id: 'A-1 keeper 1', region, rectangle, area: 30_000, lines: [rip] };
    expect(crossCutLines({ sections, usable: usableTo(600), offcuts: [keeper] })).toEqual([
      [
        [301.5, 51.5],
        [301.5, 150],
      ],
    ]);
    expect(crossCutLines({ sections, usable: usableTo(600) })).toEqual([
      [
        [301.5, 0],
        [301.5, 150],
      ],
    ]);
  });
});

describe('rips beside a keeper', () => {
  const keeper = { minX: 10, minY: 60, maxX: 500, maxY: 100 };
  const edges = { minX: 0, minY: 0, maxX: 600, maxY: 150 };
  const rip = (y: number, minX = 0, maxX = 600) => ({ minX, maxX, minY: y, maxY: y });

  it('lie above or below it, on its edges too, as rips without a width do', () => {
    const sides = (y: number) => {
      const { above, below } = ripsBeside([rip(y)], keeper);
      return [above.length, below.length];
    };
    expect([58.4, 60, 100, 101.6].map(sides)).toEqual([
      [1, 0],
      [1, 0],
      [0, 1],
      [0, 1],
    ]);
    // By rounding, a ten-thousandth of a millimetre; not by a tenth.
    expect([60.0001, 99.9999, 60.1, 99.9].map(sides)).toEqual([
      [1, 0],
      [0, 1],
      [0, 0],
      [0, 0],
    ]);
  });

  it('part a strip off between them, to the edges of the board without one', () => {
    expect(stripBetween([rip(58.4)], keeper, edges)).toEqual({ ...edges, minY: 58.4 });
    expect(stripBetween([rip(58.4, 5, 550), rip(101.6)], keeper, edges)).toEqual({
      ...{ minX: 5, maxX: 550, minY: 58.4, maxY: 101.6 },
    });
    expect(stripBetween([rip(40), rip(58.4)], keeper, edges).minY).toBe(58.4);
    expect(stripBetween([rip(120), rip(101.6)], keeper, edges).maxY).toBe(101.6);
  });
});
