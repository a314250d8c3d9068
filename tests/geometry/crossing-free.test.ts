import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coveredArea } from '../../src/geometry/area-check.ts';
import { regionsFromRings } from '../../src/geometry/clipper.ts';
import { areCrossingFree, nestedRegions } from '../../src/geometry/crossing-free.ts';
import { regionArea } from '../../src/geometry/ring.ts';
import type { Point, Region, Ring } from '../../src/geometry/shapes.ts';
import { referenceRegion } from '../../src/nesting/verify/reference-geometry.ts';

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

/** Shapes so near to touching that only the integer grid decides; each once came out wrong. */
describe('regionsFromRings next to a touch', () => {
  const outline = square(0, 0, 10);

  it('keeps an opening whose edge all but lies on the outline', () => {
    const opening: Ring = [
      [2e-5, 3],
      [5, 3],
      [5, 6],
      [2e-5, 6],
    ];
    expect(total(regionsFromRings([outline, opening], 'evenodd'))).toBeCloseTo(85, 2);
  });

  it('reads a keyhole whose bridge does not quite close as a valid region', () => {
    const keyhole: Ring = [
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
      [0, 5],
      [3, 5],
      [3, 7],
      [6, 7],
      [6, 3],
      [3, 3],
      [3, 5 - 3e-6],
      [0, 5 - 3e-6],
    ];
    const regions = regionsFromRings([keyhole], 'nonzero');
    expect(regions.map(referenceRegion).map(({ fault }) => fault)).toEqual([undefined]);
    expect(total(regions)).toBeCloseTo(88, 2);
  });

  it('parts a ring where a vertex lies on another edge', () => {
    const regions = regionsFromRings(
      [
        [
          [0, 0],
          [10, 0],
          [10, 10],
          [5, 0],
          [0, 10],
        ],
      ],
      'nonzero',
    );
    for (const region of regions) expect(referenceRegion(region).fault).toBeUndefined();
    expect(total(regions)).toBeCloseTo(50, 6);
  });

  it('passes over rings without points', () => {
    expect(total(regionsFromRings([outline, []], 'nonzero'))).toBeCloseTo(100, 9);
    expect(regionsFromRings([], 'nonzero')).toEqual([]);
  });
});
