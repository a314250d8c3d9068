import { expect, test } from 'vitest';
import { distanceToEdges } from '../../src/geometry/ring.ts';
import { box } from '../rectangle.ts';

test('the nearest edge of a region is that of its outline or of one of its openings', () => {
  const region = { outline: box(0, 0, 100, 60), openings: [box(30, 20, 40, 40), box(80, 20, 90, 40)] };
  expect(distanceToEdges([10, 5], region)).toBeCloseTo(5, 9);
  expect(distanceToEdges([47, 30], region)).toBeCloseTo(7, 9);
  // More openings than a call takes arguments.
  const pierced = { ...region, openings: new Array(200_000).fill(box(30, 20, 40, 40)) };
  expect(distanceToEdges([47, 30], pierced)).toBeCloseTo(7, 9);
});
