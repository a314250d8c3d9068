import { expect, test } from 'vitest';
import type { Ring } from '../../../src/geometry/shapes.ts';
import { clearEnd } from '../../../src/nesting/arrangement/clear-end.ts';
import { containerFrom } from '../../../src/nesting/problem/problem-spec.ts';

const box: Ring = [
  [0, 0],
  [400, 0],
  [400, 100],
  [0, 100],
];

test('the clear end of a board is what lies beyond its copies, less the knots in it', () => {
  const plain = containerFrom({ outline: box, openings: [] }, 1, 0);
  expect(clearEnd(plain, 250)).toBe(150 * 100);
  const knot: Ring = [
    [240, 40],
    [260, 40],
    [260, 60],
    [240, 60],
  ];
  // Half of the knot lies under the line.
  expect(clearEnd(containerFrom({ outline: box, openings: [knot] }, 1, 0), 250)).toBe(150 * 100 - 10 * 20);
});

test('the end of a slab counts as wide as it is, whichever way its outline runs', () => {
  // By hand: a board of 100 mm that tapers to a point over its last 200 mm; beyond 300 mm lies a triangle of 100 x 50.
  const taper: Ring = [
    [0, 0],
    [200, 0],
    [400, 50],
    [200, 100],
    [0, 100],
  ];
  for (const outline of [taper, [...taper].reverse()]) {
    const slab = containerFrom({ outline, openings: [] }, 1, 0);
    expect(clearEnd(slab, 300)).toBeCloseTo((100 * 50) / 2, 6);
    expect(clearEnd(slab, 0)).toBeCloseTo(200 * 100 + (200 * 100) / 2, 6);
    expect(clearEnd(slab, 400)).toBe(0);
  }
});
