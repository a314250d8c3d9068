import { expect, test } from 'vitest';
import type { Ring } from '../../../src/geometry/shapes.ts';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import { ExactCheck } from '../../../src/nesting/arrangement/exact-check.ts';
import { scoreOf } from '../../../src/nesting/arrangement/score.ts';
import { layOut } from '../../../src/nesting/lay-out.ts';
import type { NestingProblem } from '../../../src/nesting/problem/problem.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { MoveBudget } from '../../../src/nesting/running/budget.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { setsByBoard } from '../../../src/nesting/search/sets-by-board.ts';
import { rectangle } from '../../rectangle.ts';
import { PLAIN_GAPS, plainBoard, plainDemand, soundLayout } from '../plain-batch.ts';

const region = (outline: Ring) => ({ outline, openings: [] });

/** Squares of 30 mm, 1 mm apart, four to a set, on boards that are given by how many they hold along and across. */
function squares(
  sets: number,
  boards: readonly (readonly [along: number, across: number, cost: number])[],
): NestingProblem {
  const lies = [{ degrees: 0, turnedOver: false }];
  const shapes = [{ region: region(rectangle(30, 30)), lies, stands: false, copies: 4 * sets, perSet: 4 }];
  const containers = boards.map(([along, across, cost]) =>
    containerFrom(region(rectangle(31 * along, 31 * across)), cost, along),
  );
  return new ProblemBuilder().build({ shapes, containers, gap: 1, margin: 0 });
}

/** Copies laid three by three on the boards from the first one on; those beyond the last lie nowhere. */
function threesOf(problem: NestingProblem): Arrangement {
  const arrangement = new Arrangement(problem.shapeOf.length);
  for (let item = 0; item < arrangement.count; item++) {
    const board = Math.floor(item / 3);
    if (board >= problem.containers.length) continue;
    arrangement.container[item] = board;
    arrangement.x[item] = 15 + 31 * (item % 2);
    arrangement.y[item] = item % 3 < 2 ? 15 : 46;
  }
  return arrangement;
}

async function offered(problem: NestingProblem, start: Arrangement): Promise<Arrangement[]> {
  const offers: Arrangement[] = [];
  const run = { pulse: new Pulse(undefined), budget: new MoveBudget(5000) };
  await setsByBoard(problem, start, new Random(1), run, (offer) => {
    offers.push(offer);
    return true;
  });
  return offers;
}

test('where a set fits a board and the layout takes more boards, every board gets one', async () => {
  const problem = squares(
    3,
    Array.from({ length: 5 }, () => [2, 2, 10] as const),
  );
  const start = threesOf(problem);
  expect(scoreOf(problem, start)).toMatchObject({ missing: 0, boards: 4 });
  const offers = await offered(problem, start);
  expect(offers.map((offer) => new ExactCheck(problem).passes(offer))).toEqual([true]);
  expect(offers.map((offer) => scoreOf(problem, offer))).toMatchObject([{ missing: 0, boards: 3, cost: 30 }]);
});

test('sets that are left over go to the board that costs least for them', async () => {
  const large = Array.from({ length: 3 }, () => [4, 2, 18] as const);
  const small = Array.from({ length: 3 }, () => [2, 2, 10] as const);
  const problem = squares(3, [...small, ...large]);
  const [offer] = await offered(problem, threesOf(problem));
  expect(scoreOf(problem, offer)).toMatchObject({ missing: 0, boards: 2, cost: 28 });
});

test('of a stock that is too small every board gets its sets, and single copies what room is left', async () => {
  const problem = squares(
    4,
    Array.from({ length: 2 }, () => [5, 1, 10] as const),
  );
  const start = new Arrangement(problem.shapeOf.length);
  const [offer] = await offered(problem, start);
  expect(new ExactCheck(problem).passes(offer)).toBe(true);
  expect(scoreOf(problem, offer)).toMatchObject({ sets: 2, missing: 6 });
});

test('nothing is offered that holds no more sets than there are', async () => {
  const problem = squares(
    2,
    Array.from({ length: 3 }, () => [2, 2, 10] as const),
  );
  const start = new Arrangement(problem.shapeOf.length);
  for (let item = 0; item < start.count; item++) {
    start.container[item] = Math.floor(item / 4);
    start.x[item] = 15 + 31 * (item % 2);
    start.y[item] = item % 4 < 2 ? 15 : 46;
  }
  expect(await offered(problem, start)).toEqual([]);
});

test('nothing is offered where all copies lie on boards that cost nothing', async () => {
  const problem = squares(
    1,
    Array.from({ length: 2 }, () => [2, 2, 0] as const),
  );
  expect(await offered(problem, threesOf(problem))).toEqual([]);
});

test('boards far dearer than those in use are soon asked how many sets they hold', async () => {
  // By its cost the dear one would have to hold 750 million sets; there are three.
  const problem = squares(3, [...Array.from({ length: 4 }, () => [2, 2, 0.001] as const), [4, 2, 1e6]]);
  const start = threesOf(problem);
  expect(scoreOf(problem, start)).toMatchObject({ missing: 0, boards: 4 });
  const [offer] = await offered(problem, start);
  expect(scoreOf(problem, offer)).toMatchObject({ missing: 0, boards: 3 });
}, 5000);

test('sets around a pinned copy, whose board is paid for, are laid out', async () => {
  const [part] = standing;
  const pin = { layer: 'L', part: 'part 0', board: 'Shelf', number: 1, x: 150, y: 22, rotation: 0 };
  const layout = await soundLayout(
    {
      ...{ sets: 4, demands: [{ ...part }], ...PLAIN_GAPS },
      boards: [plainBoard('Shelf', 604, 72, { quantity: 3, price: 10 })],
      pins: [pin],
    },
    5,
  );
  expect(layout.figures).toMatchObject({ completeSets: 4, boards: 1 });
});

/** Four parts that stand side by side on the straight edge of a board as long as they are. */
const WIDTHS = [100, 137, 163, 191];
const standing = WIDTHS.map((width, i) =>
  plainDemand(`part ${i}`, rectangle(width, 50 + 5 * i), {
    rules: { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: true },
  }),
);

test('eight boards as long as what stands on them take a set each', async () => {
  const board = plainBoard('Shelf', 604, 72, { quantity: 11, price: 10 });
  const layout = await soundLayout({ sets: 8, demands: standing, boards: [board], ...PLAIN_GAPS }, 10);
  expect(layout.figures).toMatchObject({ completeSets: 8, boards: 8 });
});

test('a stock for so many sets by a set to a board makes them', async () => {
  const board = plainBoard('Shelf', 604, 72, { quantity: 6 });
  const { layout } = await layOut(
    { sets: 10, demands: standing, boards: [board], ...PLAIN_GAPS },
    { effort: 10 },
  );
  expect(layout.figures.completeSets).toBe(6);
});

test('the boards for all sets are counted out: the cheapest one for a set may be too dear in the end', async () => {
  // Three sets for 29 are cheaper than two for 20, but four sets take two boards either way.
  const problem = squares(4, [
    ...Array.from({ length: 2 }, () => [6, 2, 29] as const),
    ...Array.from({ length: 4 }, () => [4, 2, 20] as const),
  ]);
  const start = threesOf(problem);
  expect(scoreOf(problem, start)).toMatchObject({ missing: 0, cost: 138 });
  const [offer] = await offered(problem, start);
  expect(new ExactCheck(problem).passes(offer)).toBe(true);
  expect(scoreOf(problem, offer)).toMatchObject({ missing: 0, boards: 2, cost: 40 });
});
