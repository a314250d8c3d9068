import { expect, test } from 'vitest';
import { Arrangement } from '../../../src/nesting/arrangement/arrangement.ts';
import { ExactCheck } from '../../../src/nesting/arrangement/exact-check.ts';
import { scoreOf } from '../../../src/nesting/arrangement/score.ts';
import type { NestingProblem } from '../../../src/nesting/problem/problem.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { MoveBudget } from '../../../src/nesting/running/budget.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { Random } from '../../../src/nesting/running/random.ts';
import { repeatShares } from '../../../src/nesting/search/repeated-share.ts';
import { rectangle } from '../../rectangle.ts';

const region = (width: number, height: number) => ({ outline: rectangle(width, height), openings: [] });

/** Squares of 30 mm, 1 mm apart, and boards with sides that hold so many of them in a row. */
function squares(
  copies: number,
  boards: readonly (readonly [inARow: number, cost: number])[],
): NestingProblem {
  const lies = [{ degrees: 0, turnedOver: false }];
  const shapes = [{ region: region(30, 30), lies, onEdge: false, copies, perSet: 1 }];
  const containers = boards.map(([n, cost]) => containerFrom(region(31 * n, 31 * n), cost, n));
  return new ProblemBuilder().build({ shapes, containers, gap: 1, margin: 0 });
}

/** Copies four by four on boards that hold two in a row. */
function foursOf(problem: NestingProblem): Arrangement {
  const arrangement = new Arrangement(problem.shapeOf.length);
  for (let item = 0; item < arrangement.count; item++) {
    arrangement.container[item] = Math.floor(item / 4);
    arrangement.x[item] = item % 2 === 0 ? 15 : 46;
    arrangement.y[item] = item % 4 < 2 ? 15 : 46;
  }
  return arrangement;
}

async function offered(problem: NestingProblem, start: Arrangement): Promise<Arrangement[]> {
  const offers: Arrangement[] = [];
  const run = { pulse: new Pulse(undefined), budget: new MoveBudget(5000) };
  await repeatShares(problem, start, new Random(1), run, (offer) => {
    offers.push(offer);
    return true;
  });
  return offers;
}

test('the layout of a share is repeated, and what does not divide is laid on top', async () => {
  const small = Array.from({ length: 8 }, () => [2, 10] as const);
  const large = Array.from({ length: 8 }, () => [3, 18] as const);
  // Three shares of eight lie cheapest on a board of nine each, and there is room for the one left over.
  const problem = squares(25, [...small, ...large]);
  const start = foursOf(problem);
  expect(scoreOf(problem, start)).toMatchObject({ missing: 0, boards: 7, cost: 70 });
  const offers = await offered(problem, start);
  const check = new ExactCheck(problem);
  expect(offers.map((offer) => check.passes(offer))).toEqual([true, true]);
  // The smallest shares first: four of six copies take a large board each.
  expect(offers.map((offer) => scoreOf(problem, offer))).toMatchObject([
    { missing: 0, cost: 72 },
    { missing: 0, cost: 54 },
  ]);
  const [, offer] = offers;
  const places = new Map<string, number>();
  for (let item = 0; item < offer.count; item++) {
    const { kind } = problem.containers[offer.container[item]];
    const place = `${kind} ${offer.x[item]} ${offer.y[item]}`;
    places.set(place, (places.get(place) ?? 0) + 1);
  }
  // Of 25 copies one is left over in two, three and four shares: the others lie as another does.
  expect([...places.values()].filter((times) => times === 1).length).toBeLessThanOrEqual(1);
});

test('boards that do not divide into shares with room for theirs are left alone', async () => {
  const problem = squares(12, [
    [2, 10],
    [2, 10],
    [2, 10],
    [3, 20],
  ]);
  // Three boards in two shares leave one of two in a row to each: too little for six copies.
  expect(await offered(problem, foursOf(problem))).toEqual([]);
});
