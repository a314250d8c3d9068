import { expect, test } from 'vitest';
import { applyToRegion } from '../../../src/geometry/affine.ts';
import { combineRegions } from '../../../src/geometry/clipper.ts';
import { regionsArea } from '../../../src/geometry/ring.ts';
import { boxRing, type Region } from '../../../src/geometry/shapes.ts';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import { turn } from '../../../src/nesting/problem/orientations.ts';
import type { NestingProblem } from '../../../src/nesting/problem/problem.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { MoveBudget } from '../../../src/nesting/running/budget.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { FailedTries } from '../../../src/nesting/search/failed-tries.ts';
import { Fitting, fittingTools } from '../../../src/nesting/search/fitting.ts';
import { moreSets } from '../../../src/nesting/search/more-sets.ts';
import { scatter } from '../../../src/nesting/search/scatter.ts';

const box = (width: number, height: number): Region => ({
  outline: boxRing({ minX: 0, minY: 0, maxX: width, maxY: height }),
  openings: [],
});

/** Four boards of 60 x 38 mm lie around a square of 21 mm in one way alone, as the vanes of a pinwheel. */
function pinwheel(): NestingProblem {
  const lies = [0, 90].map((degrees) => ({ degrees, turnedOver: false }));
  const shapes = [
    { region: box(60, 38), lies, stands: false, copies: 4, perSet: 4 },
    { region: box(21, 21), lies, stands: false, copies: 1, perSet: 1 },
  ];
  const containers = [containerFrom(box(100, 100), 1, 0)];
  return new ProblemBuilder().build({ shapes, containers, gap: 0.2, margin: 0 });
}

function expectApart({ shapes, shapeOf, orientations }: NestingProblem, arrangement: Arrangement): void {
  const placed = Array.from(shapeOf, (shape, i) => {
    const { degrees, turnedOver } = orientations[arrangement.orientation[i]];
    const [a, b, c, d] = turn(degrees, turnedOver);
    return applyToRegion([a, b, c, d, arrangement.x[i], arrangement.y[i]], shapes[shape].region);
  });
  expect(regionsArea(combineRegions('union', placed, []))).toBeCloseTo(4 * 60 * 38 + 21 * 21, 3);
  expect(regionsArea(combineRegions('difference', placed, [box(100, 100)]))).toBeCloseTo(0, 3);
}

test('tries that go on from failed ones find the pinwheel', async () => {
  const problem = pinwheel();
  for (const seed of [1, 2, 3]) {
    const random = new Random(seed);
    const fitting = new Fitting(fittingTools(problem, random, new Pulse(undefined)), [0]);
    const start = new Arrangement(5);
    expect(scatter(problem, start, [0, 1, 2, 3, 4], [0], random)).toBe(true);
    const budget = new MoveBudget(20_000);
    let found = await fitting.tryFrom(start, budget);
    while (found === undefined && !budget.over) found = await fitting.tryAgain(budget);
    expect(found).toBeDefined();
    expectApart(problem, found!);
  }
});

test('a try cut short goes on as it was left, and comes nearer', async () => {
  const problem = pinwheel();
  const random = new Random(1);
  const fitting = new Fitting(fittingTools(problem, random, new Pulse(undefined)), [0]);
  const start = new Arrangement(5);
  expect(scatter(problem, start, [0, 1, 2, 3, 4], [0], random)).toBe(true);
  expect(await fitting.tryFrom(start, new MoveBudget(3))).toBeUndefined();
  const first = fitting.nearest;
  const found = await fitting.goOn(new MoveBudget(2000));
  if (found === undefined) expect(fitting.nearest).toBeLessThan(first);
  else expectApart(problem, found);
});

test('one more set is tried for until the effort is spent', async () => {
  const problem = pinwheel();
  const nothing = new Arrangement(5);
  const random = new Random(5);
  const found = await moreSets(problem, nothing, random, {
    pulse: new Pulse(undefined),
    budget: new MoveBudget(40_000),
  });
  expectApart(problem, found);
});

test('without a try that failed there is none to go on from', async () => {
  const fitting = new Fitting(fittingTools(pinwheel(), new Random(1), new Pulse(undefined)), [0]);
  expect(await fitting.tryAgain(new MoveBudget(100))).toBeUndefined();
  expect(await fitting.goOn(new MoveBudget(100))).toBeUndefined();
});

test('of failed tries the nearest to success are kept, and recalled as they were', () => {
  const failed = new FailedTries();
  for (let overlap = 30; overlap > 0; overlap--) {
    const arrangement = new Arrangement(1);
    arrangement.x[0] = overlap;
    failed.keep(arrangement, overlap);
    arrangement.x[0] = -1;
  }
  const recalled = new Arrangement(1);
  const random = new Random(1);
  const seen = Array.from({ length: 400 }, () => {
    failed.recall(recalled, random);
    return recalled.x[0];
  });
  expect(Math.min(...seen)).toBe(1);
  expect(Math.max(...seen)).toBe(12);
  // The nearest is the likeliest: the square root of a twelfth, 29 %.
  expect(seen.filter((x) => x === 1).length / seen.length).toBeCloseTo(Math.sqrt(1 / 12), 1);
  failed.clear();
  expect(failed.isEmpty).toBe(true);
});

test('a large copy that has taken the place of a small one at the edge lies on the board', async () => {
  const lies = [{ degrees: 0, turnedOver: false }];
  const shapes = [
    { region: box(33, 33), lies, stands: false, copies: 4, perSet: 1 },
    { region: box(10, 10), lies, stands: false, copies: 8, perSet: 2 },
  ];
  const board = box(75, 41);
  const containers = [containerFrom(board, 1, 0)];
  const problem = new ProblemBuilder().build({ shapes, containers, gap: 0.1, margin: 0 });
  for (const seed of [1, 2, 3]) {
    const budget = new MoveBudget(1500);
    const start = new Arrangement(12);
    const found = await moreSets(problem, start, new Random(seed), { pulse: new Pulse(undefined), budget });
    const lying = [...found.container.keys()].filter((i) => found.container[i] >= 0);
    expect(lying.length).toBeGreaterThan(0);
    for (const i of lying) {
      const half = problem.orientations[found.orientation[i]].box.maxX;
      expect(Math.min(found.x[i], found.y[i], 75 - found.x[i], 41 - found.y[i])).toBeGreaterThan(half - 0.01);
    }
  }
});

test('a failed layout that is found again takes no other one’s place', () => {
  const failed = new FailedTries();
  const other = new Arrangement(1);
  other.x[0] = 9;
  failed.keep(other, 9);
  const nearest = new Arrangement(1);
  nearest.x[0] = 1;
  for (let time = 0; time < 30; time++) failed.keep(nearest, 1 + 1e-6 * time);
  const recalled = new Arrangement(1);
  const random = new Random(1);
  const seen = Array.from({ length: 100 }, () => {
    failed.recall(recalled, random);
    return recalled.x[0];
  });
  expect(new Set(seen)).toEqual(new Set([1, 9]));
});
