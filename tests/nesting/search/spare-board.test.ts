import { expect, test } from 'vitest';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import { ExactCheck } from '../../../src/nesting/arrangement/exact-check.ts';
import { scoreOf } from '../../../src/nesting/arrangement/score.ts';
import type { NestingProblem } from '../../../src/nesting/problem/problem.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { MoveBudget } from '../../../src/nesting/running/budget.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { spareBoard } from '../../../src/nesting/search/spare-board.ts';
import { rectangle } from '../../rectangle.ts';

const region = (width: number, height: number) => ({ outline: rectangle(width, height), openings: [] });

/** Squares of 30 mm, of which boards of 62 mm hold four, and boards of other sizes and costs. */
function squares(copies: number, boards: readonly (readonly [side: number, cost: number])[]): NestingProblem {
  const lies = [0, 90].map((degrees) => ({ degrees, turnedOver: false }));
  const shapes = [{ region: region(30, 30), lies, stands: false, copies, perSet: 1 }];
  const containers = boards.map(([side, cost]) => containerFrom(region(side, side), cost, side));
  return new ProblemBuilder().build({ shapes, containers, gap: 1, margin: 0 });
}

/** Copies on boards, in corners of their own. */
function lying(on: readonly number[]): Arrangement {
  const arrangement = new Arrangement(on.length);
  for (const [item, board] of on.entries()) {
    const before = on.slice(0, item).filter((k) => k === board).length;
    arrangement.container[item] = board;
    arrangement.x[item] = before % 2 === 0 ? 15 : 47;
    arrangement.y[item] = before < 2 ? 15 : 47;
  }
  return arrangement;
}

const spare = (problem: NestingProblem, start: Arrangement) =>
  spareBoard(problem, start, new Random(1), {
    pulse: new Pulse(undefined),
    budget: new MoveBudget(20_000),
  });

test('the copies of the emptiest board are taken to the room that the others have, one here and one there', async () => {
  const boards = [0, 1, 2, 3].map(() => [62, 10] as const);
  const problem = squares(12, boards);
  const start = lying([0, 0, 0, 1, 1, 1, 2, 2, 2, 3, 3, 3]);
  expect(new ExactCheck(problem).passes(start)).toBe(true);
  const less = await spare(problem, start);
  expect(less).toBeDefined();
  expect(new ExactCheck(problem).passes(less!)).toBe(true);
  expect(scoreOf(problem, less!)).toMatchObject({ missing: 0, boards: 3, cost: 30 });
});

test('where others have no room a cheaper board is taken instead', async () => {
  const problem = squares(5, [
    [62, 10],
    [62, 10],
    [32, 4],
    [31, 3],
  ]);
  const start = lying([0, 0, 0, 0, 1]);
  const less = await spare(problem, start);
  expect(less).toBeDefined();
  expect(new ExactCheck(problem).passes(less!)).toBe(true);
  expect(scoreOf(problem, less!)).toMatchObject({ missing: 0, boards: 2 });
  expect(scoreOf(problem, less!).cost).toBeLessThan(20);
});

test('nothing is found where nothing can be spared, and the start is left as it is', async () => {
  const problem = squares(7, [
    [62, 10],
    [62, 10],
    [70, 10],
  ]);
  const start = lying([0, 0, 0, 0, 1, 1, 1]);
  const before = start.clone();
  expect(await spare(problem, start)).toBeUndefined();
  expect(start).toEqual(before);
});
