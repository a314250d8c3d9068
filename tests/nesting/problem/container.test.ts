import { expect, it } from 'vitest';
import type { Ring } from '../../../src/geometry/shapes.ts';
import { lowered } from '../../../src/nesting/problem/container.ts';

const loweredBy8 = (outline: Ring) => lowered({ outline, openings: [] }, 8).outline;

it('moves the straight edge down and leaves slanting edges and corners beside it where they are', () => {
  const board: Ring = [
    [0, 0],
    [100, 0],
    [100, 50],
    [20, 50],
  ];
  expect(loweredBy8(board)).toEqual([
    [0, 0],
    [100, 0],
    [100, 58],
    [20, 58],
    [20, 50],
  ]);
  const corner: Ring = [
    [0, 0],
    [100, 0],
    [50, 50],
  ];
  expect(loweredBy8(corner)).toEqual(corner);
});
