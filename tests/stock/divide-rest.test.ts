import { describe, expect, it } from 'vitest';
import { coveredArea } from '../../src/geometry/area-check.ts';
import { combineRegions } from '../../src/geometry/clipper.ts';
import { regionsArea } from '../../src/geometry/ring.ts';
import { type Box, boundsOf, boxesOverlap, type Line } from '../../src/geometry/shapes.ts';
import { boxRegion } from '../../src/stock/box-clipping.ts';
import { type BoardPartingRules, divideRest } from '../../src/stock/divide-rest.ts';
import type { Remains } from '../../src/stock/offcuts.ts';
import { seeded } from '../seeded.ts';

const box = (minX: number, minY: number, maxX: number, maxY: number): Box => ({ minX, minY, maxX, maxY });
const rip = (y: number, from: number, to: number): Line => [
  [from, y],
  [to, y],
];
const RULES: BoardPartingRules = { keep: { length: 100, width: 30 }, kerf: 3, isStraight: () => true };

/** Three sections of a board of 900 mm, 3 mm apart. */
const ENDS = [
  [0, 298],
  [301, 598],
  [601, 900],
] as const;

function divided(parts: readonly Box[], width: number, change: Partial<BoardPartingRules> = {}): Remains {
  const wood = combineRegions('difference', [boxRegion(box(0, 0, 900, width))], parts.map(boxRegion));
  const cells = ENDS.map(([from, to]) => box(from, 0, to, width));
  return divideRest(wood, parts, cells, { ...RULES, ...change });
}

const keptBy = ({ keepers }: Remains) => keepers.map(({ rectangle, lines }) => ({ rectangle, lines }));

