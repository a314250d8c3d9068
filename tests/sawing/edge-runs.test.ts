import { describe, expect, it } from 'vitest';
import { edgeEnds } from '../../src/geometry/edge-ends.ts';
import { distanceToSegment, locateInRing } from '../../src/geometry/ring.ts';
import type { Point, Ring } from '../../src/geometry/shapes.ts';
import { EdgeRuns } from '../../src/sawing/edge-runs.ts';
import { seeded } from '../seeded.ts';

/** A ring of many short edges about a place, in and out at random. */
function jagged([x, y]: Point, radius: number, random: () => number): Ring {
  return Array.from({ length: 150 }, (_, i): Point => {
    const angle = (2 * Math.PI * i) / 150;
    const far = radius * (0.7 + 0.3 * random());
    return [x + far * Math.cos(angle), y + far * Math.sin(angle)];
  });
}

describe('edges in runs', () => {
  it('answer as all edges asked one by one', () => {
    const random = seeded(3);
    const rings = [jagged([0, 0], 50, random), jagged([5, 5], 20, random)];
    const ends = edgeEnds(rings);
    const edges = Array.from({ length: ends.length / 4 }, (_, i) => [...ends.subarray(4 * i, 4 * i + 4)]);
    const runs = new EdgeRuns(ends);
    const place = (): Point => [120 * random() - 60, 120 * random() - 60];
    let held = 0;
    for (let k = 0; k < 200; k++) {
      const [from, to] = [place(), place()];
      const least = Math.min(...edges.map(([ax, ay, bx, by]) => distanceToSegment(...from, ax, ay, bx, by)));
      const nearest = runs.nearestTo(from, rings[0][0], Number.POSITIVE_INFINITY);
      expect(Math.hypot(nearest[0] - from[0], nearest[1] - from[1])).toBeCloseTo(least, 9);
      const [outside, inOpening] = rings.map((ring) => locateInRing(from, ring, 0.5));
      expect(runs.holds(from, 0.5)).toBe(outside !== -1 && inOpening !== 1);
      if (runs.holds(from, 0.5)) held++;
      // The two ends of an edge on two sides of the way, and those of the way on two sides of the edge.
      const side = (a: Point, b: Point, c: Point) =>
        Math.sign((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]));
      const crossed = edges.filter(([ax, ay, bx, by]) => {
        const [a, b]: Point[] = [
          [ax, ay],
          [bx, by],
        ];
        return side(from, to, a) !== side(from, to, b) && side(a, b, from) !== side(a, b, to);
      });
      expect(runs.meetings(from, to)).toHaveLength(crossed.length);
    }
    expect(held).toBeGreaterThan(40);
  });
});
