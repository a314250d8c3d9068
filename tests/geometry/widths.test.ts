import { describe, expect, it } from 'vitest';
import type { Point, Region, Ring } from '../../src/geometry/shapes.ts';
import { greatestWidth, thinPlaces } from '../../src/geometry/widths.ts';

const solid = (outline: Ring, openings: Ring[] = []): Region => ({ outline, openings });
const thinnest = (region: Region, of: 'solid' | 'waste', limit: number) =>
  thinPlaces(region, of, limit, limit / 10).reduce((least, { width }) => Math.min(least, width), Infinity);

/** Two 20 mm squares joined by a bar `length` long and `neck` wide. */
const dumbbell = (neck: number, length: number): Region => {
  const [l, r] = [20, 20 + length];
  const [t, b] = [10 - neck / 2, 10 + neck / 2];
  return solid([
    [0, 0],
    [l, 0],
    [l, t],
    [r, t],
    [r, 0],
    [r + 20, 0],
    [r + 20, 20],
    [r, 20],
    [r, b],
    [l, b],
    [l, 20],
    [0, 20],
  ]);
};

const circle = (cx: number, cy: number, r: number, n = 400): Ring =>
  Array.from(
    { length: n },
    (_, i): Point => [cx + r * Math.cos((2 * Math.PI * i) / n), cy + r * Math.sin((2 * Math.PI * i) / n)],
  );

