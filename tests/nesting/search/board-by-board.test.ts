import { expect, test, vi } from 'vitest';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import { ExactCheck } from '../../../src/nesting/arrangement/exact-check.ts';
import { scoreOf } from '../../../src/nesting/arrangement/score.ts';
import { allContainers, allCopies, bestOfOrders } from '../../../src/nesting/construct/construct.ts';
import type { NestingProblem } from '../../../src/nesting/problem/problem.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { MoveBudget } from '../../../src/nesting/running/budget.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { boardByBoard, moreSetsByBoard } from '../../../src/nesting/search/board-by-board.ts';
import { Fitting } from '../../../src/nesting/search/fitting.ts';
import { KeptTrials } from '../../../src/nesting/search/kept-trials.ts';
import { rectangle } from '../../rectangle.ts';
import { BOARDS, bars as barsSpec, KINDS, TO_IMPROVE as TO_IMPROVE_SPEC, WIDTH } from '../bars.ts';

/** Bars as wide as the boards on boards of some lengths: see {@link barsSpec}. */
const bars = (...spec: Parameters<typeof barsSpec>): NestingProblem =>
  new ProblemBuilder().build(barsSpec(...spec));

/** What the bars cost at least, counted out: all ways to fill a board, its kind's number of times at most. */
function leastCost(
  lengths: readonly (readonly [length: number, copies: number])[],
  kinds: readonly (readonly [length: number, cost: number, number: number])[],
): number {
  const known = new Map<string, number>();
  const least = (left: readonly number[], kind: number, boards: number): number => {
    if (left.every((n) => n === 0)) return 0;
    if (kind === kinds.length) return Number.POSITIVE_INFINITY;
    const key = `${left} ${kind} ${boards}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const [length, cost, number] = kinds[kind];
    let best = least(left, kind + 1, 0);
    const fill = (s: number, room: number, after: readonly number[]): void => {
      if (s === lengths.length) {
        if (after.some((n, i) => n < left[i])) best = Math.min(best, cost + least(after, kind, boards + 1));
        return;
      }
      for (let n = 0; n <= after[s] && n * lengths[s][0] <= room; n++) {
        fill(s + 1, room - n * lengths[s][0], after.with(s, after[s] - n));
      }
    };
    if (boards < number) fill(0, length, left);
    known.set(key, best);
    return best;
  };
  return least(
    lengths.map(([, copies]) => copies),
    0,
    0,
  );
}

async function found(problem: NestingProblem, moves: number): Promise<Arrangement[]> {
  const pulse = new Pulse(undefined);
  const start = await bestOfOrders(problem, allCopies(problem), allContainers(problem), pulse);
  expect(scoreOf(problem, start).missing).toBe(0);
  const offers = [start];
  const run = { pulse, budget: new MoveBudget(moves) };
  await boardByBoard(problem, start, new KeptTrials(), new Random(1), run, (offer) => {
    offers.push(offer);
    return true;
  });
  return offers;
}

const times = <T>(number: number, one: T): T[] => Array.from({ length: number }, () => one);

test.each([
  [
    [40, 3],
    [35, 6],
    [55, 4],
    [39, 5],
  ],
  [
    [53, 4],
    [21, 3],
    [22, 5],
    [15, 6],
  ],
] as const)(
  'boards are chosen and filled as cheaply as can be counted out: bars of %j, %j, %j, %j',
  async (...lengths) => {
    const problem = bars(lengths, BOARDS);
    const offers = await found(problem, 1000);
    const check = new ExactCheck(problem);
    const scores = offers.map((offer) => scoreOf(problem, offer));
    expect(offers.every((offer) => check.passes(offer))).toBe(true);
    expect(scores.every(({ missing }) => missing === 0)).toBe(true);
    // Copy by copy they do not lie so, and every offer is cheaper than the one before.
    expect(scores.length).toBeGreaterThan(1);
    expect(scores.every(({ cost }, n) => n === 0 || cost < scores[n - 1].cost)).toBe(true);
    expect(scores.at(-1)!.cost).toBe(leastCost(lengths, KINDS));
  },
);

test('boards are bought of a kind not bought yet, however many offcuts there are', async () => {
  // Too short for the bars, each of a length of its own.
  const offcuts = Array.from({ length: 13 }, (_, n) => [20 + n, 0] as const);
  const problem = bars(
    [[50, 6]],
    [...offcuts, ...times(3, [102, 10] as const), ...times(6, [52, 3] as const)],
  );
  // Two bars on every long board.
  const start = new Arrangement(6);
  start.container.set([13, 13, 14, 14, 15, 15]);
  start.x.set([25, 75, 25, 75, 25, 75]);
  start.y.fill(WIDTH / 2);
  expect(new ExactCheck(problem).passes(start)).toBe(true);
  const costs: number[] = [];
  const run = { pulse: new Pulse(undefined), budget: new MoveBudget(2000) };
  await boardByBoard(problem, start, new KeptTrials(), new Random(1), run, (offer) => {
    costs.push(scoreOf(problem, offer).cost);
    return true;
  });
  expect(costs.at(-1)).toBe(6 * 3);
});

test('nothing is offered where no cheaper boards hold the parts', async () => {
  const problem = bars([[45, 4]], times(2, [102, 10] as const));
  expect(await found(problem, 2000)).toHaveLength(1);
});

test('a filling that comes no nearer by going on is disturbed, not gone on from again and again', async () => {
  // Of squares of 11 mm a board takes a row of three, though there is area enough for six.
  const square = { outline: rectangle(11, 11), openings: [] };
  const lies = [{ degrees: 0, turnedOver: false }];
  const problem = new ProblemBuilder().build({
    shapes: [{ region: square, lies, stands: false, copies: 12, perSet: 1 }],
    containers: times(4, containerFrom({ outline: rectangle(40, WIDTH), openings: [] }, 10, 40)),
    gap: 0,
    margin: 0,
  });
  const goingOn = vi.spyOn(Fitting.prototype, 'goOn');
  const disturbing = vi.spyOn(Fitting.prototype, 'tryAgain');
  try {
    expect(await found(problem, 5000)).toHaveLength(1);
    expect(goingOn.mock.calls.length).toBeGreaterThan(0);
    expect(disturbing.mock.calls.length).toBeGreaterThan(5 * goingOn.mock.calls.length);
  } finally {
    vi.restoreAllMocks();
  }
});

const TO_IMPROVE = new ProblemBuilder().build(TO_IMPROVE_SPEC);

/** How many layouts are offered of them, and the share of the moves that is gone. */
async function improved(moves: number, signal?: AbortSignal): Promise<{ offers: number; done: number }> {
  const problem = TO_IMPROVE;
  const start = await bestOfOrders(problem, allCopies(problem), allContainers(problem), new Pulse(undefined));
  let offers = 0;
  const run = { pulse: new Pulse(signal), budget: new MoveBudget(moves) };
  await boardByBoard(problem, start, new KeptTrials(), new Random(1), run, () => {
    offers++;
    return true;
  });
  return { offers, done: run.budget.done };
}

test('where a board holds more sets than are asked for at once, one more than lie then is asked for next', async () => {
  // Each board holds two sets of a bar, as is known from filling one set by set.
  const problem = bars([[50, 8]], times(3, [102, 10] as const));
  let sets = 0;
  const run = { pulse: new Pulse(undefined), budget: new MoveBudget(1000) };
  await moreSetsByBoard(problem, new Arrangement(8), new KeptTrials(), new Random(1), run, (offer) => {
    const made = scoreOf(problem, offer).sets;
    const isMore = made > sets;
    sets = Math.max(sets, made);
    return isMore;
  });
  expect(sets).toBe(6);
});

test('it ends when its moves are spent', async () => {
  expect((await improved(1000)).offers).toBeGreaterThan(0);
  expect((await improved(0)).offers).toBe(0);
});

test('it ends when it is stopped', async () => {
  const { offers, done } = await improved(1000, AbortSignal.abort());
  expect(offers).toBe(0);
  // What fills boards copy by copy is paid for before it is begun.
  expect(done).toBeLessThan(0.05);
});

test('boards that are refused are not offered again, but others are', async () => {
  const pulse = new Pulse(undefined);
  const start = await bestOfOrders(TO_IMPROVE, allCopies(TO_IMPROVE), allContainers(TO_IMPROVE), pulse);
  const offered: string[] = [];
  await boardByBoard(
    TO_IMPROVE,
    start,
    new KeptTrials(),
    new Random(1),
    { pulse, budget: new MoveBudget(1000) },
    (offer) => {
      offered.push(
        [...new Set(offer.container)]
          .map((k) => TO_IMPROVE.containers[k].kind)
          .sort()
          .join(' '),
      );
      return false;
    },
  );
  expect(offered.length).toBeGreaterThan(1);
  expect(new Set(offered).size).toBe(offered.length);
});

test('a part that only the longest board holds is not tried on others for ever', async () => {
  const problem = bars(
    [[300, 1], ...Array.from({ length: 20 }, (_, k) => [20 + k, 1] as const)],
    [...times(2, [2000, 1000] as const), ...times(20, [100, 5] as const)],
  );
  const pulse = new Pulse(undefined);
  const start = await bestOfOrders(problem, allCopies(problem), allContainers(problem), pulse);
  const signal = AbortSignal.timeout(10_000);
  const run = { pulse: new Pulse(signal), budget: new MoveBudget(500) };
  await boardByBoard(problem, start, new KeptTrials(), new Random(1), run, () => true);
  expect(signal.aborted).toBe(false);
});

test.each([[[41, 33, 26]], [[37, 29, 23]]] as const)(
  'as many sets are made of a stock as can be counted out: bars of %j',
  async (set) => {
    const asked = 9;
    const kinds = [
      [102, 10, 3],
      [78, 7, 3],
    ] as const;
    const boards = kinds.flatMap(([length, cost, number]) => times(number, [length, cost] as const));
    const ofSets = (sets: number) => set.map((length) => [length, sets] as const);
    const problem = bars(ofSets(asked), boards);
    const pulse = new Pulse(undefined);
    const start = await bestOfOrders(problem, allCopies(problem), allContainers(problem), pulse);
    const offers = [start];
    const run = { pulse, budget: new MoveBudget(3000) };
    await moreSetsByBoard(problem, start, new KeptTrials(), new Random(1), run, (offer) => {
      offers.push(offer);
      return true;
    });
    const check = new ExactCheck(problem);
    expect(offers.every((offer) => check.passes(offer))).toBe(true);
    const made = offers.map((offer) => scoreOf(problem, offer).sets);
    expect(made.every((sets, n) => n === 0 || sets > made[n - 1])).toBe(true);
    expect(leastCost(ofSets(made.at(-1)!), kinds)).toBeLessThan(Number.POSITIVE_INFINITY);
    expect(leastCost(ofSets(made.at(-1)! + 1), kinds)).toBe(Number.POSITIVE_INFINITY);
  },
);
