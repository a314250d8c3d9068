import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coveredArea } from '../../src/geometry/area-check.ts';
import { clipLines, combineRegions, offsetRegions, regionsFromRings } from '../../src/geometry/clipper.ts';
import { locateInRing, regionArea, ringArea, signedArea } from '../../src/geometry/ring.ts';
import type { Region, Ring } from '../../src/geometry/shapes.ts';
import { FretlayError } from '../../src/issues/fretlay-error.ts';
import { outsideCheck } from '../outside-check.ts';

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
      { seed: 3, numRuns: 150 },
    );
  });
});

describe('offsetRegions', () => {
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
      { seed: 9, numRuns: 40 },
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

describe('clipLines', () => {
  it('keeps what lies in the solid and leaves out what lies in an opening', () => {
    const pieces = clipLines(
      [
        [
          [-10, 50],
          [110, 50],
        ],
      ],
      [solid(square(0, 0, 100), [square(40, 40, 20)])],
    );
    const lengths = pieces.map((line) => Math.abs(line[line.length - 1][0] - line[0][0])).sort();
    expect(lengths).toEqual([40, 40]);
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
