import { expect, test } from 'vitest';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import { ExactCheck } from '../../../src/nesting/arrangement/exact-check.ts';
import { scoreOf } from '../../../src/nesting/arrangement/score.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { MoveBudget } from '../../../src/nesting/running/budget.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { moreSets } from '../../../src/nesting/search/more-sets.ts';
import { rectangle } from '../../rectangle.ts';

const region = (length: number) => ({ outline: rectangle(length, 20), openings: [] });

test('one more set is asked for without the copies of it that are pinned', async () => {
  // Three sets of a long bar and a short one; a long one is pinned to another board.
  const lies = [{ degrees: 0, turnedOver: false }];
  const shapes = [
    { region: region(50), lies, stands: false, copies: 2, perSet: 1, pinned: 1 },
    { region: region(30), lies, stands: false, copies: 3, perSet: 1 },
  ];
  // The board holds one long bar and two short ones: with the pinned one two sets.
  const containers = [containerFrom(region(115), 10, 115)];
  const problem = new ProblemBuilder().build({ shapes, containers, gap: 0, margin: 0 });
  const start = new Arrangement(5);
  start.container[2] = 0;
  start.x[2] = 57;
  start.y[2] = 10;
  expect(scoreOf(problem, start)).toMatchObject({ sets: 1, missing: 4 });
  const run = { pulse: new Pulse(undefined), budget: new MoveBudget(500) };
  const found = await moreSets(problem, start, new Random(1), run);
  expect(new ExactCheck(problem).passes(found)).toBe(true);
  expect(scoreOf(problem, found)).toMatchObject({ sets: 2, missing: 2 });
});
