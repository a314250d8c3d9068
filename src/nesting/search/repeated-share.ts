import { Arrangement } from '../arrangement/arrangement.ts';
import { ExactCheck } from '../arrangement/exact-check.ts';
import { scoreOf } from '../arrangement/score.ts';
import { allContainers, allCopies, bestOfOrders, placeByArea } from '../construct/construct.ts';
import { excerptOf } from '../problem/excerpt.ts';
import type { NestingProblem } from '../problem/problem.ts';
import { boardsByKind, type WholeBoard, wholeBoards } from '../problem/whole-boards.ts';
import { MovesOfBudget, shareOfRest } from '../running/budget.ts';
import type { Random } from '../running/random.ts';
import { isOver, type Run } from '../running/run.ts';
import { fewerBoards } from './fewer-boards.ts';

/**
 * Many sets as a few sets, over and over: a share of the copies is laid out on as large a share of the boards, that
 * layout is repeated, and the copies that did not divide are laid on top. Choices of a few boards are soon searched,
 * those of many are not, and what is cheapest for a few sets is as cheap each time it is repeated (after the patterns
 * of Gilmore and Gomory 1961, each cut as often as it is good for).
 */

/** Boards that the copies of a share take: fewer leave no choice, more are as hard as all. */
const FEWEST_BOARDS = 1.5;
const MOST_BOARDS = 5;

/** Ways to divide that are begun, those that leave least copies over. */
const BEGUN = 6;

/** Ways to divide that are searched, those with the smallest shares: what a few thousand moves find of a few copies is better. */
const SEARCHED = 2;

/** Moves that the search of a share gets for each of its copies at most. */
const MOVES_OF_COPY = 1000;

/** A problem divided into equal shares. */
interface Division {
  /** Copies of every share, their shapes in the same order. */
  readonly copies: readonly (readonly number[])[];
  /** Containers of every share, of the same kinds in the same order. */
  readonly containers: readonly (readonly number[])[];
  /** Copies that do not divide. */
  readonly rest: readonly number[];
}

/** One share of a division as a problem of its own, laid out. */
interface Share {
  readonly division: Division;
  readonly problem: NestingProblem;
  readonly layout: Arrangement;
}

/**
 * Offers layouts that repeat one of a share of the copies. Does nothing where there are too few boards to divide.
 *
 * @param start a complete arrangement: what it takes of boards tells into how many shares to divide
 * @param accept takes an arrangement over, or finds fault with it
 */
export async function repeatShares(
  problem: NestingProblem,
  start: Arrangement,
  random: Random,
  run: Run,
  accept: (arrangement: Arrangement) => boolean,
): Promise<void> {
  const shares: Share[] = [];
  for (const division of divisionsOf(problem, scoreOf(problem, start).boards)) {
    if (isOver(run)) return;
    const share = await begun(problem, division, run);
    if (share !== undefined) shares.push(share);
  }
  const smallest = shares.sort((a, b) => a.layout.count - b.layout.count).slice(0, SEARCHED);
  for (const [n, share] of smallest.entries()) {
    if (isOver(run)) return;
    const rest = shareOfRest(run.budget, 1 / (smallest.length - n));
    const budget = new MovesOfBudget(rest, MOVES_OF_COPY * share.layout.count);
    const layout = await searched(share, random, { pulse: run.pulse, budget });
    accept(await repeated(problem, share.division, layout, run));
  }
}

/** Ways to divide what lies on so many boards; no share is without copies or boards. */
function divisionsOf(problem: NestingProblem, boards: number): Division[] {
  const ofShape = problem.shapes.map((): number[] => []);
  for (const [item, shape] of problem.shapeOf.entries()) ofShape[shape].push(item);
  const ofKind = boardsByKind(problem);
  const leftOver = (times: number) => ofShape.reduce((sum, { length }) => sum + (length % times), 0);
  const ways: number[] = [];
  for (let times = Math.max(2, Math.ceil(boards / MOST_BOARDS)); times <= boards / FEWEST_BOARDS; times++) {
    if ([ofShape, ofKind].every((groups) => groups.some(({ length }) => length >= times))) ways.push(times);
  }
  return ways
    .sort((a, b) => leftOver(a) - leftOver(b))
    .slice(0, BEGUN)
    .map((times) => divided(ofShape, ofKind, times));
}

/**
 * Copies and boards in so many equal shares.
 *
 * @param ofShape copies of every shape
 * @param ofKind boards of every kind
 */
function divided(
  ofShape: readonly (readonly number[])[],
  ofKind: readonly (readonly WholeBoard[])[],
  times: number,
): Division {
  const numbers = Array.from({ length: times }, (_, n) => n);
  return {
    copies: numbers.map((n) => ofShape.flatMap((items) => nth(items, n, times))),
    containers: numbers.map((n) =>
      ofKind.flatMap((members) => nth(members, n, times)).flatMap(({ containers }) => containers),
    ),
    rest: ofShape.flatMap((items) => items.slice(items.length - (items.length % times))),
  };
}

/** The n-th of so many equal shares of a list; what does not divide is in none. */
function nth<T>(members: readonly T[], n: number, times: number): readonly T[] {
  const each = Math.floor(members.length / times);
  return members.slice(n * each, (n + 1) * each);
}

/** A share of a division laid out copy by copy; undefined when the boards of a share do not hold its copies. */
async function begun(
  problem: NestingProblem,
  division: Division,
  { pulse }: Run,
): Promise<Share | undefined> {
  const share = excerptOf(problem, division.containers[0], division.copies[0]);
  const layout = await bestOfOrders(share, allCopies(share), allContainers(share), pulse);
  return scoreOf(share, layout).missing > 0 ? undefined : { division, problem: share, layout };
}

/** The cheapest layout of a share that the search finds. */
async function searched({ problem, layout }: Share, random: Random, run: Run): Promise<Arrangement> {
  const check = new ExactCheck(problem);
  let best = layout;
  await fewerBoards(problem, layout, random, run, (next) => {
    if (!check.isBetter(next, best)) return false;
    best = next;
    return true;
  });
  return best;
}

/** The layout of one share in the place of each; what does not divide is laid on the boards in use, then on cheap ones. */
async function repeated(
  problem: NestingProblem,
  { copies, containers, rest }: Division,
  layout: Arrangement,
  { pulse }: Run,
): Promise<Arrangement> {
  const arrangement = new Arrangement(problem.shapeOf.length);
  for (const [n, items] of copies.entries()) {
    for (const [m, item] of items.entries()) {
      arrangement.layAs(item, layout, m);
      arrangement.container[item] = containers[n][layout.container[m]];
    }
  }
  const used = new Set(arrangement.container);
  const isUsed = (board: WholeBoard) => board.containers.some((k) => used.has(k));
  const order = wholeBoards(problem).toSorted(
    (a, b) => Number(isUsed(b)) - Number(isUsed(a)) || a.cost - b.cost,
  );
  const offered = order.flatMap((board) => board.containers);
  await placeByArea(problem, arrangement, Int32Array.from(rest), pulse, offered);
  return arrangement;
}
