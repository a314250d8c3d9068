import { describe, expect, it } from 'vitest';
import { coveredArea } from '../../src/geometry/area-check.ts';
import { combineRegions } from '../../src/geometry/clipper.ts';
import { locateInRing, regionsArea } from '../../src/geometry/ring.ts';
import {
  type Box,
  boundsOf,
  boxesOverlap,
  boxRing,
  type Line,
  type Region,
  type Ring,
} from '../../src/geometry/shapes.ts';
import { boxRegion } from '../../src/stock/box-clipping.ts';
import { type BoardPartingRules, divideRest } from '../../src/stock/divide-rest.ts';
import { obstaclesOf, type Remains } from '../../src/stock/offcuts.ts';
import { seeded } from '../seeded.ts';

const box = (minX: number, minY: number, maxX: number, maxY: number): Box => ({ minX, minY, maxX, maxY });
const across = (x: number, minY: number, maxY: number): Line => [
  [x, minY],
  [x, maxY],
];
const BOARD = box(0, 0, 800, 100);
const RULES: BoardPartingRules = { keep: { length: 60, width: 60 }, kerf: 3, isStraight: () => true };

/** The wood of a board that parts leave, by clipping; the kerf of the blade is none here. */
const woodOf = (board: Box, parts: readonly Box[]) =>
  combineRegions('difference', [boxRegion(board)], parts.map(boxRegion));

function divided(parts: readonly Box[], board = BOARD, rules = RULES, cells = [board]): Remains {
  return divideRest(woodOf(board, parts), parts, cells, rules);
}

const keptBy = ({ keepers }: Remains) => keepers.map(({ rectangle, lines }) => ({ rectangle, lines }));

describe('straight cuts beside the parts', () => {
  it('free the largest strip first, at the ends by one cut and between parts by two', () => {
    const remains = divided([box(100, 10, 200, 90), box(300, 10, 400, 90)]);
    const cuts = [401.5, 98.5, 201.5, 298.5].map((x) => across(x, 0, 100));
    expect(keptBy(remains)).toEqual([
      { rectangle: box(403, 0, 800, 100), lines: cuts.slice(0, 1) },
      { rectangle: box(0, 0, 97, 100), lines: cuts.slice(0, 2) },
      { rectangle: box(203, 0, 297, 100), lines: cuts },
    ]);
    // By hand: four cuts of 3 mm, and above and below each part 100 x 10.
    expect(regionsArea(remains.kerf)).toBeCloseTo(4 * 3 * 100, 6);
    expect(remains.scrap).toBeCloseTo(4 * 1000, 6);
  });

  it('free a strip that is just as wide as what is kept, also where it is so in inches', () => {
    const board = box(0, 0, 1219.2, 3 * 25.4);
    const keep = { length: 203.2, width: 76.2 };
    const remains = divided([box(10, 5, 250, 70)], board, { ...RULES, keep });
    expect(keptBy(remains)).toEqual([
      { rectangle: box(253, 0, 1219.2, 76.2), lines: [across(251.5, 0, 3 * 25.4)] },
    ]);
    expect(remains.keepers[0].region.outline).toHaveLength(4);
  });

  it('run along the board where that leaves more', () => {
    const remains = divided([box(50, 5, 300, 20), box(400, 88, 780, 95)]);
    const rips = [21.5, 86.5].map(
      (y): Line => [
        [0, y],
        [800, y],
      ],
    );
    expect(keptBy(remains)).toEqual([{ rectangle: box(0, 23, 800, 85), lines: rips }]);
    expect(regionsArea(remains.kerf)).toBeCloseTo(2 * 3 * 800, 6);
  });

  it('take the whole of a board without parts, and leave wood that holds no keeper', () => {
    expect(keptBy(divided([]))).toEqual([{ rectangle: BOARD, lines: [] }]);
    const remains = divided([box(59, 0, 800, 100)]);
    expect(remains.keepers).toEqual([]);
    expect(remains.scrap).toBeCloseTo(5900, 6);
    // Beside 62 mm there is no room for the saw: the blade alone frees them.
    expect(divided([box(62, 0, 800, 100)]).keepers.map(({ lines }) => lines)).toEqual([[]]);
    expect(keptBy(divided([box(63, 0, 800, 100)]))).toEqual([
      { rectangle: box(0, 0, 60, 100), lines: [across(61.5, 0, 100)] },
    ]);
    // A part that reaches up to the end leaves nothing to cut there.
    expect(keptBy(divided([box(0, 0, 700, 100)]))).toEqual([
      { rectangle: box(703, 0, 800, 100), lines: [across(701.5, 0, 100)] },
    ]);
  });

  it('stay in their section; what lies between sections is kerf', () => {
    const cells = [box(0, 0, 398, 100), box(401, 0, 800, 100)];
    const remains = divided([box(10, 10, 200, 90), box(500, 10, 790, 90)], BOARD, RULES, cells);
    expect(keptBy(remains)).toEqual([
      { rectangle: box(203, 0, 398, 100), lines: [across(201.5, 0, 100)] },
      { rectangle: box(401, 0, 497, 100), lines: [across(498.5, 0, 100)] },
    ]);
    expect(regionsArea(remains.kerf)).toBeCloseTo(3 * 300, 6);
  });

  it('free every piece of a strip that a crack parts; what is too small of it is scrap', () => {
    const wood = [box(0, 0, 300, 100), box(310, 0, 340, 100), box(350, 0, 400, 100)].map(boxRegion);
    const remains = divideRest(wood, [box(400, 0, 800, 100)], [BOARD], RULES);
    expect(keptBy(remains)).toEqual([{ rectangle: box(0, 0, 300, 100), lines: [across(398.5, 0, 100)] }]);
    expect(remains.scrap).toBeCloseTo((30 + 47) * 100, 6);
    expect(regionsArea(remains.kerf)).toBeCloseTo(3 * 100, 6);
  });

  it('end after eight in one piece', () => {
    // Ten gaps of 70 mm: the end, then four between parts, two cuts each. What is left is freed by the blade alone.
    const parts = Array.from({ length: 10 }, (_, i) => box(80 * i, 0, 80 * i + 7, 100));
    const remains = divided(parts);
    const counts = remains.keepers.map(({ lines }) => lines.length);
    expect(remains.keepers).toHaveLength(10);
    expect(Math.max(...counts)).toBe(9);
    expect(new Set(counts)).toEqual(new Set([1, 3, 5, 7, 9]));
  });

  it('grow the boxes of the parts by the kerf first', () => {
    const triangle: Ring = [
      [0, 0],
      [30, 10],
      [10, 40],
    ];
    expect(obstaclesOf([{ outline: triangle, openings: [] }], 2)).toEqual([box(-2, -2, 32, 42)]);
  });
});