describe('a strip that is free along several sections', () => {
  const low = ENDS.map(([from, to]) => box(from + 5, 60, to - 5, 95));

  it('is ripped off in one before they are parted', () => {
    const remains = divided(low, 100);
    expect(keptBy(remains)).toEqual([{ rectangle: box(0, 0, 900, 57), lines: [rip(58.5, 0, 900)] }]);
    // By hand: the rip all along, and what is left of the two cross-cuts below it.
    expect(regionsArea(remains.kerf)).toBeCloseTo(3 * 900 + 2 * 3 * 40, 3);
    expect(remains.scrap).toBeCloseTo((298 + 297 + 299) * 40 - (288 + 287 + 289) * 35, 3);
  });

  it('is cross-cut with them where the board has no straight edge to rip it along', () => {
    const remains = divided(low, 100, { isStraight: () => false });
    expect(keptBy(remains)).toEqual(
      ENDS.map(([from, to]) => ({ rectangle: box(from, 0, to, 57), lines: [rip(58.5, from, to)] })),
    );
  });

  it('is ripped off where the board has a straight edge beside it', () => {
    const remains = divided(low, 100, { isStraight: (_, to) => to < 600 });
    expect(keptBy(remains).map(({ rectangle }) => rectangle)).toEqual([
      box(0, 0, 598, 57),
      box(601, 0, 900, 57),
    ]);
  });

  it('goes as far as it is free: a tall part ends it', () => {
    const remains = divided([low[0], low[1], box(610, 20, 890, 95)], 100);
    expect(keptBy(remains)).toEqual([{ rectangle: box(0, 0, 598, 57), lines: [rip(58.5, 0, 598)] }]);
    const before = divided([box(10, 20, 290, 95), low[1], low[2]], 100);
    expect(keptBy(before)).toEqual([{ rectangle: box(301, 0, 900, 57), lines: [rip(58.5, 301, 900)] }]);
  });

  it('is taken from between two rows by two rips, and one above by a third', () => {
    const rows = ENDS.flatMap(([from, to]) => [
      box(from + 5, 34, to - 5, 60),
      box(from + 5, 140, to - 5, 195),
    ]);
    const remains = divided(rows, 200);
    const rips = [61.5, 138.5].map((y) => rip(y, 0, 900));
    expect(keptBy(remains)).toEqual([
      { rectangle: box(0, 63, 900, 137), lines: rips },
      { rectangle: box(0, 0, 900, 31), lines: [...rips, rip(32.5, 0, 900)] },
    ]);
  });

  it('is ripped off above another all along it or not at all: the straight edge is gone by then', () => {
    const rows = ENDS.flatMap(([from, to], i) => [
      box(from + 5, i === 2 ? 10 : 50, to - 5, 60),
      box(from + 5, 140, to - 5, i === 0 ? 190 : 150),
    ]);
    const remains = divided(rows, 200);
    // Below it that edge is left.
    expect(keptBy(remains).map(({ rectangle }) => rectangle)).toEqual([
      box(0, 63, 900, 137),
      box(0, 0, 298, 47),
      box(301, 0, 598, 47),
      box(301, 153, 900, 200),
    ]);
  });

  it('leaves what is free below it in single sections to those', () => {
    const remains = divided([low[0], box(310, 60, 590, 65), low[2]], 100);
    expect(keptBy(remains)).toEqual([
      { rectangle: box(0, 0, 900, 57), lines: [rip(58.5, 0, 900)] },
      { rectangle: box(301, 68, 598, 100), lines: [rip(58.5, 0, 900), rip(66.5, 301, 598)] },
    ]);
  });

  it('is not ripped off where more than a tenth of what is kept would be lost for it', () => {
    const keep = { length: 100, width: 33 };
    const uneven = (top: number) =>
      divided([box(5, top, 293, 195), box(306, 36, 593, 195), box(606, top, 895, 195)], 200, { keep });
    const strip = box(0, 0, 900, 33);
    // Of 97 mm that are free beside it 61 are left, of 63 mm 27, which is too narrow to keep.
    expect(keptBy(uneven(100)).map(({ rectangle }) => rectangle)).toEqual([
      strip,
      box(0, 36, 298, 97),
      box(601, 36, 900, 97),
    ]);
    expect(keptBy(uneven(66)).map(({ rectangle }) => rectangle)).toEqual([
      box(0, 0, 298, 63),
      box(301, 0, 598, 33),
      box(601, 0, 900, 63),
    ]);
  });

  it('is looked for beside carrying sections alone: an empty one is kept at its full width', () => {
    const remains = divided([low[0], low[1]], 100);
    expect(keptBy(remains).map(({ rectangle }) => rectangle)).toEqual([
      box(0, 0, 598, 57),
      box(601, 0, 900, 100),
    ]);
  });

  it('goes on along an empty section that is too short to be kept', () => {
    const keep = { length: 310, width: 30 };
    const whole = [{ rectangle: box(0, 0, 900, 57), lines: [rip(58.5, 0, 900)] }];
    expect(keptBy(divided([low[0], low[1]], 100, { keep }))).toEqual(whole);
    expect(keptBy(divided([low[1], low[2]], 100, { keep }))).toEqual(whole);
    // Two empty ones, with no part to rip along beside them.
    expect(keptBy(divided([box(10, 5, 290, 95)], 100, { keep }))).toEqual([]);
  });
});

describe('a board with sections', () => {
  it('is divided without loss, and no cut goes through a part or a keeper, with random parts', () => {
    const random = seeded(41);
    const whole = (most: number) => Math.floor(most * random());
    let long = 0;
    for (let round = 0; round < 12; round++) {
      const parts = ENDS.flatMap(([from, to]) =>
        Array.from({ length: 1 + whole(2) }, () => {
          const [x, y] = [from + 4 + whole(200), 40 + whole(100)];
          return box(x, y, Math.min(to - 4, x + 40 + whole(200)), Math.min(196, y + 10 + whole(60)));
        }),
      );
      const remains = divided(parts, 200);
      const all = [...remains.keepers.map(({ region }) => region), ...remains.kerf];
      const wood = combineRegions('difference', [boxRegion(box(0, 0, 900, 200))], parts.map(boxRegion));
      expect(regionsArea(all) + remains.scrap).toBeCloseTo(regionsArea(wood), 1);
      expect(coveredArea(all).overlap).toBeLessThan(0.1);
      for (const { lines } of remains.keepers) {
        for (const line of lines) {
          const { minX, minY, maxX, maxY } = boundsOf(line);
          if (maxX - minX > 300) long++;
          const cut =
            minX === maxX ? box(minX - 1, minY, maxX + 1, maxY) : box(minX, minY - 1, maxX, maxY + 1);
          expect(parts.some((part) => boxesOverlap(part, cut))).toBe(false);
          for (const { rectangle } of remains.keepers) expect(boxesOverlap(rectangle, cut)).toBe(false);
        }
      }
    }
    expect(long).toBeGreaterThan(5);
  });
});
