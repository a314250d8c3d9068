import { expect, test } from 'vitest';
import type { Point, Ring } from '../../../src/geometry/shapes.ts';
import { Arrangement, hasRoom } from '../../../src/nesting/arrangement/arrangement.ts';
import { ExactCheck } from '../../../src/nesting/arrangement/exact-check.ts';
import { PairTable } from '../../../src/nesting/problem/pair-table.ts';
import type { NestingProblem } from '../../../src/nesting/problem/problem.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { rectangle } from '../../rectangle.ts';
import { oneWayShapes } from '../one-way-shapes.ts';

const square = (side: number): Ring => rectangle(side, side);

/** Two squares of 20 mm on a board of 100 mm, the first in a corner or at (at, at), the second moved by (x, y) from it. */
function passes(gap: number, x: number, y: number, at = 10): boolean {
  const problem = new ProblemBuilder().build({
    shapes: [
      {
        region: { outline: square(20), openings: [] },
        lies: [{ degrees: 0, turnedOver: false }],
        stands: false,
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
  arrangement.x.set([at, at + x]);
  arrangement.y.set([at, at + y]);
  return new ExactCheck(problem).passes(arrangement);
}

test('touching passes without a gap, overlapping and lying on top of each other does not', () => {
  expect(passes(0, 20, 0)).toBe(true);
  expect(passes(0, 19.9, 3)).toBe(false);
  expect(passes(0, 0, 0)).toBe(false);
  expect(passes(0, 20, 20)).toBe(true);
});

test('a copy that reaches out of its board does not pass, on whichever side', () => {
  expect(passes(0, 60, 60, 20)).toBe(true);
  expect(passes(0, 60, 60, 9.9)).toBe(false);
  expect(passes(0, 80.1, 30)).toBe(false);
  expect(passes(0, 30, 80.1)).toBe(false);
});

test('the gap is measured from edge to edge and from corner to corner', () => {
  expect(passes(3, 23, 5)).toBe(true);
  expect(passes(3, 22.9, 5)).toBe(false);
  expect(passes(5, 23, 24)).toBe(true);
  expect(passes(5, 22.9, 24)).toBe(false);
});

test('an overlap is found behind thousands of edges that come near without one', () => {
  // A square whose left side is a fine zigzag for half its height, and an angle that stands before the zigzag and
  // reaches into the square above it.
  const teeth = Array.from({ length: 5001 }, (_, i) => [i % 2 === 0 ? 0 : -0.5, 5 + i / 500] as const);
  const square: Ring = [...teeth, [0, 20], [20, 20], [20, 0], [0, 0]];
  const angle = (reach: number): Ring => [
    [-5, 0],
    [-2, 0],
    [-2, 16],
    [reach, 16],
    [reach, 18],
    [-5, 18],
  ];
  const overlaps = (reach: number) => {
    const regions = [square, angle(reach)].map((outline) => ({ outline, openings: [] }));
    const problem: NestingProblem = {
      ...oneWayShapes(regions),
      shapeOf: Int32Array.of(0, 1),
      perSet: [1, 1],
      pinned: [],
      containers: [containerFrom({ outline: rectangle(100, 100), openings: [] }, 1, 0)],
      gap: 0,
      margin: 0,
      pairs: new PairTable([], [], 0, 0),
      finer: [],
    };
    const arrangement = new Arrangement(2);
    arrangement.container.fill(0);
    arrangement.orientation[1] = 1;
    arrangement.x.fill(50);
    arrangement.y.fill(50);
    return !new ExactCheck(problem).passes(arrangement);
  };
  expect(overlaps(-1)).toBe(false);
  expect(overlaps(2)).toBe(true);
});

test('one check that has seen many arrangements says what a new one says', () => {
  const random = new Random(12);
  const region = { outline: square(20), openings: [] };
  const board = containerFrom({ outline: square(100), openings: [] }, 1, 0);
  const lies = [{ degrees: 0, turnedOver: false }];
  const problem = new ProblemBuilder().build({
    shapes: [{ region, lies, stands: false, copies: 5, perSet: 5 }],
    containers: [board, board],
    gap: 1,
    margin: 0,
  });
  const check = new ExactCheck(problem);
  const arrangement = new Arrangement(5);
  let [passed, failed] = [0, 0];
  for (let n = 0; n < 2000; n++) {
    const i = random.below(5);
    arrangement.container[i] = random.below(3) - 1;
    arrangement.x[i] = random.between(9, 91);
    arrangement.y[i] = random.between(9, 91);
    const expected = new ExactCheck(problem).passes(arrangement);
    expect(check.passes(arrangement)).toBe(expected);
    if (expected) passed++;
    else failed++;
  }
  expect(Math.min(passed, failed)).toBeGreaterThan(200);
});

test('a copy over a knot does not pass, though it may not turn and touches no other copy', () => {
  const region = { outline: square(20), openings: [] };
  const knot = square(10).map(([x, y]): Point => [x + 60, y + 45]);
  const board = containerFrom({ outline: square(100), openings: [knot] }, 1, 0);
  const problem = new ProblemBuilder().build({
    shapes: [{ region, lies: [{ degrees: 0, turnedOver: false }], stands: false, copies: 1, perSet: 1 }],
    containers: [board],
    gap: 1,
    margin: 2,
  });
  const arrangement = new Arrangement(1);
  arrangement.container[0] = 0;
  arrangement.y[0] = 50;
  // By hand: the knot begins at 60, so the middle of the square is at most at 60 - 2 - 10.
  const passes = (x: number) => {
    arrangement.x[0] = x;
    return new ExactCheck(problem).passes(arrangement);
  };
  expect([30, 47.99, 48.1, 65, 81.9, 82.01].map(passes)).toEqual([true, true, false, false, false, true]);
});

test('nothing stands on a section that ends above the straight edge of its board', () => {
  const usable = { outline: square(100), openings: [] };
  const roomOn = (straightEdge: number) => {
    const problem = new ProblemBuilder().build({
      shapes: [
        {
          region: { outline: square(20), openings: [] },
          lies: [{ degrees: 0, turnedOver: false }],
          stands: true,
          copies: 1,
          perSet: 1,
        },
      ],
      containers: [containerFrom(usable, 1, 0, { straightEdge })],
      gap: 0,
      margin: 3,
    });
    return hasRoom(problem, 0, 0);
  };
  expect([roomOn(100), roomOn(150)]).toEqual([true, false]);
});
