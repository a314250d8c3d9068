import { describe, expect, it } from 'vitest';
import { regionsFromRings } from '../../src/geometry/clipper.ts';
import { locateInRing } from '../../src/geometry/ring.ts';
import {
  type Box,
  boundsOf,
  boxesOverlap,
  boxRing,
  type Point,
  type Region,
  type Ring,
} from '../../src/geometry/shapes.ts';
import { Random } from '../../src/nesting/running/random.ts';
import { largestRectangle } from '../../src/stock/largest-rectangle.ts';
import { outsideCheck } from '../outside-check.ts';
import { rectangle } from '../rectangle.ts';

const area = (box: Box | undefined) =>
  box === undefined ? 0 : (box.maxX - box.minX) * (box.maxY - box.minY);

function star(random: Random, points: number, least: number, most: number): Ring {
  return Array.from({ length: points }, (_, i): Point => {
    const angle = (2 * Math.PI * i) / points;
    const radius = random.between(least, most);
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });
}

/** The largest rectangle of raster cells that no edge enters and whose middles are inside: plain and slow. */
function byRaster({ outline, openings }: Region, cells: number): number {
  const { minX, minY, maxX, maxY } = boundsOf(outline);
  const dx = (maxX - minX) / cells;
  const dy = (maxY - minY) / cells;
  const cut = new Set<number>();
  for (const ring of [outline, ...openings]) {
    ring.forEach(([bx, by], i) => {
      const [ax, ay] = ring[(i + ring.length - 1) % ring.length];
      // Steps a hundredth of a cell long miss no cell by more than a hundredth of it.
      const steps = Math.ceil((100 * Math.hypot(bx - ax, by - ay)) / Math.min(dx, dy));
      for (let s = 0; s <= steps; s++) {
        const column = Math.floor((ax + (s / steps) * (bx - ax) - minX) / dx);
        const row = Math.floor((ay + (s / steps) * (by - ay) - minY) / dy);
        cut.add(row * cells + column);
      }
    });
  }
  const solid = (x: number, y: number) =>
    locateInRing([x, y], outline) >= 0 && openings.every((ring) => locateInRing([x, y], ring) <= 0);
  const heights = new Array<number>(cells).fill(0);
  let best = 0;
  for (let row = 0; row < cells; row++) {
    for (let column = 0; column < cells; column++) {
      const isSolid =
        !cut.has(row * cells + column) && solid(minX + (column + 0.5) * dx, minY + (row + 0.5) * dy);
      heights[column] = isSolid ? heights[column] + 1 : 0;
    }
    for (let from = 0; from < cells; from++) {
      let height = Number.POSITIVE_INFINITY;
      for (let to = from; to < cells && height > 0; to++) {
        height = Math.min(height, heights[to]);
        best = Math.max(best, height * (to - from + 1));
      }
    }
  }
  return best * dx * dy;
}

/** The greatest area of a box in `whole` that meets none of the others: its sides lie on theirs, so all are tried. */
function byCorners(others: readonly Box[], whole: Box, least: { length: number; width: number }): number {
  const all = [whole, ...others];
  const xs = all.flatMap(({ minX, maxX }) => [minX, maxX]);
  const ys = all.flatMap(({ minY, maxY }) => [minY, maxY]);
  let best = 0;
  for (const minX of xs) {
    for (const maxX of xs) {
      if (maxX - minX < Math.max(1, least.length)) continue;
      for (const minY of ys) {
        for (const maxY of ys) {
          const size = (maxX - minX) * (maxY - minY);
          if (maxY - minY < Math.max(1, least.width) || size <= best) continue;
          if (!others.some((other) => boxesOverlap(other, { minX, minY, maxX, maxY }))) best = size;
        }
      }
    }
  }
  return best;
}

/** True when the box lies in the region: none of many points on its edges and inside is out of it. */
function liesInside(box: Box, { outline, openings }: Region): boolean {
  for (let i = 0; i <= 40; i++) {
    for (let j = 0; j <= 40; j++) {
      const point: Point = [
        box.minX + (i / 40) * (box.maxX - box.minX),
        box.minY + (j / 40) * (box.maxY - box.minY),
      ];
      if (locateInRing(point, outline, 1e-6) < 0) return false;
      if (openings.some((ring) => locateInRing(point, ring, 1e-6) > 0)) return false;
    }
  }
  return true;
}

