import { expect, it } from 'vitest';
import { heightsWithin } from '../../src/geometry/heights-within.ts';

const roof = [
  [0, 50],
  [0, 20],
  [40, 0],
  [80, 20],
  [80, 50],
] as const;

it.each([
  ['all of it', -10, 90, [0, 50]],
  ['a stretch of its slopes', 20, 30, [5, 50]],
  ['one line', 60, 60, [10, 50]],
  ['an upright side', 80, 100, [20, 50]],
  ['nothing of it', 81, 90, [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]],
])('tells how high %s reaches', (_, from, to, heights) => {
  expect(heightsWithin(roof, from, to)).toEqual(heights);
});