/** Random parts on a board, whole millimetres. */
function randomParts(random: () => number, board: Box): Box[] {
  const whole = (most: number) => Math.floor(most * random());
  return Array.from({ length: 1 + whole(4) }, () => {
    const [x, y] = [whole(board.maxX - 20), whole(board.maxY - 20)];
    return box(x, y, Math.min(board.maxX, x + 10 + whole(90)), Math.min(board.maxY, y + 10 + whole(60)));
  });
}

describe('the rest of a board', () => {
  const board = box(0, 0, 307, 127);
  const rules = { ...RULES, keep: { length: 41, width: 37 }, kerf: 2 };

  it('is divided without loss, no cut goes through a part, and keepers hold what they promise', () => {
    const random = seeded(17);
    let kept = 0;
    for (let round = 0; round < 6; round++) {
      const parts = randomParts(random, board);
      const wood = woodOf(board, parts);
      const remains = divideRest(wood, parts, [board], rules);
      const all = [...remains.keepers.map(({ region }) => region), ...remains.kerf];
      expect(regionsArea(all) + remains.scrap).toBeCloseTo(regionsArea(wood), 1);
      expect(remains.scrap).toBeGreaterThanOrEqual(0);
      // A second geometry library finds nothing that is there twice.
      expect(coveredArea(all).overlap).toBeLessThan(0.1);
      kept += remains.keepers.length;
      for (const { region, rectangle, lines } of remains.keepers) {
        expect(rectangle.maxX - rectangle.minX).toBeGreaterThanOrEqual(41);
        expect(rectangle.maxY - rectangle.minY).toBeGreaterThanOrEqual(37);
        expect(parts.some((part) => boxesOverlap(part, rectangle))).toBe(false);
        expect(regionsArea([region])).toBeGreaterThanOrEqual(
          (rectangle.maxX - rectangle.minX) * (rectangle.maxY - rectangle.minY) - 1e-3,
        );
        for (const line of lines) {
          const { minX, minY, maxX, maxY } = boundsOf(line);
          const cut =
            minX === maxX ? box(minX - 1, minY, maxX + 1, maxY) : box(minX, minY - 1, maxX, maxY + 1);
          expect(parts.some((part) => boxesOverlap(part, cut))).toBe(false);
        }
      }
    }
    expect(kept).toBeGreaterThan(6);
  });

  it('is divided the same way when the board is turned on its diagonal', () => {
    const random = seeded(29);
    const turned = ({ minX, minY, maxX, maxY }: Box) => box(minY, minX, maxY, maxX);
    const square = { ...RULES, keep: { length: 39.5, width: 39.5 }, kerf: 2 };
    for (let round = 0; round < 6; round++) {
      const parts = randomParts(random, board);
      const straight = divided(parts, board, square).keepers.map(({ rectangle }) => turned(rectangle));
      const diagonal = divided(parts.map(turned), turned(board), square).keepers;
      // To a millimetre: offsets round their corners a little differently along x and y.
      const rounded = (boxes: readonly Box[]) =>
        boxes.map(({ minX, minY, maxX, maxY }) => [minX, minY, maxX, maxY].map((mm) => mm.toFixed(0)));
      expect(rounded(diagonal.map(({ rectangle }) => rectangle))).toEqual(rounded(straight));
    }
  });
});

