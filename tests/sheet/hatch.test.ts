import { expect, test } from 'vitest';
import { insideRegion } from '../../src/geometry/ring.ts';
import { hatchLines } from '../../src/sheet/marks/hatch.ts';
import { box, circle } from './hand-layout.ts';

test('hatching rises to the right at 45 degrees and lies inside', () => {
  const region = { outline: circle(20, 20, 10, 96), openings: [circle(20, 20, 4, 48)] };
  const lines = hatchLines([region], 1.5);
  expect(lines.length).toBeGreaterThan(10);
  for (const [[ax, ay], [bx, by]] of lines) {
    expect(Math.abs(ax + ay - (bx + by))).toBeLessThan(0.001);
    expect(insideRegion([(ax + bx) / 2, (ay + by) / 2], region)).toBe(true);
  }
});

test('the total length of hatching is the area by the spacing', () => {
  // Parallel lines at a distance s cross an area A over a length of about A / s (Cavalieri's principle).
  const lines = hatchLines([{ outline: box(3, 5, 60, 40), openings: [] }], 0.5);
  const length = lines.reduce((sum, [[ax, ay], [bx, by]]) => sum + Math.hypot(bx - ax, by - ay), 0);
  expect(Math.abs(length / ((60 * 40) / 0.5) - 1)).toBeLessThan(0.01);
});

test('neighbouring lines are as far apart as asked for, in all regions alike', () => {
  const sums = hatchLines(
    [
      { outline: box(0, 0, 20, 20), openings: [] },
      { outline: box(31, 7, 9, 9), openings: [] },
    ],
    2,
  )
    .map(([[x, y]]) => (x + y) / (2 * Math.SQRT2))
    .map((steps) => Math.abs(steps - Math.round(steps)));
  expect(Math.max(...sums)).toBeLessThan(0.001);
});

test('nothing and a line without width are not hatched', () => {
  expect(hatchLines([], 1)).toEqual([]);
  expect(
    hatchLines(
      [
        {
          outline: [
            [0, 0],
            [5, 0],
            [9, 0],
          ],
          openings: [],
        },
      ],
      1,
    ),
  ).toEqual([]);
});
