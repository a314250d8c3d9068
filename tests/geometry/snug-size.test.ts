import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/shapes.ts';
import { snugSize } from '../../src/geometry/snug-size.ts';

/** A bar of 60 x 8 mm with a notch, turned. */
function bar(degrees: number): Point[] {
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return (
    [
      [0, 0],
      [60, 0],
      [60, 8],
      [35, 8],
      [30, 4],
      [25, 8],
      [0, 8],
    ] as const
  ).map(([x, y]): Point => [c * x - s * y, s * x + c * y]);
}

describe('the narrowest box around a part', () => {
  it.each([0, 15, 45, 90, 137])('is the same however it is turned: %d degrees', (degrees) => {
    const { length, width } = snugSize(bar(degrees));
    expect(length).toBeCloseTo(60, 9);
    expect(width).toBeCloseTo(8, 9);
  });

  it('is as long and wide as a triangle is by hand: 3, 4 and 5 with the height over the longest side', () => {
    const { length, width } = snugSize([
      [0, 0],
      [3, 0],
      [0, 4],
    ]);
    expect([length, width]).toEqual([expect.closeTo(5, 9), expect.closeTo(12 / 5, 9)]);
  });

  it('is found of outlines as fine as they come, and is none of a single point', () => {
    const fine = Array.from({ length: 50_000 }, (_, i): Point => {
      const angle = (2 * Math.PI * i) / 50_000;
      return [30 * Math.cos(angle), 20 * Math.sin(angle)];
    });
    const { length, width } = snugSize(fine);
    expect([length, width]).toEqual([expect.closeTo(60, 1), expect.closeTo(40, 1)]);
    expect(snugSize([[1, 2]])).toEqual({ length: 0, width: 0 });
  });
});
