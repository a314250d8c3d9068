import { describe, expect, it } from 'vitest';
import type { Line, Point } from '../../src/geometry/shapes.ts';
import { wasteAround } from '../../src/sawing/waste.ts';
import { box } from '../rectangle.ts';
import { seeded } from '../seeded.ts';

/** Distance from a point to a segment, mm: the least over a thousand points of it. */
function distanceBySteps([x, y]: Point, [[ax, ay], [bx, by]]: Line): number {
  const steps = Array.from({ length: 1001 }, (_, i) => i / 1000);
  return Math.min(...steps.map((t) => Math.hypot(ax + t * (bx - ax) - x, ay + t * (by - ay) - y)));
}

describe('the shortest way through waste', () => {
  it('begins on the nearest of many lines, near or far, by measuring to every one', () => {
    const random = seeded(9);
    for (const [count, size] of [
      [60, 100],
      [12, 3000],
      [3, 30_000],
    ]) {
      const waste = wasteAround([]);
      const lines = Array.from({ length: count }, (): Line => {
        const [x, y] = [size * random(), size * random()];
        return [
          [x, y],
          [x + 20 * random(), y + 20 * random()],
        ];
      });
      for (const line of lines) waste.openLine(line);
      const to: Point = [size / 3, size / 2];
      const least = Math.min(...lines.map((line) => distanceBySteps(to, line)));
      expect(waste.nearestTo(to)?.length).toBeCloseTo(least, 1);
      expect(waste.wayToAny([to])?.length).toBeCloseTo(least, 1);
    }
  });

  it('begins on a farther line where a part lies before the nearest', () => {
    const waste = wasteAround([{ outline: box(5, -50, 10, 50), openings: [] }]);
    const upright = (x: number): Line => [
      [x, -10],
      [x, 10],
    ];
    for (const x of [15, -400, -90, 30]) waste.openLine(upright(x));
    expect(waste.nearestTo([0, 0])).toMatchObject({ from: [15, 0], length: 15 });
    expect(waste.wayToAny([[0, 0]])).toMatchObject({ from: [-90, 0], length: 90 });
  });

  it('begins at a slant where a part lies before the nearest place of every line, or that is far', () => {
    const waste = wasteAround([{ outline: box(5, -3, 10, 50), openings: [] }]);
    const open = (x: number) =>
      waste.openLine([
        [x, -40],
        [x, 40],
      ]);
    open(15);
    // By similar triangles a way from 15 mm off passes the corner at (5, -3) from (15, -9) on; pieces of 10 mm end at (15, -10).
    const slanting = { from: [15, -10], length: Math.hypot(15, 10) };
    expect(waste.wayToAny([[0, 0]])).toMatchObject(slanting);
    open(-31);
    expect(waste.wayToAny([[0, 0]])).toMatchObject(slanting);
    open(-29);
    expect(waste.wayToAny([[0, 0]])).toMatchObject({ from: [-29, 0] });
  });

  it('looks for none at a slant so long that it would be asked of all the pieces of a crowded board', () => {
    const waste = wasteAround([{ outline: box(5, -3, 100, 50), openings: [] }]);
    waste.openLine([
      [105, -80],
      [105, 80],
    ]);
    expect(waste.wayToAny([[0, 0]])).toBeUndefined();
  });

  it('is none where nothing is open', () => {
    expect(wasteAround([]).nearestTo([0, 0])).toBeUndefined();
  });
});
