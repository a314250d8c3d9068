import { expect, test } from 'vitest';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { MoveBudget } from '../../../src/nesting/running/budget.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { solve } from '../../../src/nesting/search/solve.ts';
import { blob } from '../random-batch.ts';

test('a search gives way after every no-fit polygon or two, so that an abort never waits for dozens', async () => {
  const random = new Random(5);
  const shapes = [12, 9, 6].map((points) => ({
    region: { outline: blob(random, points, 15, 30, true), openings: [] },
    lies: [0, 90, 180].map((degrees) => ({ degrees, turnedOver: false })),
    stands: false,
    copies: 5,
    perSet: 1,
  }));
  const outline = [
    [0, 0],
    [300, 0],
    [300, 150],
    [0, 150],
  ] as const;
  const board = containerFrom({ outline, openings: [] }, 1, 0);
  const problem = new ProblemBuilder().build({ shapes, containers: [board, board], gap: 1, margin: 2 });
  // Fields are counted rather than seconds: the answer is the same on a busy machine.
  const { fields } = problem.pairs as unknown as { fields: Map<string, unknown> };
  let before = 0;
  let most = 0;
  class CountingPulse extends Pulse {
    override get due(): boolean {
      return true;
    }
    override async breathe(): Promise<void> {
      most = Math.max(most, fields.size - before);
      before = fields.size;
    }
  }
  await solve(problem, {
    budget: new MoveBudget(40),
    start: undefined,
    seed: 1,
    pulse: new CountingPulse(undefined),
    onBetter: () => {},
  });
  expect(fields.size).toBeGreaterThan(20);
  expect(most).toBeLessThanOrEqual(2);
});
