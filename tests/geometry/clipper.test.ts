import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coveredArea } from '../../src/geometry/area-check.ts';
import { combineRegions, offsetRegions, regionsFromRings } from '../../src/geometry/clipper.ts';
import { locateInRing, regionArea, ringArea, signedArea } from '../../src/geometry/ring.ts';
import { type Box, boxRing, type Region, type Ring } from '../../src/geometry/shapes.ts';
import { FretlayError } from '../../src/issues/fretlay-error.ts';
import { referenceRegion } from '../../src/nesting/verify/reference-geometry.ts';
import { outsideCheck } from '../outside-check.ts';
import { seeded } from '../seeded.ts';

const square = (x: number, y: number, side: number): Ring => [
  [x, y],
  [x + side, y],
  [x + side, y + side],
  [x, y + side],
];
const solid = (outline: Ring, openings: Ring[] = []): Region => ({ outline, openings });
const total = (regions: readonly Region[]) => regions.reduce((sum, region) => sum + regionArea(region), 0);

/** A star-shaped ring with random radii: simple by construction. */
const star = fc
  .tuple(
    fc.double({ min: -20, max: 20, noNaN: true }),
    fc.double({ min: -20, max: 20, noNaN: true }),
    fc.array(fc.double({ min: 5, max: 40, noNaN: true }), { minLength: 3, maxLength: 24 }),
  )
  .map(
    ([cx, cy, radii]): Ring =>
      radii.map((r, i) => {
        const angle = (2 * Math.PI * i) / radii.length;
        return [cx + r * Math.cos(angle), cy + r * Math.sin(angle)] as const;
      }),
  );

describe('regionsFromRings', () => {
  // W3C SVG 2, section 13.4.2 "fill-rule": two nested squares wound the same way.
  it('fills nested squares by the two rules of SVG', () => {
    const rings = [square(0, 0, 90), square(20, 20, 50)];
    const even = regionsFromRings(rings, 'evenodd');
    outsideCheck({
      what: 'A square of 50 in one of 90, wound the same way, filled non-zero and even-odd, mm2',
      source: 'W3C SVG 2, section 13.4.2',
      expected: [8100, 5600],
      found: [total(regionsFromRings(rings, 'nonzero')), total(even)],
      tolerance: 1e-6,
    });
    expect(even).toHaveLength(1);
    expect(even[0].openings).toHaveLength(1);
  });

  it('opens a square wound the other way under the non-zero rule', () => {
    const regions = regionsFromRings([square(0, 0, 90), [...square(20, 20, 50)].reverse()], 'nonzero');
    expect(total(regions)).toBeCloseTo(5600, 6);
  });

  it('splits a bow tie into its two halves', () => {
    const bow: Ring = [
      [0, 0],
      [10, 10],
      [10, 0],
      [0, 10],
    ];
    const regions = regionsFromRings([bow], 'evenodd');
    expect(regions).toHaveLength(2);
    expect(total(regions)).toBeCloseTo(50, 6);
  });

  it('gives an island inside an opening as a region of its own', () => {
    const regions = regionsFromRings([square(0, 0, 90), square(10, 10, 70), square(30, 30, 20)], 'evenodd');
    expect(regions.map((region) => Math.round(regionArea(region))).sort((a, b) => a - b)).toEqual([
      400, 3200,
    ]);
  });
});

describe('combineRegions against polygon-clipping', () => {
  it('covers the same area as the second engine, for random stars', () => {
    fc.assert(
      fc.property(star, star, (a, b) => {
        const [p, q] = [solid(a), solid(b)];
        const united = total(combineRegions('union', [p], [q]));
        const second = coveredArea([p, q]);
        expect(united).toBeCloseTo(second.area, 1);
        const shared = total(combineRegions('intersection', [p], [q]));
        expect(shared).toBeCloseTo(second.overlap, 1);
        expect(total(combineRegions('difference', [p], [q]))).toBeCloseTo(regionArea(p) - shared, 1);
      }),
      { seed: 3, numRuns: 60 },
    );
  });
});

