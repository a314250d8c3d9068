import { expect, test } from 'vitest';
import { boxRing } from '../../../src/geometry/shapes.ts';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import { scoreOf } from '../../../src/nesting/arrangement/score.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { MoveBudget } from '../../../src/nesting/running/budget.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { solve } from '../../../src/nesting/search/solve.ts';
import { rectangle } from '../../rectangle.ts';

const square = (size: number) => ({
  outline: boxRing({ minX: 0, minY: 0, maxX: size, maxY: size }),
  openings: [],
});

/** So many squares of 10 mm on a grid of 12 mm, 60 in a row, and whether the search spent anything on them. */
async function spentOn(copies: number): Promise<boolean> {
  const lies = [{ degrees: 0, turnedOver: false }];
  const problem = new ProblemBuilder().build({
    shapes: [{ region: square(10), lies, stands: false, copies, perSet: 1 }],
    containers: [containerFrom(square(900), 1, 0)],
    gap: 1,
    margin: 0,
  });
  const start = new Arrangement(copies);
  for (let i = 0; i < copies; i++) {
    start.container[i] = 0;
    start.x[i] = 5 + 12 * (i % 60);
    start.y[i] = 5 + 12 * Math.floor(i / 60);
  }
  // The later part of a search: lattices, which take their time, have been tried in the earlier one.
  const part = { from: 0.5, to: 1 };
  const budget = new MoveBudget(6, part);
  const settings = { budget, seed: 1, start, pulse: new Pulse(undefined), onBetter: () => {} };
  await solve(problem, settings);
  return budget.done > part.from;
}

test('more than three thousand copies on one board are laid out without moves: their tables would fill the memory', async () => {
  expect(await spentOn(300)).toBe(true);
  expect(await spentOn(3001)).toBe(false);
});

test('of more than three thousand copies on several boards the boards are filled one by one', async () => {
  const copies = 3100;
  const lies = [{ degrees: 0, turnedOver: false }];
  const bar = (length: number) => ({ outline: rectangle(length, 10), openings: [] });
  const problem = new ProblemBuilder().build({
    shapes: [
      { region: bar(60), lies, stands: false, copies: copies / 2, perSet: 1 },
      { region: bar(35), lies, stands: false, copies: copies / 2, perSet: 1 },
    ],
    containers: Array.from({ length: 2400 }, () => containerFrom(bar(99), 1, 0)),
    gap: 0,
    margin: 0,
  });
  // One long bar on every board, then two short ones, where one of either would do.
  const start = new Arrangement(copies);
  for (let i = 0; i < copies; i++) {
    const n = i - copies / 2;
    start.container[i] = n < 0 ? i : copies / 2 + (n >> 1);
    start.x[i] = n < 0 ? 30 : 17.5 + 35 * (n % 2);
    start.y[i] = 5;
  }
  const settings = {
    budget: new MoveBudget(3000, { from: 0, to: 1 }),
    seed: 1,
    start,
    brief: true,
    pulse: new Pulse(undefined),
    onBetter: () => {},
  };
  expect(scoreOf(problem, start).boards).toBe(2325);
  const found = await solve(problem, settings);
  expect(scoreOf(problem, found)).toMatchObject({ missing: 0, boards: copies / 2 });
});