describe('what the blade frees', () => {
  /** A stout square of 100 mm with a tail to its right; no straight cut comes between. */
  const tailed = (width: number): Region => ({
    outline: [
      [0, 0],
      [100, 0],
      [100, 50 - width / 2],
      [300, 50 - width / 2],
      [300, 50 + width / 2],
      [100, 50 + width / 2],
      [100, 100],
      [0, 100],
    ],
    openings: [],
  });
  const freed = (piece: Region) => {
    const cell = boundsOf(piece.outline);
    return divideRest([piece], [cell], [cell], RULES);
  };

  it('is kept without the tail that breaks off, and with one that is stout', () => {
    const slender = freed(tailed(8));
    expect(slender.keepers).toHaveLength(1);
    const { region, rectangle, lines } = slender.keepers[0];
    expect(lines).toEqual([]);
    expect(rectangle.maxX - rectangle.minX).toBeCloseTo(100, 0);
    expect(rectangle.maxY - rectangle.minY).toBeCloseTo(100, 0);
    expect(boundsOf(region.outline).maxX).toBeLessThan(105);
    expect(regionsArea([region])).toBeGreaterThan(10_000 - 1);
    expect(regionsArea([region])).toBeLessThan(10_000 + 8 * 5);
    // Nothing is lost: the tail is scrap.
    expect(regionsArea([region]) + slender.scrap).toBeCloseTo(10_000 + 8 * 200, 3);
    expect(slender.kerf).toEqual([]);
    const stout = freed(tailed(12));
    expect(boundsOf(stout.keepers[0].region.outline).maxX).toBeCloseTo(300, 1);
  });

  it('is kept without the slip behind a crack that hangs on at its tip', () => {
    // A check of 200 mm, closer along its lower side to the end of the wood than anything holds.
    const checked: Region = {
      outline: [
        [0, 0],
        [300, 0],
        [300, 103],
        [200, 104.3],
        [0, 107.3],
        [0, 106],
        [200, 103],
        [0, 100],
      ],
      openings: [],
    };
    const { keepers, scrap } = freed(checked);
    expect(keepers).toHaveLength(1);
    const [{ region }] = keepers;
    expect(locateInRing([100, 99], region.outline)).toBe(1);
    expect(locateInRing([170, 103.9], region.outline)).toBe(-1);
    expect(regionsArea([region]) + scrap).toBeCloseTo(regionsArea([checked]), 3);
  });

  it('is scrap as a whole where nothing is large enough, or only with what breaks off', () => {
    const small: Region = { outline: boxRing(box(0, 0, 59, 100)), openings: [] };
    expect(freed(small)).toEqual({ keepers: [], kerf: [], scrap: regionsArea([small]) });
  });
});