describe('largestRectangle', () => {
  // Closed form: the largest rectangle in an ellipse with half-axes a and b has the area 2 a b.
  it('fills 2 a b of an ellipse', () => {
    const ellipse: Ring = Array.from({ length: 720 }, (_, i): Point => {
      const angle = (Math.PI * i) / 360;
      return [300 * Math.cos(angle), 80 * Math.sin(angle)];
    });
    const found = area(largestRectangle({ outline: ellipse, openings: [] }));
    outsideCheck({
      what: 'Largest upright rectangle in an ellipse, as a share of 2 a b',
      source: 'Closed form: 2 a b',
      expected: 1,
      found: found / (2 * 300 * 80),
      tolerance: 1e-3,
    });
    expect(found / (2 * 300 * 80)).toBeLessThanOrEqual(1);
  });

  // Closed form: the largest rectangle in a triangle has half its area.
  it('fills half of a triangle', () => {
    const triangle: Ring = [
      [0, 100],
      [370, 100],
      [91, 0],
    ];
    outsideCheck({
      what: 'Largest rectangle in a triangle of base 370 and height 100 mm, mm2',
      source: 'Closed form: half the area of the triangle',
      expected: 9250,
      found: area(largestRectangle({ outline: triangle, openings: [] })),
      tolerance: 0.05,
    });
  });

  it('is the board itself for a rectangle, and the better side of an L', () => {
    const l: Ring = [
      [0, 0],
      [100, 0],
      [100, 30],
      [40, 30],
      [40, 90],
      [0, 90],
    ];
    expect(largestRectangle({ outline: l, openings: [] })).toEqual({ minX: 0, minY: 0, maxX: 40, maxY: 90 });
    expect(largestRectangle({ outline: l, openings: [] }, { length: 60, width: 20 })).toEqual({
      minX: 0,
      minY: 0,
      maxX: 100,
      maxY: 30,
    });
    expect(largestRectangle({ outline: l, openings: [] }, { length: 60, width: 40 })).toBeUndefined();
  });

  it('is the largest box that meets no opening, over random boards with openings, and of the least size', () => {
    const random = new Random(23);
    const whole = (from: number, below: number) => from + random.below(below);
    for (let round = 0; round < 20; round++) {
      const openings = Array.from({ length: 4 }, (_, i): Box => {
        const [minX, minY] = [whole(2 + 30 * (i % 2), 15), whole(2 + 20 * Math.floor(i / 2), 10)];
        return { minX, minY, maxX: minX + whole(1, 12), maxY: minY + whole(1, 7) };
      });
      const region = { outline: rectangle(60, 40), openings: openings.map(boxRing) };
      const least = { length: whole(0, 50), width: whole(0, 30) };
      const expected = byCorners(openings, { minX: 0, minY: 0, maxX: 60, maxY: 40 }, least);
      const box = largestRectangle(region, least);
      expect(area(box), `round ${round}`).toBeCloseTo(expected, 6);
      if (box === undefined) continue;
      expect(box.maxX - box.minX).toBeGreaterThanOrEqual(least.length);
      expect(box.maxY - box.minY).toBeGreaterThanOrEqual(least.width);
      expect(liesInside(box, region)).toBe(true);
    }
  });

  it('fills half of a leaning square, of a rhombus and between two slanting edges, wherever they lie', () => {
    // By hand: in a rhombus with diagonals p and q the largest has the sides p / 2 and q / 2.
    const rhombus = (p: number, q: number, x: number, y: number): Ring => [
      [x - p / 2, y],
      [x, y - q / 2],
      [x + p / 2, y],
      [x, y + q / 2],
    ];
    for (const [p, q, x, y] of [
      [100, 100, 0, 0],
      [300, 40, 1000, -500],
      [7, 90, -333, 20],
    ]) {
      const box = largestRectangle({ outline: rhombus(p, q, x, y), openings: [] })!;
      expect(area(box) / ((p * q) / 4)).toBeGreaterThan(0.999);
      expect(area(box) / ((p * q) / 4)).toBeLessThanOrEqual(1 + 1e-9);
      expect((box.minX + box.maxX) / 2).toBeCloseTo(x, 0);
      expect(box.maxX - box.minX).toBeCloseTo(p / 2, -0.5);
    }
    // A parallelogram 200 long and 50 high that leans by 40: from height to height 160 x 50, the full height is best.
    const leaning: Ring = [
      [0, 0],
      [200, 0],
      [240, 50],
      [40, 50],
    ];
    const box = largestRectangle({ outline: leaning, openings: [] })!;
    expect(area(box)).toBeGreaterThan(8000 * 0.999);
    expect(area(box)).toBeLessThanOrEqual(8000 + 1e-6);
  });

  it('finds a tower that stands between two even columns, whichever way the ring runs', () => {
    // On 960 mm the even columns are 10 mm apart; the towers stand on a strip 1 mm high.
    for (const [left, right] of [
      [33, 38],
      [502, 509],
      [944, 949.5],
    ]) {
      const tower: Ring = [
        [0, 400],
        [left, 400],
        [left, 0],
        [right, 0],
        [right, 400],
        [960, 400],
        [960, 401],
        [0, 401],
      ];
      for (const outline of [tower, [...tower].reverse()]) {
        const box = largestRectangle({ outline, openings: [] });
        expect(box).toEqual({ minX: left, minY: 0, maxX: right, maxY: 401 });
      }
    }
  });

  it('ends at the very vertex also where another one lies close by, on the left and on the right', () => {
    const stepped: Ring = [
      [0, 0],
      [960, 0],
      [960, 100],
      [103, 100],
      [103, 60],
      [101, 60],
      [101, 30],
      [0, 30],
    ];
    const mirrored = stepped.map(([x, y]): Point => [960 - x, y]);
    expect(largestRectangle({ outline: stepped, openings: [] })).toMatchObject({ minX: 103, maxX: 960 });
    const right = largestRectangle({ outline: mirrored, openings: [] })!;
    expect([right.minX, right.maxX]).toEqual([0, 857]);
  });

  it('takes the rails around a large opening and never the opening', () => {
    const frame = {
      outline: rectangle(100, 60),
      openings: [boxRing({ minX: 4, minY: 7, maxX: 94, maxY: 55 })],
    };
    expect(largestRectangle(frame)).toEqual({ minX: 0, minY: 0, maxX: 100, maxY: 7 });
    expect(largestRectangle(frame, { length: 5, width: 10 })).toEqual({
      minX: 94,
      minY: 0,
      maxX: 100,
      maxY: 60,
    });
    expect(largestRectangle(frame, { length: 10, width: 10 })).toBeUndefined();
  });

  it('is none of a line, of nothing, or where the box or the area is too small', () => {
    const board = { outline: rectangle(80, 30), openings: [] };
    const size = { minX: 0, minY: 0, maxX: 80, maxY: 30 };
    expect(largestRectangle(board, { length: 80, width: 30 })).toEqual(size);
    expect(largestRectangle(board, { length: 80.1, width: 1 })).toBeUndefined();
    expect(largestRectangle(board, { length: 1, width: 30.1 })).toBeUndefined();
    expect(largestRectangle({ outline: [], openings: [] })).toBeUndefined();
    const line: Ring = [
      [0, 0],
      [10, 0],
    ];
    expect(largestRectangle({ outline: line, openings: [] })).toBeUndefined();
  });

  it('is at least as large as what a raster finds, and lies inside, on random outlines with holes', () => {
    const random = new Random(11);
    for (let round = 0; round < 14; round++) {
      const outline = star(random, 5 + random.below(40), 60, 200);
      const [region] = regionsFromRings(
        [outline, round % 2 === 0 ? [] : star(random, 6 + random.below(9), 10, 40)].filter(
          (ring) => ring.length > 0,
        ),
        'evenodd',
      );
      const box = largestRectangle(region)!;
      expect(area(box)).toBeGreaterThanOrEqual(0.999 * byRaster(region, 90));
      expect(liesInside(box, region)).toBe(true);
    }
  });
});
