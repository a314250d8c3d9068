import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coveredArea } from '../../src/geometry/area-check.ts';
import { regionsFromRings } from '../../src/geometry/clipper.ts';
import { areCrossingFree, nestedRegions } from '../../src/geometry/crossing-free.ts';
import { regionArea } from '../../src/geometry/ring.ts';
import type { Point, Region, Ring } from '../../src/geometry/shapes.ts';

const square = (x: number, y: number, side: number): Ring => [
  [x, y],
  [x + side, y],
  [x + side, y + side],
  [x, y + side],
];
const total = (regions: readonly Region[]) => regions.reduce((sum, region) => sum + regionArea(region), 0);

describe('areCrossingFree', () => {
  it.each<[string, Ring[], boolean]>([
    ['a square', [square(0, 0, 9)], true],
    ['nested squares', [square(0, 0, 9), square(2, 2, 3)], true],
    [
      'a bow tie',
      [
        [
          [0, 0],
          [9, 9],
          [9, 0],
          [0, 9],
        ],
      ],
      false,
    ],
    ['squares that cross', [square(0, 0, 9), square(5, 5, 9)], false],
    ['squares that share an edge', [square(0, 0, 9), square(9, 0, 9)], false],
    ['squares that share a corner', [square(0, 0, 9), square(9, 9, 9)], false],
    [
      'a spike that folds back',
      [
        [
          [0, 0],
          [9, 0],
          [4, 0],
          [4, 5],
        ],
      ],
      false,
    ],
    [
      'a vertex on an edge',
      [
        [
          [0, 0],
          [9, 0],
          [9, 9],
          [4, 0],
          [0, 9],
        ],
      ],
      false,
    ],
  ])('%s', (_, rings, expected) => {
    expect(areCrossingFree(rings)).toBe(expected);
  });

  it('never passes a ring whose two engines disagree: random rings of few points', () => {
    const point = fc
      .tuple(fc.integer({ min: 0, max: 30 }), fc.integer({ min: 0, max: 30 }))
      .map((p): Point => p);
    fc.assert(
      fc.property(fc.array(point, { minLength: 3, maxLength: 7 }), (ring) => {
        fc.pre(areCrossingFree([ring]));
        // A simple ring covers the area that the shoelace formula gives (Meister 1769).
        expect(coveredArea([{ outline: ring, openings: [] }]).area).toBeCloseTo(
          regionArea({ outline: ring, openings: [] }),
          6,
        );
      }),
      { seed: 21, numRuns: 400 },
    );
  });
});

describe('nestedRegions', () => {
  const rings = [square(0, 0, 90), square(10, 10, 70), square(30, 30, 20), square(100, 0, 10)];

  it.each(['nonzero', 'evenodd'] as const)(
    'gives what clipping gives, %s, whatever way the rings run',
    (rule) => {
      for (let mask = 0; mask < 16; mask++) {
        const directed = rings.map((ring, i) => ((mask >> i) % 2 === 0 ? ring : [...ring].reverse()));
        const nested = nestedRegions(directed, rule);
        // A square that touches another sends the same rings through the clipper.
        const clipped = regionsFromRings([...directed, square(90, 60, 5)], rule);
        expect(total(nested) + 25).toBeCloseTo(total(clipped), 6);
      }
    },
  );
});
