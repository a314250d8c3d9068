import { expect, test } from 'vitest';
import { boxRing } from '../../../src/geometry/shapes.ts';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import { better, scoreOf } from '../../../src/nesting/arrangement/score.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';

const square = (size: number) => ({
  outline: boxRing({ minX: 0, minY: 0, maxX: size, maxY: size }),
  openings: [],
});

/** Three sets of one square of 30 mm and two of 10 mm each, and a part whose copies are all pinned. */
const problem = new ProblemBuilder().build({
  shapes: [
    { copies: 3, perSet: 1, size: 30 },
    { copies: 6, perSet: 2, size: 10 },
    { copies: 0, perSet: 1, size: 20 },
  ].map(({ size, ...counts }) => ({
    region: square(size),
    lies: [{ degrees: 0, turnedOver: false }],
    stands: false,
    ...counts,
  })),
  containers: [containerFrom(square(100), 1, 0)],
  gap: 0,
  margin: 0,
});

/** So many of the large squares and of the small ones lie on the board. */
function scoreWith(large: number, small: number) {
  const arrangement = new Arrangement(9);
  arrangement.container.fill(0, 0, large);
  arrangement.container.fill(0, 3, 3 + small);
  return scoreOf(problem, arrangement);
}

test('a set counts when every copy of it lies somewhere', () => {
  expect(scoreWith(2, 5).sets).toBe(2);
  expect(scoreWith(3, 5).sets).toBe(2);
  expect(scoreWith(2, 6).sets).toBe(2);
  expect(scoreWith(3, 1).sets).toBe(0);
  expect(scoreWith(3, 6).sets).toBe(Number.POSITIVE_INFINITY);
});

test('more complete sets are better than more copies, and of as many sets the one with more copies', () => {
  const twoSets = scoreWith(2, 4);
  const moreCopies = scoreWith(1, 6);
  expect(moreCopies.missing).toBeLessThan(twoSets.missing);
  expect(better(twoSets, moreCopies)).toBe(true);
  expect(better(moreCopies, twoSets)).toBe(false);
  expect(better(scoreWith(2, 5), twoSets)).toBe(true);
  expect(better(scoreWith(3, 6), scoreWith(3, 5))).toBe(true);
});
