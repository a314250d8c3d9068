import { expect, test } from 'vitest';
import { combineRegions, offsetRegions } from '../../../src/geometry/clipper.ts';
import { distanceToSegment, insideRegion, regionArea } from '../../../src/geometry/ring.ts';
import type { Region } from '../../../src/geometry/shapes.ts';
import { simplifyOutward } from '../../../src/nesting/problem/simplify-outward.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { blob } from '../random-batch.ts';

const area = (regions: readonly Region[]) => regions.reduce((sum, region) => sum + regionArea(region), 0);

test('the simplified region holds the true one and stays within the tolerance', () => {
  const random = new Random(3);
  for (const points of [7, 50, 400, 2000]) {
    for (const tolerance of [0.02, 0.1, 0.3]) {
      const truth = {
        outline: blob(random, points, 40, 70, true),
        openings: [blob(random, points, 10, 15, true)],
      };
      const simple = simplifyOutward(truth, tolerance);
      // The grid of the boolean operations is 1e-4 mm; a sliver of that width along the outline is rounding.
      expect(area(combineRegions('difference', [truth], [simple]))).toBeLessThan(1e-4 * 600);
      const grown = offsetRegions([truth], tolerance + 1e-3);
      expect(area(combineRegions('difference', [simple], grown))).toBeLessThan(1e-4 * 600);
      expect(simple.outline.length).toBeLessThanOrEqual(points);
    }
  }
});

test('no vertex lies farther outside than the tolerance where teeth are acute', () => {
  // The tips of both sides of a tooth meet far beyond an edge that is nearly one of them.
  const teeth = Array.from({ length: 300 }, (_, i) => {
    const t = i / 299;
    return [80 * t - 40, -2 - 30 * Math.sin(Math.PI * t) - 2 * Math.sin(450 * t)] as const;
  });
  const truth = { outline: [[-40, 0] as const, ...teeth, [40, 0] as const], openings: [] };
  const simple = simplifyOutward(truth, 0.1);
  expect(simple.outline.length).toBeLessThan(truth.outline.length);
  const outside = simple.outline.filter((point) => !insideRegion(point, truth));
  for (const [x, y] of outside) {
    const distances = truth.outline.map(([ax, ay], i) => {
      const [bx, by] = truth.outline[(i + 1) % truth.outline.length];
      return distanceToSegment(x, y, ax, ay, bx, by);
    });
    expect(Math.min(...distances)).toBeLessThan(0.1 + 1e-9);
  }
});

test('2,000 vertices of a smooth outline become under 160 at 0.1 mm', () => {
  const truth = { outline: blob(new Random(3), 2000, 40, 70, true), openings: [] };
  expect(simplifyOutward(truth, 0.1).outline.length).toBeLessThan(160);
});
