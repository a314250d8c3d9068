import { describe, expect, it } from 'vitest';
import { distanceToSegment } from '../../src/geometry/ring.ts';
import type { Line, Point } from '../../src/geometry/shapes.ts';
import { ThinnedLine } from '../../src/sheet/marks/thinned-line.ts';
import { seeded } from '../seeded.ts';

const UNITS = 100;
/** A hundredth of a millimetre for the points left out, and half of one for rounding. */
const OFF = 0.015 + 1e-9;

function thinned(line: Line, closed: boolean, origin: Point = [0, 0]): Point[] {
  const kept = new ThinnedLine();
  kept.set(line, closed, origin, UNITS);
  return Array.from({ length: kept.count / 2 }, (_, i) => [
    kept.coordinates[2 * i] / UNITS + origin[0],
    kept.coordinates[2 * i + 1] / UNITS + origin[1],
  ]);
}

function farthest(line: Line, from: Line, closed: boolean): number {
  const ends = closed ? [...from, from[0]] : from;
  const away = ([x, y]: Point) =>
    Math.min(...ends.slice(1).map((b, i) => distanceToSegment(x, y, ends[i][0], ends[i][1], b[0], b[1])));
  return Math.max(...line.map(away));
}

function circle(radius: number, count: number): Point[] {
  return Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * i) / count;
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });
}

describe('a line thinned for print', () => {
  it('passes within a hundredth of a millimetre of every point it leaves out, over random lines', () => {
    const random = seeded(3);
    for (let round = 0; round < 200; round++) {
      const step = 10 ** (-3 + 3 * random());
      const bend = 3 * random() ** 2;
      let heading = 0;
      let at: Point = [50 * random(), 50 * random()];
      const line = Array.from({ length: 60 }, () => {
        heading += bend * (random() - 0.5);
        at = [at[0] + step * Math.cos(heading), at[1] + step * Math.sin(heading)];
        return at;
      });
      for (const closed of [false, true]) {
        const kept = thinned(line, closed, [13.37, 4.2]);
        expect(farthest(line, kept.length > 1 ? kept : [kept[0], kept[0]], closed)).toBeLessThan(OFF);
        expect(farthest(kept, line, closed)).toBeLessThan(OFF);
      }
    }
  });

  it('needs of a circle about as many chords as its sagitta asks for', () => {
    // A chord of a circle of radius r lies s off its arc over the angle 2 acos(1 - s/r); the sleeve lets points be
    // off on one side only, so the arc is never farther than a hundredth.
    const kept = thinned(circle(20, 5000), true).length;
    const fewest = Math.PI / Math.acos(1 - 0.01 / 20);
    expect(kept).toBeLessThan(1.5 * fewest);
    expect(kept).toBeGreaterThan(0.7 * fewest);
  });

  it('keeps the ends of a line, its corners, and the tip of a spur it runs back from', () => {
    const spur: Point[] = [...[0, 1, 2, 3, 4], ...[3, 2, 1]].map((x) => [x, 0]);
    expect(thinned([...spur, [1, 5]], false)).toEqual([
      [0, 0],
      [4, 0],
      [1, 0],
      [1, 5],
    ]);
    expect(
      thinned(
        [
          [0, 0],
          [2, 0],
          [4, 0],
          [4, 3],
          [0, 3],
        ],
        true,
      ),
    ).toEqual([
      [0, 0],
      [4, 0],
      [4, 3],
      [0, 3],
    ]);
    expect(thinned([[1, 2]], false)).toEqual([[1, 2]]);
    expect(thinned([], true)).toEqual([]);
  });

  it('gives copies the same numbers, wherever they lie', () => {
    const numbers = (dx: number, dy: number) => {
      const kept = new ThinnedLine();
      const moved = circle(8, 90).map(([x, y]): Point => [x + dx, y + dy]);
      kept.set(moved, true, moved[0], UNITS);
      return [...kept.coordinates.slice(0, kept.count)];
    };
    expect(numbers(123.4567, 7.003)).toEqual(numbers(0, 0));
  });
});
