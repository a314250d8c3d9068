import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coveredArea } from '../../src/geometry/area-check.ts';
import { regionsFromRings } from '../../src/geometry/clipper.ts';
import { areCrossingFree, nestedRegions, shareSidesOrCorners } from '../../src/geometry/crossing-free.ts';
import { insideRegion, locateInRing, regionArea, signedArea } from '../../src/geometry/ring.ts';
import { boundsOf, type Point, type Region, type Ring } from '../../src/geometry/shapes.ts';
import { referenceRegion } from '../../src/nesting/verify/reference-geometry.ts';
import { seeded } from '../seeded.ts';

const square = (x: number, y: number, side: number): Ring => [
  [x, y],
  [x + side, y],
  [x + side, y + side],
  [x, y + side],
];
const total = (regions: readonly Region[]) => regions.reduce((sum, region) => sum + regionArea(region), 0);

describe('shareSidesOrCorners', () => {
  it.each<[string, Ring[], boolean]>([
    ['nested squares', [square(0, 0, 9), square(2, 2, 3)], false],
    ['squares that cross', [square(0, 0, 9), square(5, 5, 9)], false],
    ['squares that share part of a side', [square(0, 0, 9), square(9, 3, 2)], true],
    ['squares that share a corner', [square(0, 0, 9), square(9, 9, 9)], true],
    [
      'a corner on a side',
      [
        square(0, 0, 9),
        [
          [4, 0],
          [6, -5],
          [2, -5],
        ],
      ],
      true,
    ],
    [
      'a corner just off a side',
      [
        square(0, 0, 9),
        [
          [4, -0.001],
          [6, -5],
          [2, -5],
        ],
      ],
      false,
    ],
    ['a ring drawn twice', [square(0, 0, 9), square(0, 0, 9)], true],
    [
      'a side through a corner',
      [
        square(0, 0, 9),
        [
          [-3, 3],
          [3, -3],
          [-3, -3],
        ],
      ],
      true,
    ],
  ])('of %s', (_, rings, expected) => {
    expect(shareSidesOrCorners(rings)).toBe(expected);
    expect(shareSidesOrCorners(rings.map((ring) => [...ring].reverse()).reverse())).toBe(expected);
  });
});

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

  it('tells what trying every pair of edges tells, in whole numbers: random rings that often touch', () => {
    const random = seeded(5);
    const whole = () => Math.floor(13 * random());
    const counts = { free: 0, touching: 0 };
    for (let round = 0; round < 600; round++) {
      const rings = Array.from({ length: 1 + (round % 2) }, () =>
        ringOf(3 + Math.floor(3 * random()), whole),
      );
      const expected = !anyTouch(rings);
      expect(areCrossingFree(rings), JSON.stringify(rings)).toBe(expected);
      counts[expected ? 'free' : 'touching']++;
    }
    expect(Math.min(counts.free, counts.touching)).toBeGreaterThan(100);
  });

  it('takes what lies nearer than two units of the grid for a touch, and what lies a little farther for none', () => {
    const gaps = (gap: number) => [
      [square(0, 0, 9), square(9 + gap, 0, 9)],
      [square(0, 0, 9), square(0, 9 + gap, 9)],
      [square(0, 0, 9), square(-9 - gap, 3, 9)],
      [square(0, 0, 90), square(gap, 30, 20)],
    ];
    const eitherWay = ([a, b]: readonly Ring[]) => [
      [a, b],
      [[...a].reverse(), b],
      [a, [...b].reverse()],
      [[...b].reverse(), [...a].reverse()],
    ];
    for (const rings of gaps(1e-4).flatMap(eitherWay)) expect(areCrossingFree(rings)).toBe(false);
    for (const rings of gaps(4e-4).flatMap(eitherWay)) expect(areCrossingFree(rings)).toBe(true);
  });

  it('takes a triangle lower than that for a spike of no width, however it is turned', () => {
    for (const x of [5, 30, 50, 95]) {
      for (let turn = 0; turn < 8; turn++) {
        const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
        const low = (height: number) =>
          [[0, 0] as const, [100, 0] as const, [x, height] as const].map(
            ([px, py]): Point => [cos * px - sin * py, sin * px + cos * py],
          );
        for (const height of [1e-4, -1e-4, 0]) expect(areCrossingFree([low(height)])).toBe(false);
        for (const height of [4e-4, -4e-4]) expect(areCrossingFree([low(height)])).toBe(true);
      }
    }
  });

  it('passes a wave of many short edges wherever it lies, and gives up where every edge lies beside all others', () => {
    const wave = Array.from(
      { length: 2000 },
      (_, i): Point => [i * 0.5 - 7000, 20 * Math.sin(i * 0.1) + 300],
    );
    const strip: Ring = [...wave, ...wave.map(([x, y]): Point => [x, y + 1]).reverse()];
    expect(areCrossingFree([strip])).toBe(true);
    // Slats aslant one beside the other: their boxes are all but one, so that each edge is beside all others.
    const slats = (count: number) =>
      Array.from(
        { length: count },
        (_, i): Ring => [
          [i / 10, 0],
          [1000 + i / 10, 1000],
          [i / 10 + 0.05, 0],
        ],
      );
    expect(areCrossingFree(slats(20))).toBe(true);
    expect(areCrossingFree(slats(6000))).toBe(false);
    // Lying, or standing, they are told apart.
    const lying = slats(6000).map((ring) => ring.map(([x, y]): Point => [x + y, 10 * (x - y)]));
    expect(areCrossingFree(lying)).toBe(true);
    expect(areCrossingFree(lying.map((ring) => ring.map(([x, y]): Point => [y, x])))).toBe(true);
  });

  it('passes teeth that stand as close as a saw would never cut them', () => {
    // 20,000 points around a hill 120 mm across: a tooth of 0.3 mm every 0.04 mm.
    const hill = Array.from({ length: 20_000 }, (_, i): Point => {
      const radius = 60 + (i % 2 === 0 ? 0.15 : -0.15);
      const angle = (i / 20_000) * 2 * Math.PI;
      return [radius * Math.cos(angle), radius * Math.sin(angle)];
    });
    expect(areCrossingFree([hill])).toBe(true);
    // Two points have changed places, and their edges cross.
    expect(
      areCrossingFree([[...hill.slice(0, 9000), hill[9002], hill[9001], hill[9000], ...hill.slice(9003)]]),
    ).toBe(false);
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
      { seed: 21, numRuns: 100 },
    );
  });
});