// The widths follow from the coordinates of the shapes.
describe('thinPlaces', () => {
  it.each([0.5, 1, 2, 3.9])('finds a bar %d mm wide and nothing in a stout one', (neck) => {
    expect(thinnest(dumbbell(neck, 10), 'solid', 4)).toBeCloseTo(neck, 6);
    expect(thinPlaces(dumbbell(neck, 10), 'solid', neck * 0.99, 0.1)).toEqual([]);
  });

  it('measures a bar straight across, from both sides, as often as it is asked to', () => {
    const bar = dumbbell(1, 10);
    const inBar = (spacing: number) =>
      thinPlaces(bar, 'solid', 4, spacing).filter(({ from: [x] }) => x > 20 && x < 30);
    // Two sides of 10 mm, a place for every spacing begun.
    for (const [spacing, count] of [
      [0.4, 50],
      [0.3, 68],
      [3, 8],
      [50, 2],
    ])
      expect(inBar(spacing), `${spacing}`).toHaveLength(count);
    for (const { from, to, width } of inBar(0.4)) {
      expect(Math.abs(from[1] - 10)).toBeCloseTo(0.5, 9);
      expect(to[1]).toBeCloseTo(20 - from[1], 6);
      expect(to[0]).toBeCloseTo(from[0], 2);
      expect(width).toBeCloseTo(1, 6);
    }
  });

  it('passes over points that are there twice', () => {
    const bar = dumbbell(1.5, 8);
    const twice = solid(bar.outline.flatMap((point) => [point, point]));
    expect(thinPlaces(twice, 'solid', 4, 0.4).length).toBeGreaterThan(0);
    expect(thinnest(twice, 'solid', 4)).toBeCloseTo(1.5, 6);
  });

  it('finds the way across a tip that points at a wall, straight ahead of it', () => {
    // An opening with a tip at (10, 2): 2 mm above the lower edge, whose samples lie 7 mm apart.
    const tipped = solid(
      [
        [0, 0],
        [21, 0],
        [21, 30],
        [0, 30],
      ],
      [
        [
          [10, 2],
          [15, 20],
          [5, 20],
        ],
      ],
    );
    const straight = thinPlaces(tipped, 'solid', 4, 7).filter(({ from }) => from[1] === 2);
    expect(straight.length).toBeGreaterThan(3);
    expect(Math.min(...straight.map(({ width }) => width))).toBeCloseTo(2, 1);
    // A ball at the tip meets the edge where it is tangent to it: never beside the foot by more than it is high.
    for (const { to } of straight) {
      expect(to[1]).toBeCloseTo(0, 6);
      expect(Math.abs(to[0] - 10)).toBeLessThan(2 * Math.tan((35 * Math.PI) / 180));
    }
  });

  it('finds the neck between two notches that meet tip to tip', () => {
    const hourglass = solid([
      [0, 0],
      [20, 0],
      [20, 4],
      [10, 9.4],
      [20, 15],
      [20, 20],
      [0, 20],
      [0, 15],
      [8.5, 9.6],
      [0, 4],
    ]);
    expect(thinnest(hourglass, 'solid', 3)).toBeCloseTo(Math.hypot(1.5, 0.2), 6);
  });

  it('finds the wall between an opening and the outline, and between two openings', () => {
    const washer = solid(circle(0, 0, 20), [circle(1, 0, 17.5)]);
    expect(thinnest(washer, 'solid', 3)).toBeCloseTo(1.5, 2);
    const pair = solid(circle(0, 0, 30), [circle(-8.6, 0, 8), circle(8.6, 0, 8)]);
    expect(thinnest(pair, 'solid', 3)).toBeCloseTo(1.2, 2);
    expect(
      thinPlaces(pair, 'solid', 3, 0.2).every(
        ({ outlineBetween }) => outlineBetween === Number.POSITIVE_INFINITY,
      ),
    ).toBe(true);
  });

  it('does not take the corner of a square for a neck', () => {
    expect(
      thinPlaces(
        solid([
          [0, 0],
          [20, 0],
          [20, 20],
          [0, 20],
        ]),
        'solid',
        4,
        0.2,
      ),
    ).toEqual([]);
  });

  it('tells how much outline lies beyond: the end of a finger of known length', () => {
    const finger = solid([
      [0, 0],
      [30, 0],
      [30, 10],
      [16, 10],
      [16, 25],
      [14, 25],
      [14, 10],
      [0, 10],
    ]);
    const beyond = thinPlaces(finger, 'solid', 3, 0.2).map(({ outlineBetween }) => outlineBetween);
    expect(Math.max(...beyond)).toBeCloseTo(2 * 15 + 2, 0);
  });

  it('measures a slot of waste, open or inside', () => {
    const slotted = solid([
      [0, 0],
      [30, 0],
      [30, 20],
      [15.3, 20],
      [15.3, 5],
      [14.9, 5],
      [14.9, 20],
      [0, 20],
    ]);
    expect(thinnest(slotted, 'waste', 1)).toBeCloseTo(0.4, 6);
    const pierced = solid(
      [
        [0, 0],
        [30, 0],
        [30, 20],
        [0, 20],
      ],
      [
        [
          [5, 10],
          [25, 10],
          [25, 10.3],
          [5, 10.3],
        ],
      ],
    );
    expect(thinnest(pierced, 'waste', 1)).toBeCloseTo(0.3, 6);
    expect(
      thinPlaces(
        solid([
          [0, 0],
          [30, 0],
          [30, 20],
          [0, 20],
        ]),
        'waste',
        1,
        0.2,
      ),
    ).toEqual([]);
  });

  it('measures a comb of fine teeth, and the slots between them', () => {
    // 400 teeth 0.3 mm wide and 40 mm long, 0.2 mm apart, on a bar.
    const teeth = Array.from({ length: 400 }, (_, i): Point[] => {
      const x = i / 2;
      return [
        [x, 50],
        [x + 0.3, 50],
        [x + 0.3, 10],
        [x + 0.5, 10],
      ];
    });
    const comb = solid([[0, 0], ...teeth.flat(), [200, 0]]);
    expect(thinnest(comb, 'solid', 1.6)).toBeCloseTo(0.3, 6);
    expect(thinnest(comb, 'waste', 1.6)).toBeCloseTo(0.2, 6);
  });

  it('gives the same whichever way the rings run', () => {
    const region = dumbbell(1.5, 8);
    const reversed = solid([...region.outline].reverse());
    expect(thinnest(reversed, 'solid', 4)).toBeCloseTo(thinnest(region, 'solid', 4), 9);
  });

  it('finds nothing between an opening and a slanted outline that touch, whichever side of it rounding has put the corner', () => {
    // A square turned by about 22 degrees; its lower side goes through (47.9895, 203.5918) but for the last digit.
    const touching = (y: number) =>
      solid(
        [
          [74.7542, 192.9844],
          [21.2248, 214.1992],
          [0.01, 160.6698],
          [53.5394, 139.455],
        ],
        [
          [
            [26.6762, 181.0701],
            [47.9895, y],
            [48.088, 172.5842],
          ],
        ],
      );
    for (const y of [203.5917, 203.5918, 203.5919])
      expect(thinnest(touching(y), 'solid', 3.2), `${y}`).toBe(0);
    expect(thinnest(touching(203.49), 'solid', 3.2)).toBeCloseTo(0.0945, 3);
    expect(thinnest(touching(203.5918), 'waste', 0.1)).toBeGreaterThan(0);
  });
});

describe('greatestWidth', () => {
  it('is the width of a bar and of a rim, and the limit where there is more room', () => {
    expect(greatestWidth(dumbbell(1, 10), 30, 0.1)).toBeGreaterThan(19.8);
    expect(greatestWidth(dumbbell(1, 10), 5, 0.5)).toBe(5);
    const rim = solid([...circle(0, 0, 30)], [circle(0, 0, 29)]);
    expect(greatestWidth(rim, 5, 0.5)).toBeCloseTo(1, 2);
    expect(greatestWidth(rim, 0.8, 0.5)).toBe(0.8);
  });

  it('is that of the solid where an opening touches the outline: no ball counts that lies beyond', () => {
    // A rim 1 mm wide around an opening of 58 x 58 mm, which has a corner on the left side.
    const square: Ring = [
      [0, 0],
      [60, 0],
      [60, 60],
      [0, 60],
    ];
    const opening: Ring = [
      [1, 1],
      [59, 1],
      [59, 59],
      [1, 59],
      [1, 31],
      [0, 30],
      [1, 29],
    ];
    // In a corner of the rim the largest circle touches both sides and the corner inside: 2 / (1 + 1 / root 2) mm.
    expect(greatestWidth(solid(square, [opening]), 5, 0.1)).toBeCloseTo(2 / (1 + Math.SQRT1_2), 1);
  });
});
