import { describe, expect, test } from 'vitest';
import type { Point, Ring } from '../../../src/geometry/shapes.ts';
import { areaNeeded, fewest, roomsOf } from '../../../src/nesting/problem/lower-bound.ts';
import { containerFrom, type ProblemSpec } from '../../../src/nesting/problem/problem-spec.ts';

const rectangle = (width: number, height: number): Ring => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];

function spec(outline: Ring, copies: number, boards: number, rest: Partial<ProblemSpec> = {}): ProblemSpec {
  const board = containerFrom({ outline: rectangle(200, 100), openings: [] }, 20, 0);
  return {
    shapes: [
      {
        region: { outline, openings: [] },
        lies: [{ degrees: 0, turnedOver: false }],
        onEdge: false,
        copies,
        perSet: 1,
      },
    ],
    containers: new Array(boards).fill(board),
    gap: 0,
    margin: 0,
    ...rest,
  };
}

/** Boards that no layout can do with fewer of. */
const boardsOf = (problem: ProblemSpec): number => fewest(roomsOf(problem), areaNeeded(problem));

describe('bound by area', () => {
  test('squares that tile the boards need exactly those boards', () => {
    expect(boardsOf(spec(rectangle(50, 50), 8, 3))).toBe(1);
    expect(boardsOf(spec(rectangle(50, 50), 9, 3))).toBe(2);
    // One more than there are.
    expect(boardsOf(spec(rectangle(50, 50), 25, 3))).toBe(4);
  });

  test('discs kept apart: no more than (W + g)(H + g) / (A + P g/2 + pi g^2/4) on a board (Steiner)', () => {
    const disc = Array.from({ length: 400 }, (_, i): Point => {
      const angle = (2 * Math.PI * i) / 400;
      return [10 * Math.cos(angle), 10 * Math.sin(angle)];
    });
    const g = 2;
    const most = Math.floor((202 * 102) / (Math.PI * 100 + Math.PI * 20 * (g / 2) + (Math.PI * g * g) / 4));
    expect(boardsOf(spec(disc, most - 1, 2, { gap: g }))).toBe(1);
    expect(boardsOf(spec(disc, most + 2, 2, { gap: g }))).toBe(2);
  });
});
