import { describe, expect, it } from 'vitest';
import { type Box, boundsOf, boxRing, type Line } from '../../src/geometry/shapes.ts';
import type { LaidBoard, Offcut } from '../../src/model/layout.ts';
import { isAcrossSections } from '../../src/nesting/verify/over-sections.ts';
import { handBoard, placed } from '../sheet/hand-layout.ts';
import { rip, SECTIONS } from '../sheet/hand-sections.ts';

const box = (minX: number, minY: number, maxX: number, maxY: number): Box => ({ minX, minY, maxX, maxY });

function keeper(rectangle: Box, ...lines: Line[]): Offcut {
  const region = { outline: boxRing(rectangle), openings: [] };
  return { id: `maple-1 keeper ${boundsOf(region.outline).minY}`, region, rectangle, area: 1, lines };
}

/** A board of 300 x 120 mm in three sections, with a part in the lower half of each. */
const parts = [10, 110, 210].map((x) =>
  placed({ region: { outline: boxRing(box(x, 60, x + 80, 119)), openings: [] } }),
);

function isAcross(offcuts: readonly Offcut[], change: Partial<LaidBoard> = {}): boolean[] {
  const board = handBoard({ sections: SECTIONS, placements: parts, offcuts, ...change });
  return offcuts.map((offcut) => isAcrossSections(board, offcut));
}

describe('a keeper over several sections', () => {
  const whole = keeper(box(0, 0, 300, 29), rip(30, 0, 300));

  it('is freed by a rip from end to end of them', () => {
    expect(isAcross([whole])).toEqual([false]);
    expect(isAcross([keeper(box(0, 0, 199, 29), rip(30, 0, 199))])).toEqual([false]);
    // Two rips one below the other, the second of them shorter.
    const below = keeper(box(0, 31, 199, 49), rip(30, 0, 300), rip(50, 0, 199));
    expect(isAcross([whole, below])).toEqual([false, false]);
    // In one section, with cuts of its own below a strip.
    const own = keeper(box(0, 31, 99, 49), rip(30, 0, 300), rip(50, 0, 99));
    expect(isAcross([whole, own])).toEqual([false, false]);
    expect(isAcross([keeper(box(0, 0, 300, 29))], { sections: [] })).toEqual([false]);
  });

  it('is freed by a rip without a width, to the rounding of its edge', () => {
    expect(isAcross([keeper(box(0, 0, 300, 30), rip(29.99995, 0, 300))])).toEqual([false]);
    const below = keeper(box(0, 30, 300, 50), rip(30.00005, 0, 300), rip(50, 0, 300));
    expect(isAcross([below])).toEqual([false]);
  });

  it('is none without such a rip, with one that ends within a section, that slopes, or that frees another piece', () => {
    const wrong: readonly (readonly Line[])[] = [
      [],
      [rip(30, 0, 250)],
      [rip(30, 50, 300)],
      [rip(30, 0, 99), rip(30, 101, 300)],
      [
        [
          [0, 30],
          [300, 31],
        ],
      ],
      // An end of it is narrower, by a second rip that does not go all along it.
      [rip(30, 0, 300), rip(15, 0, 199)],
      [rip(30, 0, 300), rip(15, 0, 99)],
      // Sawn lengthwise through the keeper, it is above no rip and below none.
      [rip(15, 0, 300)],
    ];
    expect(wrong.flatMap((lines) => isAcross([keeper(box(0, 0, 300, 29), ...lines)]))).toEqual(
      wrong.map(() => true),
    );
    // Over a section that its rip does not reach.
    expect(isAcross([keeper(box(0, 0, 300, 29), rip(30, 0, 199))])).toEqual([true]);
  });

  it('is none beyond what a crack parts from the sections, with the cut beside the crack', () => {
    const usable = { outline: boxRing(box(0, 0, 300, 120)), openings: [] };
    const outline = boxRing(box(0, 0, 500, 120));
    const across = (x: number): Line => [
      [x, 0],
      [x, 120],
    ];
    const beyond = keeper(box(303, 0, 500, 120), across(301.5));
    const over = keeper(box(290, 0, 500, 20), across(301.5));
    expect(isAcross([beyond], { usable, outline })).toEqual([false]);
    expect(isAcross([over], { usable, outline })).toEqual([true]);
  });

  it('is none where the strip it lies in holds a part: that would be cross-cut with it', () => {
    const strip = keeper(box(0, 0, 199, 29), rip(30, 0, 300));
    const high = placed({ region: { outline: boxRing(box(210, 5, 290, 25)), openings: [] } });
    expect(isAcross([strip])).toEqual([false]);
    expect(isAcross([strip], { placements: [...parts, high] })).toEqual([true]);
  });

  it('is none where no order of the cuts frees it with another: each rip would be cross-cut for the other', () => {
    const left = keeper(box(0, 0, 199, 29), rip(30, 0, 199));
    const right = keeper(box(101, 31, 300, 49), rip(30, 0, 199), rip(50, 101, 300));
    expect(isAcross([left, right])).toEqual([true, true]);
  });
});
