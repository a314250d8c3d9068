import { describe, expect, it } from 'vitest';
import { distanceToSegment } from '../../src/geometry/ring.ts';
import { segmentHull } from '../../src/geometry/segment-hull.ts';
import {
  type Box,
  boundsOf,
  boxHolds,
  boxRing,
  middleOf,
  type Point,
  sidesOf,
} from '../../src/geometry/shapes.ts';
import { simplifyRing } from '../../src/geometry/simplify-ring.ts';
import { seeded } from '../seeded.ts';

const OUTER: Box = { minX: -1, minY: 2, maxX: 5, maxY: 9 };

describe('boxes', () => {
  it('hold themselves and what is inside, and nothing that sticks out on any side', () => {
    expect(boxHolds(OUTER, OUTER)).toBe(true);
    expect(boxHolds(OUTER, { minX: 0, minY: 3, maxX: 4, maxY: 8 })).toBe(true);
    for (const [side, beyond] of [
      ['minX', -1.1],
      ['minY', 1.9],
      ['maxX', 5.1],
      ['maxY', 9.1],
    ] as const) {
      expect(boxHolds(OUTER, { ...OUTER, [side]: beyond }), side).toBe(false);
    }
  });

  it('have a shorter and a longer side, and a middle, wherever they lie', () => {
    expect(sidesOf(OUTER)).toEqual([6, 7]);
    expect(sidesOf({ minX: -1, minY: 2, maxX: 19, maxY: 4 })).toEqual([2, 20]);
    expect(middleOf(OUTER)).toEqual([2, 5.5]);
  });

  it('have four corners, in turn round them', () => {
    expect(boxRing(OUTER)).toEqual([
      [-1, 2],
      [5, 2],
      [5, 9],
      [-1, 9],
    ]);
    expect(boundsOf(boxRing(OUTER))).toEqual(OUTER);
  });

  it('of an arc have corners at the reach of its ellipse', () => {
    const arc = {
      kind: 'arc',
      centre: [10, 20],
      u: [3, 1],
      v: [-4, 2],
      start: 0,
      sweep: 1,
      to: [0, 0],
    } as const;
    const [dx, dy] = [5, Math.sqrt(5)];
    expect(segmentHull(arc)).toEqual([
      [10 - dx, 20 - dy],
      [10 + dx, 20 - dy],
      [10 + dx, 20 + dy],
      [10 - dx, 20 + dy],
    ]);
  });
});

describe('a simplified ring', () => {
  it('passes every vertex within the tolerance, and leaves out all it may of a fine circle', () => {
    const random = seeded(9);
    for (let round = 0; round < 40; round++) {
      const tolerance = 10 ** (-2 + 2 * random());
      const ring = Array.from({ length: 80 }, (_, i): Point => {
        const angle = (2 * Math.PI * i) / 80;
        const radius = 20 + 3 * random();
        return [300 + radius * Math.cos(angle), -700 + radius * Math.sin(angle)];
      });
      const kept = simplifyRing(ring, tolerance);
      const away = ring.map(([x, y]) =>
        Math.min(
          ...kept.map(([ax, ay], i) => {
            const [bx, by] = kept[(i + 1) % kept.length];
            return distanceToSegment(x, y, ax, ay, bx, by);
          }),
        ),
      );
      expect(Math.max(...away)).toBeLessThanOrEqual(tolerance);
      expect(kept.every((point) => ring.includes(point))).toBe(true);
    }
    const circle = Array.from({ length: 3600 }, (_, i): Point => {
      const angle = (2 * Math.PI * i) / 3600;
      return [900 + 50 * Math.cos(angle), 40 + 50 * Math.sin(angle)];
    });
    // A chord with a sagitta of s spans 2 acos(1 - s/r); halving again and again needs at most twice as many.
    const fewest = Math.PI / Math.acos(1 - 0.05 / 50);
    expect(simplifyRing(circle, 0.05).length).toBeLessThan(2 * fewest);
    expect(simplifyRing(circle, 0)).toBe(circle);
  });
});
