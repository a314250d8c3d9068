import { describe, expect, test } from 'vitest';
import type { Point, Ring } from '../../../src/geometry/shapes.ts';
import { fewest, leastWood, requirementsOf, sizesOf } from '../../../src/nesting/problem/lower-bound.ts';
import { allowedLies } from '../../../src/nesting/problem/orientations.ts';
import {
  containerFrom,
  type ProblemSpec,
  type ShapeSpec,
} from '../../../src/nesting/problem/problem-spec.ts';

const rectangle = (width: number, height: number): Ring => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];

function spec(
  outline: Ring,
  copies: number,
  boards: number,
  { rest = {}, shape = {} }: { rest?: Partial<ProblemSpec>; shape?: Partial<ShapeSpec> } = {},
): ProblemSpec {
  const board = containerFrom({ outline: rectangle(200, 100), openings: [] }, 20, 0);
  return {
    shapes: [
      {
        region: { outline, openings: [] },
        lies: [{ degrees: 0, turnedOver: false }],
        stands: false,
        copies,
        perSet: 1,
        ...shape,
      },
    ],
    containers: new Array(boards).fill(board),
    gap: 0,
    margin: 0,
    ...rest,
  };
}

/** Boards that no layout can do with fewer of, by area alone. */
const byArea = (problem: ProblemSpec): number => fewest(requirementsOf(problem)[0]);

/** Boards that no layout can do with fewer of, in any way. */
const inAnyWay = (problem: ProblemSpec): number => Math.max(...requirementsOf(problem).map(fewest));

/** Length of board that no layout can do with less of, mm. */
function leastLength(problem: ProblemSpec): number {
  const areas = sizesOf(problem).map(({ length, width }) => length * width);
  const byLength = requirementsOf(problem).filter(({ isByLength }) => isByLength);
  return Math.max(...byLength.map((required) => leastWood(required, areas))) / 100;
}

test('a part that may be turned all the way round is looked at in the same ways wherever its orientations are listed', () => {
  const outline: Ring = [
    [0, 0],
    [70, 10],
    [30, 25],
    [45, 60],
  ];
  const listed = (...degrees: readonly number[]) => {
    const lies = degrees.map((each) => ({
      degrees: each,
      turnedOver: false,
      twist: [-180, 180] as const,
    }));
    return requirementsOf(spec(outline, 8, 3, { shape: { lies } }));
  };
  // No whole number of the steps looked at from one to the next.
  expect(listed(0, 20)).toEqual(listed(0));
});

describe('bound by area', () => {
  test('squares that tile the boards need exactly those boards', () => {
    for (const boardsFor of [byArea, inAnyWay]) {
      expect(boardsFor(spec(rectangle(50, 50), 8, 3))).toBe(1);
      expect(boardsFor(spec(rectangle(50, 50), 9, 3))).toBe(2);
      // One more than there are.
      expect(boardsFor(spec(rectangle(50, 50), 25, 3))).toBe(4);
    }
  });

  test('discs kept apart: no more than (W + g)(H + g) / (A + P g/2 + pi g^2/4) on a board (Steiner)', () => {
    const disc = Array.from({ length: 400 }, (_, i): Point => {
      const angle = (2 * Math.PI * i) / 400;
      return [10 * Math.cos(angle), 10 * Math.sin(angle)];
    });
    const g = 2;
    const most = Math.floor((202 * 102) / (Math.PI * 100 + Math.PI * 20 * (g / 2) + (Math.PI * g * g) / 4));
    const apart = { rest: { gap: g } };
    expect(byArea(spec(disc, most - 1, 2, apart))).toBe(1);
    expect(byArea(spec(disc, most + 2, 2, apart))).toBe(2);
  });
});

describe('bound by what stands above each other across a board', () => {
  test('squares of just more than half of its width stand one by one, of more than a third two by two', () => {
    expect(byArea(spec(rectangle(51, 51), 4, 3))).toBe(1);
    expect(inAnyWay(spec(rectangle(51, 51), 3, 3))).toBe(1);
    expect(inAnyWay(spec(rectangle(51, 51), 4, 3))).toBe(2);
    expect(leastLength(spec(rectangle(51, 51), 3, 3))).toBeCloseTo(3 * 51, 3);
    expect(leastLength(spec(rectangle(34, 34), 4, 3))).toBeCloseTo(2 * 34, 3);
  });

  test('large ones leave room for small ones beside them, and for no others', () => {
    const [large] = spec(rectangle(40, 70), 2, 1).shapes;
    const [small] = spec(rectangle(40, 30), 2, 1).shapes;
    const [medium] = spec(rectangle(40, 33), 2, 1).shapes;
    const both = (other: ShapeSpec) => spec(rectangle(1, 1), 0, 1, { rest: { shapes: [large, other] } });
    expect(leastLength(both(small))).toBeCloseTo(80, 0);
    // Two columns with 70, and one with two of 33 above each other.
    expect(leastLength(both(medium))).toBeGreaterThan(100);
    expect(leastLength(both(medium))).toBeLessThanOrEqual(120);
  });

  test('a bar that may be turned counts in the way in which it takes least', () => {
    const bar = rectangle(150, 10);
    const lies = (grain: 'along' | 'across' | 'free') =>
      allowedLies({ grain, grainTolerance: 0, turnOver: false, restEdge: false });
    const least = (grain: 'along' | 'across' | 'free') =>
      leastLength(spec(bar, 10, 3, { shape: { lies: lies(grain) } }));
    expect(least('along')).toBeCloseTo(150, 3);
    // At slanting angles only its thin stretches are sure: never more than flat.
    expect(least('free')).toBeLessThanOrEqual(150);
    expect(least('free')).toBeGreaterThan(75);
  });

  test('bars longer than half of the boards lie one in line', () => {
    expect(byArea(spec(rectangle(101, 50), 3, 3))).toBe(1);
    expect(inAnyWay(spec(rectangle(101, 50), 3, 3))).toBe(2);
  });
});

test('parts on the straight edge stand beside each other, widest where they take most of it', () => {
  // A T stands on its foot of 10 and takes 40 at the top.
  const tee: Ring = [
    [0, 0],
    [40, 0],
    [40, 10],
    [25, 10],
    [25, 30],
    [15, 30],
    [15, 10],
    [0, 10],
  ];
  const shape = { stands: true };
  expect(inAnyWay(spec(tee, 5, 4, { shape }))).toBe(1);
  expect(inAnyWay(spec(tee, 6, 4, { shape }))).toBe(2);
  expect(inAnyWay(spec(tee, 6, 4))).toBe(1);
  // Head to foot on both edges of 200 mm, ten.
  const both = new Array(4).fill(
    containerFrom({ outline: rectangle(200, 100), openings: [] }, 20, 0, { straightTop: 0 }),
  );
  expect(inAnyWay(spec(tee, 10, 4, { shape, rest: { containers: both } }))).toBe(1);
  expect(inAnyWay(spec(tee, 11, 4, { shape, rest: { containers: both } }))).toBe(2);
  expect(leastLength(spec(tee, 4, 4, { shape }))).toBeCloseTo(160, 3);
});

test('wood that is too little for all is told as without end', () => {
  expect(leastLength(spec(rectangle(50, 50), 25, 3))).toBe(Number.POSITIVE_INFINITY);
});
