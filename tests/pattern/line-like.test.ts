import { expect, test } from 'vitest';
import type { Point, Region } from '../../src/geometry/shapes.ts';
import { widthOfLine } from '../../src/pattern/line-like.ts';

/** A wave 1 m long as a ribbon so wide, in so many points. */
function ribbon(width: number, points: number): Region {
  const half = points / 2;
  const upper = Array.from({ length: half }, (_, i): Point => {
    const x = (1000 * i) / (half - 1);
    return [x, 20 * Math.sin(x / 100)];
  });
  const lower = upper.map(([x, y]): Point => [x, y + width]).reverse();
  return { outline: [...upper, ...lower], openings: [] };
}

test('the width of a ribbon is told to a tenth of a millimetre, and no less than it is where points are too many for that', () => {
  expect(widthOfLine(ribbon(1, 400))).toBeCloseTo(1, 1);
  const rough = widthOfLine(ribbon(1, 6000)) ?? 0;
  expect(rough).toBeGreaterThan(0.95);
  expect(rough).toBeLessThan(1.35);
});

test('a ribbon wider than the thinnest neck is a part with a body, in few points and many', () => {
  expect(widthOfLine(ribbon(1.75, 400))).toBeUndefined();
  expect(widthOfLine(ribbon(1.75, 6000))).toBeUndefined();
});

test('fifty hairlines along the page are told in moments', () => {
  const started = performance.now();
  for (let i = 0; i < 50; i++) {
    const y = i / 10;
    const outline: Point[] = [
      [0, y],
      [300, y],
      [300, y + 0.05],
      [0, y + 0.05],
    ];
    expect(widthOfLine({ outline, openings: [] })).toBeCloseTo(0.05, 9);
  }
  expect(performance.now() - started).toBeLessThan(2000);
});
