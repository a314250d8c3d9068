import { describe, expect, it } from 'vitest';
import { regionsArea } from '../../src/geometry/ring.ts';
import { type Box, boundsOf, boxesOverlap, boxRing, type Region } from '../../src/geometry/shapes.ts';
import { boxRegion, outside, within } from '../../src/stock/box-clipping.ts';
import { seeded } from '../seeded.ts';

const box = (minX: number, minY: number, maxX: number, maxY: number): Box => ({ minX, minY, maxX, maxY });
const areaOf = ({ minX, minY, maxX, maxY }: Box) => Math.max(0, maxX - minX) * Math.max(0, maxY - minY);

/** What two boxes share: its area comes from the coordinates alone, without any clipping. */
const shared = (a: Box, b: Box) =>
  box(Math.max(a.minX, b.minX), Math.max(a.minY, b.minY), Math.min(a.maxX, b.maxX), Math.min(a.maxY, b.maxY));

/** Every opening lies in the box of its own piece: areas alone would not tell. */
function expectTidy(pieces: readonly Region[]): void {
  for (const { outline, openings } of pieces) {
    const piece = boundsOf(outline);
    for (const opening of openings)
      expect(areaOf(shared(boundsOf(opening), piece))).toBe(areaOf(boundsOf(opening)));
  }
}

/** A board 40 x 20 with an opening in each of its eight fields of 10 x 10, none of which touches another. */
function pierced(random: () => number): { wood: Region; openings: Box[] } {
  const openings = Array.from({ length: 8 }, (_, i) => {
    const [x, y] = [10 * (i % 4) + 1, 10 * Math.floor(i / 4) + 1];
    return box(x, y, x + 1 + Math.floor(7 * random()), y + 1 + Math.floor(7 * random()));
  });
  return { wood: { outline: boxRing(box(0, 0, 40, 20)), openings: openings.map(boxRing) }, openings };
}

describe('wood cut by a box', () => {
  it('is what lies in it, and what lies beside it the rest: areas by the coordinates, over random boards', () => {
    const random = seeded(3);
    const whole = (most: number) => Math.floor(most * random());
    for (let round = 0; round < 60; round++) {
      const { wood, openings } = pierced(random);
      const cut = box(whole(24) - 4, whole(14) - 4, 0, 0);
      const by = { ...cut, maxX: cut.minX + 1 + whole(30), maxY: cut.minY + 1 + whole(18) };
      const held = within([wood], by);
      const inBox = openings.reduce(
        (area, opening) => area - areaOf(shared(opening, by)),
        areaOf(shared(boundsOf(wood.outline), by)),
      );
      expect(regionsArea(held)).toBeCloseTo(inBox, 6);
      const total = 800 - openings.reduce((area, opening) => area + areaOf(opening), 0);
      const left = outside([wood], [by]);
      expect(regionsArea(left)).toBeCloseTo(total - inBox, 6);
      expectTidy(held);
      expectTidy(left);
      for (const { outline } of held) expect(areaOf(shared(boundsOf(outline), by))).toBeGreaterThan(0);
    }
  });

  it('is left as it is where the box holds it, and left out where they share an edge at most', () => {
    const wood = boxRegion(box(10, 10, 30, 20));
    expect(within([wood], box(10, 10, 30, 20))[0]).toBe(wood);
    expect(within([wood], box(0, 0, 99, 99))[0]).toBe(wood);
    for (const beside of [box(30, 0, 50, 50), box(0, 0, 10, 50), box(0, 20, 50, 40), box(0, 0, 50, 10)])
      expect(within([wood], beside)).toEqual([]);
  });

  it('keeps an opening on its own side of a cut that parts the wood', () => {
    // A board with a notch from below, 10 wide: a box over its lower half cuts two legs off, a hole in each.
    const legs: Region = {
      outline: [
        [0, 0],
        [50, 0],
        [50, 40],
        [30, 40],
        [30, 10],
        [20, 10],
        [20, 40],
        [0, 40],
      ],
      openings: [boxRing(box(5, 25, 8, 30)), boxRing(box(40, 25, 46, 30))],
    };
    const pieces = within([legs], box(-5, 20, 55, 45)).sort(
      (a, b) => boundsOf(a.outline).minX - boundsOf(b.outline).minX,
    );
    expect(pieces.map(({ outline }) => boundsOf(outline))).toEqual([box(0, 20, 20, 40), box(30, 20, 50, 40)]);
    expect(pieces.map(({ openings }) => openings.map(boundsOf))).toEqual([
      [box(5, 25, 8, 30)],
      [box(40, 25, 46, 30)],
    ]);
  });

  it('is notched by an opening that a side of the box runs along', () => {
    const wood: Region = { outline: boxRing(box(0, 0, 40, 40)), openings: [boxRing(box(10, 10, 30, 30))] };
    for (const by of [box(10, 0, 40, 40), box(0, 10, 40, 40), box(0, 0, 30, 40), box(0, 0, 40, 30)]) {
      const pieces = within([wood], by);
      expect(pieces).toHaveLength(1);
      expect(pieces[0].openings).toEqual([]);
      expect(regionsArea(pieces)).toBeCloseTo(30 * 40 - 400, 6);
    }
  });

  it('beside several boxes is what none of them holds, openings with it', () => {
    const wood: Region = { outline: boxRing(box(0, 0, 100, 20)), openings: [boxRing(box(45, 5, 55, 15))] };
    const left = outside([wood, boxRegion(box(70, 30, 80, 40))], [box(0, 0, 30, 20), box(60, 0, 100, 50)]);
    expect(left.map(({ outline }) => boundsOf(outline))).toEqual([box(30, 0, 60, 20)]);
    expect(left[0].openings.map(boundsOf)).toEqual([box(45, 5, 55, 15)]);
    expect(outside([wood], [box(0, 0, 100, 20)])).toEqual([]);
    expect(regionsArea(outside([wood], []))).toBeCloseTo(1900, 6);
  });

  // Both pieces of a board with a notch: the openings touch their sides with the vertex they begin at.
  it('keeps openings that touch its outline, where it falls into pieces', () => {
    const outline = [
      ...[[0, 0] as const, [40, 0] as const, [40, 20] as const, [30, 20] as const, [30, 5] as const],
      ...[[10, 5] as const, [10, 20] as const, [0, 20] as const],
    ];
    const openings = [
      [[10, 12] as const, [6, 15] as const, [6, 9] as const],
      [[30, 12] as const, [34, 9] as const, [34, 15] as const],
    ];
    expect(regionsArea(within([{ outline, openings }], box(-1, 6, 41, 20)))).toBeCloseTo(20 * 14 - 2 * 12, 6);
  });
});

describe('boxesOverlap', () => {
  it('is true of boxes that share more than an edge, either way round', () => {
    const a = box(0, 0, 10, 10);
    for (const b of [box(9, 9, 20, 20), box(-5, -5, 1, 1), box(2, 2, 3, 3), box(-1, 4, 11, 5)]) {
      expect([boxesOverlap(a, b), boxesOverlap(b, a)]).toEqual([true, true]);
    }
    for (const b of [box(10, 0, 20, 10), box(0, 10, 10, 20), box(11, 2, 12, 3), box(2, 11, 3, 12)]) {
      expect([boxesOverlap(a, b), boxesOverlap(b, a)]).toEqual([false, false]);
    }
  });
});
