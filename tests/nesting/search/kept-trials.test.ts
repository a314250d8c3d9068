import { expect, test } from 'vitest';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import { scoreOf } from '../../../src/nesting/arrangement/score.ts';
import { allContainers, allCopies, bestOfOrders } from '../../../src/nesting/construct/construct.ts';
import { ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { MoveBudget } from '../../../src/nesting/running/budget.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { boardByBoard } from '../../../src/nesting/search/board-by-board.ts';
import { KeptTrials } from '../../../src/nesting/search/kept-trials.ts';
import { TO_IMPROVE } from '../bars.ts';

const problem = new ProblemBuilder().build(TO_IMPROVE);
const run = (moves: number) => ({ pulse: new Pulse(undefined), budget: new MoveBudget(moves) });
const first = () => bestOfOrders(problem, allCopies(problem), allContainers(problem), new Pulse(undefined));

/** What the cheapest layout offered costs. */
async function leastOffered(kept: KeptTrials, start: Arrangement, moves: number): Promise<number> {
  let least = Number.POSITIVE_INFINITY;
  await boardByBoard(problem, start, kept, new Random(5), run(moves), (offer) => {
    least = Math.min(least, scoreOf(problem, offer).cost);
    return true;
  });
  return least;
}

test('what one has found to fit on boards another puts together at once', async () => {
  const start = await first();
  const finder = new KeptTrials();
  const least = await leastOffered(finder, start, 1000);
  expect(least).toBeLessThan(scoreOf(problem, start).cost);
  // As messages between threads do it: copies without their classes.
  const told = structuredClone(finder.found());

  const few = 2;
  const alone = new KeptTrials();
  await leastOffered(alone, start, few);
  expect(await leastOffered(alone, start, few)).toBeGreaterThan(least);
  const learning = new KeptTrials();
  await leastOffered(learning, start, few);
  learning.learn(told);
  expect(await leastOffered(learning, start, few)).toBe(least);
});

test('what was found is told once, and not what was learnt', async () => {
  const start = await first();
  const finder = new KeptTrials();
  expect(finder.found()).toEqual([]);
  await finder.begin(problem, start, new Random(1), run(100));
  const told = finder.found();
  expect(told.length).toBeGreaterThan(0);
  expect(finder.found()).toEqual([]);

  const layout = new Arrangement(1);
  layout.container[0] = 0;
  layout.x[0] = 20;
  layout.y[0] = 10;
  finder.learn([{ kind: 1, counts: Int32Array.of(1, 0, 0, 0), layout }]);
  const trials = await finder.begin(problem, start, new Random(2), run(100));
  const learnt = trials?.fillings.find({ kind: 1, counts: Int32Array.of(1, 0, 0, 0) });
  expect(learnt?.layout.x[0]).toBe(20);
  expect(finder.found()).toEqual([]);
});
