import { expect, test } from 'vitest';
import type { Ring } from '../../../src/geometry/shapes.ts';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import { ExactCheck } from '../../../src/nesting/arrangement/exact-check.ts';
import { buildProblem, containerFrom } from '../../../src/nesting/problem/problem-spec.ts';

const square = (side: number): Ring => [
  [0, 0],
  [side, 0],
  [side, side],
  [0, side],
];

/** Two squares of 20 mm, the second moved by (x, y). */
function passes(gap: number, x: number, y: number): boolean {
  const { problem } = buildProblem({
    shapes: [
      {
        region: { outline: square(20), openings: [] },
        lies: [{ degrees: 0, turnedOver: false }],
        onEdge: false,
        copies: 2,
        perSet: 2,
      },
    ],
    containers: [containerFrom({ outline: square(100), openings: [] }, 1, 0)],
    gap,
    margin: 0,
  });
  const arrangement = new Arrangement(2);
  arrangement.container.fill(0);
  arrangement.x[1] = x;
  arrangement.y[1] = y;
  return new ExactCheck(problem).passes(arrangement);
}

test('touching passes without a gap, overlapping and lying on top of each other does not', () => {
  expect(passes(0, 20, 0)).toBe(true);
  expect(passes(0, 19.9, 3)).toBe(false);
  expect(passes(0, 0, 0)).toBe(false);
  expect(passes(0, 20, 20)).toBe(true);
});

test('the gap is measured from edge to edge and from corner to corner', () => {
  expect(passes(3, 23, 5)).toBe(true);
  expect(passes(3, 22.9, 5)).toBe(false);
  expect(passes(5, 23, 24)).toBe(true);
  expect(passes(5, 22.9, 24)).toBe(false);
});