describe('combineRegions in whole numbers', () => {
  // Of sets, from memory: what two cover together and what they share add up to both.
  it('loses nothing where outlines touch themselves at many corners', () => {
    const first = regionsFromRings(
      [
        [
          [0, 3],
          [0, 0],
          [3, 3],
          [4, 4],
          [1, 0],
        ],
      ],
      'nonzero',
    );
    const second = regionsFromRings(
      [
        [
          [4, 1],
          [1, 4],
          [0, 1],
          [4, 3],
          [1, 4],
          [0, 3],
        ],
      ],
      'evenodd',
    );
    const together = total(combineRegions('union', first, second));
    const shared = total(combineRegions('intersection', first, second));
    expect(together + shared).toBeCloseTo(total(first) + total(second), 3);
  });

  it('covers the cells that counting gives, every region valid by a second library: random boxes, rings either way', () => {
    const random = seeded(8);
    const whole = (from: number, to: number) => from + Math.floor((to - from) * random());
    const boxes = (count: number) =>
      Array.from({ length: count }, (): Box => {
        const [minX, minY] = [whole(0, 9), whole(0, 9)];
        return { minX, minY, maxX: whole(minX + 1, 11), maxY: whole(minY + 1, 11) };
      });
    const has = (all: readonly Box[], x: number, y: number) =>
      all.some(({ minX, minY, maxX, maxY }) => x >= minX && x < maxX && y >= minY && y < maxY);
    const regions = (all: readonly Box[]) =>
      all.map(boxRing).map((ring) => solid(random() < 0.5 ? ring : [...ring].reverse()));
    for (let round = 0; round < 50; round++) {
      const [a, b] = [boxes(1 + (round % 3)), boxes(1 + (round % 4))];
      const cells = { union: 0, difference: 0, intersection: 0 };
      for (let x = 0; x < 11; x++) {
        for (let y = 0; y < 11; y++) {
          if (has(a, x, y) || has(b, x, y)) cells.union++;
          if (has(a, x, y) && !has(b, x, y)) cells.difference++;
          if (has(a, x, y) && has(b, x, y)) cells.intersection++;
        }
      }
      for (const operation of ['union', 'difference', 'intersection'] as const) {
        const found = combineRegions(operation, regions(a), regions(b));
        expect(total(found), `${operation} ${round}`).toBeCloseTo(cells[operation], 6);
        for (const region of found)
          expect(referenceRegion(region).fault, `${operation} ${round}`).toBeUndefined();
      }
    }
  });

  it('keeps the opening of one side out, whichever way its ring runs, and needs no other side', () => {
    for (const opening of [square(2, 2, 4), [...square(2, 2, 4)].reverse()]) {
      const ring = solid(square(0, 0, 10), [opening]);
      expect(total(combineRegions('union', [ring], []))).toBeCloseTo(84, 6);
      expect(total(combineRegions('union', [], [ring]))).toBeCloseTo(84, 6);
      expect(total(combineRegions('intersection', [solid(square(0, 0, 5))], [ring]))).toBeCloseTo(16, 6);
      expect(total(combineRegions('difference', [solid(square(0, 0, 10))], [ring]))).toBeCloseTo(16, 6);
    }
  });

  it('gives islands in openings in openings as regions with openings of their own', () => {
    const target = [90, 70, 50, 30, 10].map((side) => square((90 - side) / 2, (90 - side) / 2, side));
    const rings = [...target, square(11, 11, 5), square(74, 74, 5)];
    // A square that touches the outline sends the rings through the clipper.
    const regions = regionsFromRings([...rings, square(90, 40, 5)], 'evenodd');
    const sizes = regions.map(({ outline, openings }) => [
      Math.round(ringArea(outline)),
      openings.map((opening) => Math.round(ringArea(opening))),
    ]);
    sizes.sort((a, b) => Number(b[0]) - Number(a[0]));
    expect(sizes).toEqual([
      [8125, [4900]],
      [2500, [900]],
      [100, []],
      [25, []],
      [25, []],
    ]);
  });

  it('counts windings one way only, where a convolution asks for it', () => {
    const clockwise = square(0, 0, 10);
    const counter = [...square(4, 4, 10)].reverse();
    expect(total(regionsFromRings([clockwise], 'positive'))).toBeCloseTo(100, 6);
    expect(regionsFromRings([counter], 'positive')).toEqual([]);
    // Where both lie their windings add up to none.
    expect(total(regionsFromRings([clockwise, counter], 'positive'))).toBeCloseTo(100 - 36, 6);
    expect(total(regionsFromRings([clockwise, clockwise, counter], 'positive'))).toBeCloseTo(100, 6);
  });

  it('parts a ring that closes in a corner by itself, among paths side by side and many round ones', () => {
    // Parts a saw's path apart: their paths touch along lines that the heights of all corners of the discs cross.
    const apart = 2 * 1.01;
    const beside = Array.from({ length: 28 }, (_, i) => {
      const [x, y] = [(40 + apart) * (i % 14), 150 * Math.floor(i / 14) + 7.3 * (i % 14)];
      return offsetRegions([solid(boxRing({ minX: x, minY: y, maxX: x + 40, maxY: y + 136 }))], 1);
    }).flat();
    const round = Array.from({ length: 320 }, (_, i) => {
      const [x, y] = [650 + 14 * (i % 20), 10 + 14 * Math.floor(i / 20) + 0.0131 * i];
      const angles = Array.from({ length: 100 }, (_, k) => (2 * Math.PI * k) / 100);
      return solid(angles.map((angle) => [x + 6 * Math.cos(angle), y + 6 * Math.sin(angle)] as const));
    });
    // Two bars of it meet in the corner (10, 904) alone.
    const closing = [
      { minX: 0, minY: 900, maxX: 10, maxY: 902 },
      { minX: 0, minY: 900, maxX: 2, maxY: 910 },
      { minX: 0, minY: 908, maxX: 12, maxY: 910 },
      { minX: 8, minY: 900, maxX: 10, maxY: 904 },
      { minX: 10, minY: 904, maxX: 12, maxY: 910 },
    ].map((box) => solid(boxRing(box)));
    const found = combineRegions('union', [...beside, ...round, ...closing], []);
    const ring = found.filter(({ outline }) => outline.every(([, y]) => y >= 900));
    // By hand: what the bars cover is 20 + 16 + 20 + 4 + 8; the ring goes through no corner twice.
    expect(total(ring)).toBeCloseTo(68, 6);
    for (const { outline, openings } of ring) {
      for (const line of [outline, ...openings]) expect(new Set(line.map(String)).size).toBe(line.length);
    }
    expect(total(found)).toBeCloseTo(total(beside) + total(round) + 68, 1);
  });

  // Of a board sawn with no kerf: the second triangle came out as wood, for the first touches the straight edge.
  it('leaves a hole a hole where another touches the edge', () => {
    const board: Ring = [
      [71.46996864723042, 0],
      [125.07244513265321, 26.689944786472257],
      [357.3498432361521, 210.27237804140896],
      [0, 210.27237804140896],
    ];
    const parts: Ring[] = [
      [
        [44.8688, 210.2724],
        [25.1749, 185.6712],
        [26.4301, 174.143],
      ],
      [
        [70.6543, 32.8425],
        [70.4963, 9.6317],
        [90.5398, 9.4953],
      ],
    ];
    const rest = combineRegions(
      'difference',
      [solid(board)],
      parts.map((part) => solid(part)),
    );
    expect(rest).toHaveLength(1);
    expect(total(rest)).toBeCloseTo(ringArea(board) - ringArea(parts[0]) - ringArea(parts[1]), 1);
  });
});

