import { expect, test } from 'vitest';
import { boxRing } from '../../../src/geometry/shapes.ts';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { MoveBudget } from '../../../src/nesting/running/budget.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { solve } from '../../../src/nesting/search/solve.ts';

const square = (size: number) => ({
  outline: boxRing({ minX: 0, minY: 0, maxX: size, maxY: size }),
  openings: [],
});

/** So many squares of 10 mm on a grid of 12 mm, 60 in a row, and whether the search spent anything on them. */
async function spentOn(copies: number): Promise<boolean> {
  const lies = [{ degrees: 0, turnedOver: false }];
  const problem = new ProblemBuilder().build({
    shapes: [{ region: square(10), lies, onEdge: false, copies, perSet: 1 }],
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
  const settings = { budget, seed: 1, repeats: true, start, pulse: new Pulse(undefined), onBetter: () => {} };
  await solve(problem, settings);
  return budget.done > part.from;
}

test('more than three thousand copies are laid out without moves: their tables would fill the memory', async () => {
  expect(await spentOn(300)).toBe(true);
  expect(await spentOn(3001)).toBe(false);
});
