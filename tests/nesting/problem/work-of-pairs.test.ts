import { describe, expect, test } from 'vitest';
import { boxRing, type Point } from '../../../src/geometry/shapes.ts';
import { sharpTurnsOf, workOfPairs } from '../../../src/nesting/problem/work-of-pairs.ts';

const box = { outline: boxRing({ minX: 0, minY: 0, maxX: 40, maxY: 20 }), openings: [] };

/** A comb of so many slots. */
function comb(slots: number) {
  const teeth = Array.from({ length: slots }, (_, i): Point[] => [
    [3 * i, 0],
    [3 * i + 2, 0],
    [3 * i + 2, 10],
    [3 * i + 3, 10],
  ]).flat();
  return { outline: [...teeth, [3 * slots, 20], [0, 20]] as Point[], openings: [] };
}

describe('what no-fit polygons cost', () => {
  test('a right angle counts for a quarter of a turn, to either side, a gentle bend for next to nothing', () => {
    expect(sharpTurnsOf(box)).toBeCloseTo(1, 12);
    expect(sharpTurnsOf({ ...box, openings: [[...box.outline].reverse()] })).toBeCloseTo(2, 12);
    const circle = Array.from({ length: 90 }, (_, i): Point => {
      const angle = (i * Math.PI) / 45;
      return [Math.cos(angle), Math.sin(angle)];
    });
    // 90 bends of 4 degrees: 90 (1 - cos 4) / 4.
    expect(sharpTurnsOf({ outline: circle, openings: [] })).toBeCloseTo(
      22.5 * (1 - Math.cos(Math.PI / 45)),
      12,
    );
    expect(sharpTurnsOf(comb(25))).toBeGreaterThan(24);
  });

  test('grows with the teeth of either outline beside their vertices', () => {
    const plain = { vertices: 100, turns: 1 };
    const toothed = { ...plain, sharpTurns: sharpTurnsOf(comb(25)) };
    expect(workOfPairs([plain], 0)).toBe(100 * 100);
    expect(workOfPairs([toothed], 0)).toBeGreaterThan(3 * 100 * 100);
    expect(workOfPairs([{ ...plain, sharpTurns: 1.5 }], 0)).toBe(100 * 100);
  });
});
