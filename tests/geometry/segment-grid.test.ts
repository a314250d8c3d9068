import { describe, expect, it } from 'vitest';
import { distanceToSegment } from '../../src/geometry/ring.ts';
import { SegmentGrid } from '../../src/geometry/segment-grid.ts';
import type { Point, Ring } from '../../src/geometry/shapes.ts';
import { tightestCurve } from '../../src/geometry/tightest-curve.ts';
import { outsideCheck } from '../outside-check.ts';
import { seeded } from '../seeded.ts';

function edgesOf(rings: readonly Ring[]): { a: Point; b: Point; ring: number }[] {
  return rings.flatMap((ring, number) =>
    ring.map((a, i) => ({ a, b: ring[(i + 1) % ring.length], ring: number })),
  );
}

describe('the nearest edge by cells', () => {
  it('is the one that comes out when all are tried, over random rings and reaches', () => {
    const random = seeded(7);
    for (let round = 0; round < 30; round++) {
      const size = 10 ** (4 * random());
      const rings = Array.from({ length: 1 + Math.floor(3 * random()) }, (): Ring => {
        const count = 3 + Math.floor(20 * random());
        return Array.from({ length: count }, (): Point => [size * random() - 300, size * random() + 50]);
      });
      // Not too small beside the rings: many cells are built below.
      const reach = size * (0.01 + 0.2 * random());
      const grid = new SegmentGrid(rings, reach);
      const edges = edgesOf(rings);
      expect(grid.count).toBe(edges.length);
      for (let trial = 0; trial < 40; trial++) {
        const [x, y] = [size * (1.2 * random() - 0.1) - 300, size * (1.2 * random() - 0.1) + 50];
        const within = reach * random();
        const except = Math.floor(4 * random()) - 1;
        const distances = edges.map(({ a, b, ring }) =>
          ring === except ? Infinity : distanceToSegment(x, y, a[0], a[1], b[0], b[1]),
        );
        const least = Math.min(...distances);
        expect(grid.nearest(x, y, within, except)).toBe(least < within);
        if (least >= within) {
          expect([grid.edge, grid.distance]).toEqual([-1, within]);
          continue;
        }
        expect(grid.distance).toBeCloseTo(least, 9);
        expect(distances[grid.edge]).toBeCloseTo(least, 9);
        expect(Math.hypot(grid.x - x, grid.y - y)).toBeCloseTo(least, 9);
        const { a, b } = edges[grid.edge];
        expect(distanceToSegment(grid.x, grid.y, a[0], a[1], b[0], b[1])).toBeLessThan(1e-9 * size);
      }
    }
  });

  it('copes with an edge of no length, and with a drawing large beside the reach', () => {
    const dot = new SegmentGrid([[[5, 5]]], 2);
    expect(dot.nearest(6, 5, 2)).toBe(true);
    expect([dot.x, dot.y, dot.edge, dot.distance]).toEqual([5, 5, 0, 1]);
    // Every ring counts where none is left out.
    const dots = new SegmentGrid([[[0, 0]], [[5, 5]]], 2);
    expect([dots.nearest(5, 6, 2), dots.edge]).toEqual([true, 1]);
    expect(dots.nearest(5, 6, 2, 1)).toBe(false);
    const large: Ring = [
      [0, 0],
      [1e6, 0],
      [1e6, 5e4],
    ];
    const grid = new SegmentGrid([large], 0.5);
    expect(grid.nearest(777_777, 0.25, 0.5)).toBe(true);
    expect([grid.x, grid.edge]).toEqual([777_777, 0]);
    expect(grid.nearest(777_777, 0.75, 0.5)).toBe(false);
    expect(grid.nearest(-0.2, 0, 0.5)).toBe(true);
    expect(grid.nearest(1e6 + 0.2, 5e4, 0.5)).toBe(true);
  });
});

describe('the tightest curve of a blade', () => {
  it('has a chord as long as the blade is wide at the clearance from its arc', () => {
    for (const width of [0.5, 1, 1.5, 2.8]) {
      const radius = tightestCurve(width);
      outsideCheck({
        what: `Clearance used up by a blade of ${width} mm on its tightest curve, mm`,
        source:
          'Sagitta of a circular segment, r - sqrt(r^2 - (c/2)^2) (Bronshtein, Semendyayev, circular segment)',
        expected: 0.05,
        found: radius - Math.sqrt(radius ** 2 - (width / 2) ** 2),
        tolerance: 0.003,
      });
    }
  });
});