describe('offsetRegions', () => {
  it('leaves regions alone at no distance', () => {
    const region = solid(square(0, 0, 10));
    expect(offsetRegions([region], 0)).toEqual([region]);
  });

  it('is as tight as it is asked to be, growing and shrinking, whichever way the rings run', () => {
    for (const tolerance of [0.001, 0.05, 0.4]) {
      for (const outline of [square(0, 0, 40), [...square(0, 0, 40)].reverse()]) {
        const opening = [...square(15, 15, 10)];
        const region = solid(outline, [opening]);
        const steiner = (r: number) => 1600 + 160 * r + Math.PI * r * r - (10 - 2 * r) ** 2;
        const grown = total(offsetRegions([region], 2, tolerance));
        expect(grown).toBeGreaterThanOrEqual(steiner(2) - 1e-3);
        expect(grown).toBeLessThanOrEqual(steiner(2 + tolerance) + 1e-3);
        // Shrunk, the outline keeps its corners and the opening rounds them.
        const shrunk = (r: number) => (40 - 2 * r) ** 2 - (100 + 40 * r + Math.PI * r * r);
        const left = total(offsetRegions([region], -2, tolerance));
        expect(left).toBeLessThanOrEqual(shrunk(2) + 1e-3);
        expect(left).toBeGreaterThanOrEqual(shrunk(2 + tolerance) - 1e-3);
      }
    }
    expect(total(offsetRegions([solid(square(0, 0, 10))], 3))).toBe(
      total(offsetRegions([solid(square(0, 0, 10))], 3, 0.01)),
    );
  });

  it('joins what grows together, and parts what shrinks apart', () => {
    const pair = [solid(square(0, 0, 10)), solid(square(13, 0, 10))];
    expect(offsetRegions(pair, 1)).toHaveLength(2);
    expect(offsetRegions(pair, 1.6)).toHaveLength(1);
    const waist = combineRegions('union', [...pair, solid(square(9, 4, 5))], []);
    expect(waist).toHaveLength(1);
    expect(offsetRegions(waist, -2)).toHaveLength(1);
    expect(offsetRegions(waist, -2.6)).toHaveLength(2);
  });

  // Steiner formula: a convex shape of area A and perimeter P grown by d covers A + P d + pi d^2.
  it('grows a square by the Steiner formula, never by less and by no more than the tolerance', () => {
    const [d, tolerance] = [3, 0.01];
    const steiner = (r: number) => 100 + 40 * r + Math.PI * r * r;
    const area = total(offsetRegions([solid(square(0, 0, 10))], d, tolerance));
    expect(area).toBeGreaterThanOrEqual(steiner(d));
    expect(area).toBeLessThanOrEqual(steiner(d + tolerance));
  });

  it('keeps every point of the true offset inside, for random stars', () => {
    fc.assert(
      fc.property(star, fc.double({ min: 0.2, max: 5, noNaN: true }), (ring, d) => {
        const grown = offsetRegions([solid(ring)], d);
        for (const [x, y] of ring) {
          for (let k = 0; k < 16; k++) {
            const angle = (2 * Math.PI * k) / 16;
            const point = [x + 0.9999 * d * Math.cos(angle), y + 0.9999 * d * Math.sin(angle)] as const;
            expect(grown.some((region) => locateInRing(point, region.outline) === 1)).toBe(true);
          }
        }
      }),
      { seed: 9, numRuns: 20 },
    );
  });

  it('shrinks until nothing is left', () => {
    expect(total(offsetRegions([solid(square(0, 0, 10))], -2))).toBeCloseTo(36, 0);
    expect(offsetRegions([solid(square(0, 0, 10))], -6)).toEqual([]);
  });

  it('shrinks an opening as it grows the solid', () => {
    const grown = offsetRegions([solid(square(0, 0, 100), [square(30, 30, 40)])], 5);
    expect(grown).toHaveLength(1);
    expect(ringArea(grown[0].openings[0])).toBeCloseTo(900, -1);
  });
});

describe('the integer grid', () => {
  it('refuses what is out of range with a typed error', () => {
    expect(() => regionsFromRings([square(0, 0, 1e9)], 'nonzero')).toThrow(FretlayError);
    expect(() => regionsFromRings([square(Number.NaN, 0, 1)], 'nonzero')).toThrow(FretlayError);
  });

  it('keeps the digits of a small square far from the origin', () => {
    expect(signedArea(square(90_000, 90_000, 0.1))).toBeCloseTo(0.01, 9);
  });
});
