import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/nesting/running/random.ts';
import { LinearProgram } from '../../../src/nesting/sliding/linear-program.ts';
import { outsideCheck } from '../../outside-check.ts';

function program(cost: number[], low: number, high: number, rows: [number[], number][]): LinearProgram {
  const lp = new LinearProgram(cost.length);
  lp.cost.set(cost);
  lp.low.fill(low);
  lp.high.fill(high);
  for (const [coefficients, bound] of rows) {
    const start = lp.addRow(bound);
    lp.coefficients.set(coefficients, start);
  }
  return lp;
}

describe('LinearProgram', () => {
  test('a textbook program: max 3x + 5y, x <= 4, 2y <= 12, 3x + 2y <= 18 gives 36 at (2, 6)', () => {
    const lp = program([-3, -5], 0, 100, [
      [[-1, 0], -4],
      [[0, -2], -12],
      [[-3, -2], -18],
    ]);
    expect(lp.solve()).toBe(true);
    outsideCheck({
      what: 'Where max 3x + 5y with x <= 4, 2y <= 12, 3x + 2y <= 18 lies: x, y',
      source: 'Hillier and Lieberman, Introduction to Operations Research, Wyndor Glass (from memory)',
      expected: [2, 6],
      found: [lp.value[0], lp.value[1]],
      tolerance: 1e-12,
    });
  });

  test('contradictory rows have no solution', () => {
    expect(program([1, 1], -1, 1, [[[1, 1], 3]]).solve()).toBe(false);
  });

  test('no random feasible point is cheaper than the solution, and the solution is feasible', () => {
    const random = new Random(4);
    for (let round = 0; round < 60; round++) {
      const size = 2 + random.below(5);
      const vector = () => Array.from({ length: size }, () => random.between(-1, 1));
      const cost = vector();
      // Rows that all hold at the origin with some room, so that the program has a solution.
      const rows = Array.from({ length: 12 }, (): [number[], number] => [vector(), -random.unit()]);
      const lp = program(cost, -2, 2, rows);
      expect(lp.solve()).toBe(true);
      const dot = (a: ArrayLike<number>, b: ArrayLike<number>) =>
        Array.from(a).reduce((sum, value, i) => sum + value * b[i], 0);
      for (const [row, bound] of rows) expect(dot(row, lp.value)).toBeGreaterThan(bound - 1e-9);
      const least = dot(cost, lp.value);
      for (let i = 0; i < 2000; i++) {
        const point = Array.from({ length: size }, () => random.between(-2, 2));
        if (rows.every(([row, bound]) => dot(row, point) >= bound)) {
          expect(dot(cost, point)).toBeGreaterThan(least - 1e-9);
        }
      }
    }
  });
});
