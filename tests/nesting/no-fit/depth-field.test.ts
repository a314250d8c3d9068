import { describe, expect, test } from 'vitest';
import { applyToRegion, rotation } from '../../../src/geometry/affine.ts';
import { combineRegions } from '../../../src/geometry/clipper.ts';
import { locateInRing, regionArea, ringPerimeter } from '../../../src/geometry/ring.ts';
import type { Point, Region, Ring } from '../../../src/geometry/shapes.ts';
import { DepthField, FAR } from '../../../src/nesting/no-fit/depth-field.ts';
import { orientationsOf } from '../../../src/nesting/problem/orientations.ts';
import { PairTable } from '../../../src/nesting/problem/pair-table.ts';
import type { Orientation, Shape } from '../../../src/nesting/problem/shape.ts';
import { Random } from '../../../src/nesting/running/random.ts';

const square: Ring = [
  [0, 0],
  [10, 0],
  [10, 10],
  [0, 10],
];

function field(gap: number, insideAllowed: boolean): DepthField {
  const box = { minX: -5, minY: -5, maxX: 15, maxY: 15 };
  return DepthField.of([{ outline: square, openings: [] }], { gap, insideAllowed, box });
}

describe('DepthField', () => {
  test('depth is the signed distance to the boundary plus the gap', () => {
    const plain = field(0, false);
    expect(plain.depth(5, 2)).toBeCloseTo(2, 12);
    expect(plain.depth(-3, 5)).toBeCloseTo(-3, 12);
    // Beyond a corner the distance is that to the corner.
    expect(plain.depth(-3, -4)).toBeCloseTo(-5, 12);
    expect(field(1.5, false).depth(-1, 5)).toBeCloseTo(0.5, 12);
    expect(field(1, true).depth(5, 2)).toBeCloseTo(-1, 12);
    expect(field(1, true).depth(-3, 5)).toBeCloseTo(4, 12);
    expect(plain.depth(40, 0)).toBe(FAR);
  });

  test('depth and slope are exact where many edges are near, as of a star of 2,000 corners, also of the field moved', () => {
    const star: Ring = Array.from({ length: 2000 }, (_, i) => {
      const angle = (2 * Math.PI * i) / 2000;
      const radius = 60 + 8 * Math.sin(9 * angle) + (i % 2);
      return [radius * Math.cos(angle), radius * Math.sin(angle)];
    });
    const box = { minX: -80, minY: -80, maxX: 80, maxY: 80 };
    const plain = DepthField.of([{ outline: star, openings: [] }], { gap: 0, insideAllowed: false, box });
    const moved = plain.movedBy(300, -40);
    const random = new Random(5);
    const slope = new Float64Array(3);
    for (let n = 0; n < 400; n++) {
      const [x, y] = [random.between(-80, 80), random.between(-80, 80)];
      const distance = Math.min(
        ...star.map((from, i) => distanceToSide(x, y, from, star[(i + 1) % star.length])),
      );
      const depth = locateInRing([x, y], star) > 0 ? distance : -distance;
      for (const [place, shift] of [
        [plain, [0, 0]],
        [moved, [300, -40]],
      ] as const) {
        expect(place.depth(x + shift[0], y + shift[1])).toBeCloseTo(depth, 9);
        place.writeSlope(x + shift[0], y + shift[1], slope, 0);
        expect(slope[0]).toBeCloseTo(depth, 9);
        expect(Math.hypot(slope[1], slope[2])).toBeCloseTo(1, 9);
      }
    }
  });

  test('contacts are half planes that hold every free position near by', () => {
    const plain = field(1, false);
    const out = new Float64Array(15);
    expect(plain.contacts(12, 5, 2, out)).toBe(1);
    expect(out[0]).toBeCloseTo(1, 12);
    expect(out[1]).toBeCloseTo(1, 12);
    expect(out[2]).toBeCloseTo(0, 12);
  });
});

function distanceToSide(x: number, y: number, [ax, ay]: Point, [bx, by]: Point): number {
  const [dx, dy] = [bx - ax, by - ay];
  const along = Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
  return Math.hypot(x - ax - along * dx, y - ay - along * dy);
}

/** Shapes whose edges are often parallel: corners on a coarse grid, where unions meet their worst cases. */
function blocky(random: Random): Ring {
  const corners = 5 + random.below(4);
  return Array.from({ length: corners }, (_, i): Point => {
    const angle = (2 * Math.PI * i) / corners;
    const radius = 40 + 20 * random.below(4);
    return [
      Math.round((radius * Math.cos(angle)) / 20) * 20,
      Math.round((radius * Math.sin(angle)) / 20) * 20,
    ];
  });
}

describe('fields of pairs', () => {
  test('agree with intersecting the two regions, at random positions and at every vertex, for parallel edges too', () => {
    const random = new Random(11);
    for (let round = 0; round < 12; round++) {
      const regions = [blocky(random), blocky(random)].map((outline): Region => ({ outline, openings: [] }));
      const orientations: Orientation[] = [];
      const shapes = regions.map((region, number): Shape => {
        const lies = [0, 180, 90].map((degrees) => ({ degrees, turnedOver: number === 1 }));
        const own = orientationsOf(region, region, number, lies, false);
        const first = orientations.length;
        orientations.push(...own);
        return { region, area: regionArea(region), orientations: own.map((_, i) => first + i) };
      });
      const pairs = new PairTable(shapes, orientations, 0, 0);
      const placed = orientations.map(({ shape, degrees, turnedOver }) => {
        const flip: Region = turnedOver
          ? applyToRegion([-1, 0, 0, 1, 0, 0], shapes[shape].region)
          : shapes[shape].region;
        return applyToRegion(rotation(degrees), flip);
      });
      for (const [a] of orientations.entries()) {
        for (const [b] of orientations.entries()) {
          const { field: pair, xx, xy, yx, yy } = pairs.pair(a, b);
          const vertices = Array.from({ length: pair.vertexCount }, (_, n) => pair.vertex(n));
          const positions = [
            ...vertices.map(([x, y]): Point => [xx * x + yx * y, xy * x + yy * y]),
            ...Array.from(
              { length: 12 },
              (): Point => [random.between(-150, 150), random.between(-150, 150)],
            ),
          ];
          for (const [x, y] of positions) {
            const depth = pair.depth(xx * x + xy * y, yx * x + yy * y);
            const moved = applyToRegion([1, 0, 0, 1, x, y], placed[b]);
            const shared = combineRegions('intersection', [placed[a]], [moved]);
            const area = shared.reduce((sum, region) => sum + regionArea(region), 0);
            if (depth <= 3e-4) expect(area).toBeLessThan(2e-3 * ringPerimeter(placed[b].outline));
            if (depth > 0.01) expect(area).toBeGreaterThan(0);
          }
        }
      }
    }
  });
});
