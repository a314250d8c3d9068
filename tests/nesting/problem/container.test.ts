import { expect, it } from 'vitest';
import type { Ring } from '../../../src/geometry/shapes.ts';
import { withoutMargin } from '../../../src/nesting/problem/container.ts';

const lowered = (outline: Ring) => withoutMargin({ outline, openings: [] }, 8, 'straight').outline;

it('moves the straight edge down and leaves slanting edges and corners beside it where they are', () => {
  const board: Ring = [
    [0, 0],
    [100, 0],
    [100, 50],
    [20, 50],
  ];
  expect(lowered(board)).toEqual([
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
  expect(lowered(corner)).toEqual(corner);
});

it('moves the top edge up and leaves what slants beside it', () => {
  const board: Ring = [
    [0, 0],
    [80, 0],
    [100, 50],
    [0, 50],
  ];
  expect(withoutMargin({ outline: board, openings: [] }, 8, 'top').outline).toEqual([
    [0, -8],
    [80, -8],
    [80, 0],
    [100, 50],
    [0, 50],
  ]);
});
