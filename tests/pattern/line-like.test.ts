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

test('the width of a ribbon is told to a tenth of a millimetre, in few points and many', () => {
  expect(widthOfLine(ribbon(1, 400))).toBeCloseTo(1, 1);
  expect(widthOfLine(ribbon(1, 6000))).toBeCloseTo(1, 1);
});

test('a line with one place as wide as a part is a part', () => {
  const line = [
    [0, 0],
    [100, 0],
    [100, 1],
    [51, 1],
    [51, 2],
    [49, 2],
    [49, 1],
    [0, 1],
  ] as const;
  // In its middle, at (50, 1), it is 1 mm to the lower edge, to the upper one and to both inner corners: 2 mm wide.
  expect(widthOfLine({ outline: line, openings: [] })).toBeUndefined();
  const lower = line.map(([x, y]) => [x, y === 2 ? 1.3 : y] as const);
  expect(widthOfLine({ outline: lower, openings: [] })).toBeLessThan(1.6);
});

test('a hairline along either side of the page is as wide as its box, wherever it lies', () => {
  const hairline = (x: number, y: number, width: number, height: number): Region => ({
    outline: [
      [x, y],
      [x + width, y],
      [x + width, y + height],
      [x, y + height],
    ],
    openings: [],
  });
  for (const [x, y] of [
    [0, 0],
    [250, 400],
    [-250, -400],
  ]) {
    expect(widthOfLine(hairline(x, y, 300, 0.05))).toBeCloseTo(0.05, 9);
    expect(widthOfLine(hairline(x, y, 0.05, 300))).toBeCloseTo(0.05, 9);
    expect(widthOfLine(hairline(x, y, 1.5, 300))).toBeCloseTo(1.5, 9);
    expect(widthOfLine(hairline(x, y, 1.75, 300))).toBeUndefined();
    // Half of its outline against twenty times its mean width: 18.5 and 18.9 mm, 19.5 and 19 mm.
    expect(widthOfLine(hairline(x, y, 1, 17.5))).toBeUndefined();
    expect(widthOfLine(hairline(x, y, 1, 18.5))).toBeCloseTo(1, 9);
  }
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