/** A ring of whole coordinates without an edge of no length. */
function ringOf(count: number, whole: () => number): Ring {
  const ring: Point[] = [];
  while (ring.length < count) {
    const point: Point = [whole(), whole()];
    const isNew = (other: Point | undefined) =>
      other === undefined || other[0] !== point[0] || other[1] !== point[1];
    if (isNew(ring[ring.length - 1]) && (ring.length + 1 < count || isNew(ring[0]))) ring.push(point);
  }
  return ring;
}

/** Which side of the line through p and q the point r lies on: exact in whole numbers. */
const side = (p: Point, q: Point, r: Point) =>
  Math.sign((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]));

/** True when r, which is on the line through p and q, lies between them. */
const isBetween = (p: Point, q: Point, r: Point) =>
  (r[0] - p[0]) * (r[0] - q[0]) <= 0 && (r[1] - p[1]) * (r[1] - q[1]) <= 0;

/** True when two edges of the rings share a point that is not the vertex between neighbours. */
function anyTouch(rings: readonly Ring[]): boolean {
  const edges = rings.flatMap((ring, number) =>
    ring.map((a, i) => ({ a, b: ring[(i + 1) % ring.length], number, i, count: ring.length })),
  );
  return edges.some((e, k) =>
    edges.slice(k + 1).some((f) => {
      const isSame = e.number === f.number;
      if (isSame && f.i === e.i + 1) return side(e.a, e.b, f.b) === 0 && !isBetween(e.a, f.b, e.b);
      if (isSame && e.i === 0 && f.i === f.count - 1)
        return side(f.a, f.b, e.b) === 0 && !isBetween(f.a, e.b, f.b);
      const [p, q, r, s] = [
        side(e.a, e.b, f.a),
        side(e.a, e.b, f.b),
        side(f.a, f.b, e.a),
        side(f.a, f.b, e.b),
      ];
      return (
        (p * q < 0 && r * s < 0) ||
        (p === 0 && isBetween(e.a, e.b, f.a)) ||
        (q === 0 && isBetween(e.a, e.b, f.b)) ||
        (r === 0 && isBetween(f.a, f.b, e.a)) ||
        (s === 0 && isBetween(f.a, f.b, e.b))
      );
    }),
  );
}

describe('nestedRegions', () => {
  it('fills what the winding number of every point tells, over random nested squares', () => {
    const random = seeded(12);
    for (let round = 0; round < 12; round++) {
      const rings = [
        ...[...nest(random, 0, 0, 243, 4), ...nest(random, 300, 0, 81, 2)].map((ring) =>
          random() < 0.5 ? ring : [...ring].reverse(),
        ),
        // The box of a rhombus holds more than the rhombus does.
        rhombus(500, 0, 40),
        square(465, -35, 4),
        square(498, -2, 4),
      ];
      // In any order: what lies in what is told by the rings alone.
      rings.sort(() => random() - 0.5);
      const regions = { nonzero: nestedRegions(rings, 'nonzero'), evenodd: nestedRegions(rings, 'evenodd') };
      for (const ring of rings) {
        const { minX, minY, maxY } = boundsOf(ring);
        for (const point of [[minX + 0.5, minY + 0.5] as const, [minX + 0.5, (minY + maxY) / 2] as const]) {
          const around = rings.filter((other) => locateInRing(point, other) === 1);
          const winding = around.reduce((sum, other) => sum + Math.sign(signedArea(other)), 0);
          const holding = (all: readonly Region[]) =>
            all.filter((region) => insideRegion(point, region)).length;
          expect(holding(regions.nonzero)).toBe(winding === 0 ? 0 : 1);
          expect(holding(regions.evenodd)).toBe(around.length % 2);
        }
      }
      for (const { outline, openings } of [...regions.nonzero, ...regions.evenodd])
        for (const opening of openings) expect(locateInRing(opening[0], outline)).toBe(1);
    }
  });

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

const rhombus = (x: number, y: number, reach: number): Ring => [
  [x - reach, y],
  [x, y - reach],
  [x + reach, y],
  [x, y + reach],
];

/** Squares in a square, each with squares in it in turn, none touching another. */
function nest(random: () => number, x: number, y: number, size: number, depth: number): Ring[] {
  const rings: Ring[] = [square(x + 1, y + 1, size - 2)];
  if (depth === 0) return rings;
  const third = Math.floor((size - 4) / 3);
  for (let i = 0; i < 3; i++) {
    const [cx, cy] = [x + 2 + third * Math.floor(3 * random()), y + 2 + third * i];
    if (third >= 3 && random() < 0.7) rings.push(...nest(random, cx, cy, third, depth - 1));
  }
  return rings;
}

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
