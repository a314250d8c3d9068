import { describe, expect, test } from 'vitest';
import { combineRegions } from '../../../src/geometry/clipper.ts';
import { insideRegion, regionArea } from '../../../src/geometry/ring.ts';
import type { Point, Region, Ring } from '../../../src/geometry/shapes.ts';
import { DepthField } from '../../../src/nesting/no-fit/depth-field.ts';
import { innerFitRegions, noFitRegions } from '../../../src/nesting/no-fit/no-fit-polygon.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { outsideCheck } from '../../outside-check.ts';

function star(random: Random, points: number, radius: number): Ring {
  return Array.from({ length: points }, (_, i): Point => {
    const angle = (2 * Math.PI * i) / points;
    const r = radius * random.between(0.3, 1);
    return [r * Math.cos(angle), r * Math.sin(angle)];
  });
}

function moved(region: Region, [dx, dy]: Point): Region {
  const move = (ring: Ring) => ring.map(([x, y]): Point => [x + dx, y + dy]);
  return { outline: move(region.outline), openings: region.openings.map(move) };
}

function area(regions: readonly Region[]): number {
  return regions.reduce((sum, region) => sum + regionArea(region), 0);
}

const square = (side: number): Ring => [
  [0, 0],
  [side, 0],
  [side, side],
  [0, side],
];

describe('noFitRegions', () => {
  test('says of random positions exactly what intersecting the two regions says', () => {
    const random = new Random(5);
    for (let round = 0; round < 40; round++) {
      const withOpening = round % 3 === 0;
      const most = round < 20 ? 10 : 60;
      const a = {
        outline: star(random, 3 + random.below(most), 50),
        openings: withOpening ? [star(random, 20, 9)] : [],
      };
      const b = { outline: star(random, 3 + random.below(most), withOpening ? 7 : 40), openings: [] };
      const regions = noFitRegions(a, b);
      for (let i = 0; i < 40; i++) {
        const spread = withOpening && i % 2 === 0 ? 5 : 90;
        const at: Point = [random.between(-spread, spread), random.between(-spread, spread)];
        const overlap = area(combineRegions('intersection', [a], [moved(b, at)]));
        expect(regions.some((region) => insideRegion(at, region))).toBe(overlap > 1e-3);
      }
    }
  });

  test('two squares give a square of the sum of the sides', () => {
    const regions = noFitRegions(
      { outline: square(100), openings: [] },
      { outline: square(10), openings: [] },
    );
    outsideCheck({
      what: 'Area of the no-fit polygon of squares of 100 and 10, mm2',
      source: 'Closed form: the Minkowski sum of squares is a square of the sum of the sides',
      expected: 12100,
      found: area(regions),
      tolerance: 1e-6,
    });
  });

  test('an opening of either part leaves room for the other', () => {
    const frame = { outline: square(100), openings: [square(60).map(([x, y]): Point => [x + 20, y + 20])] };
    const block = { outline: square(20), openings: [] };
    expect(area(noFitRegions(frame, block))).toBeCloseTo(120 * 120 - 40 * 40, 6);
    expect(area(noFitRegions(block, frame))).toBeCloseTo(120 * 120 - 40 * 40, 6);
  });

  test('a slot that the part fills exactly, turned inside out by rounding, does not count the solid around it as free', () => {
    const hook: Region = {
      outline: [
        [-34.604, 20.1691],
        [-39.8286, -3.5288],
        [35.6488, -20.1691],
        [39.8286, -1.2104],
        [-5.4579, 8.7738],
        [-7.5478, -0.7055],
        [7.5477, -4.0336],
        [8.5926, 0.7056],
        [23.688, -2.6225],
        [21.5984, -12.1009],
        [-23.6881, -2.1167],
        [-19.5085, 16.8411],
      ],
      openings: [],
    };
    const turned: Region = { outline: hook.outline.map(([x, y]): Point => [-x, -y]), openings: [] };
    const at: Point = [-26.6678, 7.5307];
    expect(area(combineRegions('intersection', [hook], [moved(turned, at)]))).toBeGreaterThan(100);
    const box = { minX: -90, minY: -60, maxX: 90, maxY: 60 };
    const field = DepthField.of(noFitRegions(hook, turned), { gap: 1.5, insideAllowed: false, box });
    expect(field.depth(...at)).toBeGreaterThan(1.5);
  });

  test('a slot narrower than the part is no room', () => {
    const slotted: Ring = [
      [0, 0],
      [100, 0],
      [100, 40],
      [30, 40],
      [30, 60],
      [100, 60],
      [100, 100],
      [0, 100],
    ];
    const room = (side: number) =>
      area(noFitRegions({ outline: slotted, openings: [] }, { outline: square(side), openings: [] }));
    expect(room(19)).toBeCloseTo(119 * 119 - 70 * 1, 6);
    expect(room(21)).toBeCloseTo(121 * 121, 6);
  });
});

test('a disc drawn with a point in the middle of every side has one no-fit region, without specks beside it', () => {
  const corners = Array.from({ length: 32 }, (_, i): Point => {
    const angle = (i * Math.PI) / 16;
    return [10 * Math.cos(angle), 10 * Math.sin(angle)];
  });
  const outline = corners.flatMap(([x, y], i): Point[] => {
    const [toX, toY] = corners[(i + 1) % corners.length];
    return [
      [x, y],
      [(x + toX) / 2, (y + toY) / 2],
    ];
  });
  const disc = { outline, openings: [] };
  const regions = noFitRegions(disc, disc);
  expect(regions.length).toBe(1);
  // It is its own mirror image, so it overlaps itself within the disc at twice the size.
  expect(area(regions)).toBeCloseTo(4 * regionArea(disc), 1);
});

describe('innerFitRegions', () => {
  test('a rectangle in a rectangle moves by the difference of the sides', () => {
    expect(area(innerFitRegions(square(50), square(20)))).toBeCloseTo(30 * 30, 6);
    expect(innerFitRegions(square(20), square(50))).toEqual([]);
  });

  test('says of random positions exactly what subtracting says', () => {
    const random = new Random(9);
    for (let round = 0; round < 20; round++) {
      const space = star(random, 12, 100);
      const b = star(random, 7, 15);
      const regions = innerFitRegions(space, b);
      for (let i = 0; i < 40; i++) {
        const at: Point = [random.between(-60, 60), random.between(-60, 60)];
        const piece = moved({ outline: b, openings: [] }, at);
        const outside = area(combineRegions('difference', [piece], [{ outline: space, openings: [] }]));
        // A tip sticking out by a hair covers less than the grid of the boolean operations can hold.
        expect(regions.some((region) => insideRegion(at, region))).toBe(outside < 1e-5);
      }
    }
  });
});
