import { type Arrangement, fullEnds, untwist } from '../arrangement/arrangement.ts';
import { allContainers, allCopies, bestOfOrders } from '../construct/construct.ts';
import { firstOfEach } from '../construct/first-of-each.ts';
import { areaOfCopies } from '../problem/area-of-copies.ts';
import { FULLEST } from '../problem/board-choices.ts';
import { excerptOf } from '../problem/excerpt.ts';
import type { NestingProblem } from '../problem/problem.ts';
import { costOfChoice, type WholeBoard, wholeBoards } from '../problem/whole-boards.ts';
import { MovesOfBudget, shareOfRest } from '../running/budget.ts';
import type { Random } from '../running/random.ts';
import { isOver, type Run } from '../running/run.ts';
import { Fitting, fittingTools } from './fitting.ts';
import { scatter } from './scatter.ts';

/**
 * One board less, or a cheaper one in its stead, by looking at single boards: the copies of a board are taken to the
 * others one by one, or all to one board that is not yet used. In a batch of many boards a board is saved so for a
 * few moves, where all copies at once would have to come apart anew.
 */

/** Boards that are tried to be spared, the emptiest first. */
const SPARED = 3;

/** Boards that a copy is offered to, those with most room first. */
const OFFERED = 4;

/** Tries of one board with a copy more. */
const TRIES = 3;

/** Share of what is left of the budget that one board gets. */
const SHARE_OF_REST = 0.2;

/** Moves a copy that it gets at most: most boards that can hold them do after five, and choices of several boards want the rest. */
const MOST_MOVES_OF_COPY = 60;

/** What a search for a board to spare runs on. */
interface Tools extends Run {
  readonly problem: NestingProblem;
  readonly random: Random;
}

/** A board in use. */
interface Used {
  readonly board: WholeBoard;
  /** Numbers of the copies on it. */
  readonly copies: readonly number[];
  /** Area of these copies, mm2. */
  readonly filled: number;
}

/** An arrangement that does without some board of `start`, which is complete; undefined when none is found. */
export async function spareBoard(
  problem: NestingProblem,
  start: Arrangement,
  random: Random,
  run: Run,
): Promise<Arrangement | undefined> {
  const tools: Tools = { problem, random, ...run };
  const used = boardsInUse(problem, start);
  for (const spared of used.slice(0, SPARED)) {
    if (isOver(run)) return undefined;
    const others = used.filter((other) => other !== spared);
    const room = others.reduce((sum, other) => sum + roomOn(other), 0);
    const emptied = room >= spared.filled ? await withoutBoard(tools, start, spared, others) : undefined;
    const next = emptied ?? (await onCheaperBoard(tools, start, used, spared));
    if (next !== undefined) return next;
  }
  return undefined;
}

/** The boards that carry something, the one with the least area of parts first. */
function boardsInUse(problem: NestingProblem, arrangement: Arrangement): Used[] {
  const on = problem.containers.map((): number[] => []);
  for (const [item, k] of arrangement.container.entries()) if (k >= 0) on[k].push(item);
  return wholeBoards(problem)
    .map((board) =>
      usedWith(
        problem,
        board,
        board.containers.flatMap((k) => on[k]),
      ),
    )
    .filter(({ copies }) => copies.length > 0)
    .sort((a, b) => a.filled - b.filled);
}

function usedWith(problem: NestingProblem, board: WholeBoard, copies: readonly number[]): Used {
  return { board, copies, filled: areaOfCopies(problem, copies) };
}

function areaOf({ shapes, shapeOf }: NestingProblem, item: number): number {
  return shapes[shapeOf[item]].area;
}

/** Area that might still be filled, mm2. */
function roomOn({ board, filled }: Used): number {
  return Math.max(0, FULLEST * board.area - filled);
}

/** The arrangement with the copies of one board on the others, the largest copy first. */
async function withoutBoard(
  tools: Tools,
  start: Arrangement,
  spared: Used,
  others: readonly Used[],
): Promise<Arrangement | undefined> {
  const { problem } = tools;
  const arrangement = start.clone();
  const receiving = [...others];
  const copies = [...spared.copies].sort((a, b) => areaOf(problem, b) - areaOf(problem, a) || a - b);
  for (const item of copies) arrangement.container[item] = -1;
  for (const item of copies) {
    const offered = receiving
      .filter((other) => roomOn(other) >= areaOf(problem, item))
      .sort((a, b) => roomOn(b) - roomOn(a))
      .slice(0, OFFERED);
    let found: Used | undefined;
    for (const other of offered) {
      const next = usedWith(problem, other.board, [...other.copies, item]);
      if (!(await laidOn(tools, arrangement, next))) continue;
      found = next;
      receiving[receiving.indexOf(other)] = next;
      break;
    }
    if (found === undefined) return undefined;
  }
  return arrangement;
}

/** The arrangement with all copies of a board on one that costs less and carries nothing yet. */
async function onCheaperBoard(
  tools: Tools,
  start: Arrangement,
  used: readonly Used[],
  { board, copies, filled }: Used,
): Promise<Arrangement | undefined> {
  const { problem, pulse } = tools;
  const taken = new Set(used.map((other) => other.board));
  const cheaper = wholeBoards(problem).filter(
    (other) =>
      !taken.has(other) &&
      costOfChoice(other) < costOfChoice(board) * (1 - 1e-9) &&
      FULLEST * other.area >= filled,
  );
  const tried = firstOfEach(cheaper, ({ kind }) => kind).sort((a, b) => b.area - a.area);
  for (const other of tried.slice(0, SPARED)) {
    const excerpt = excerptOf(problem, other.containers, copies);
    const built = await bestOfOrders(excerpt, allCopies(excerpt), allContainers(excerpt), pulse);
    const arrangement = start.clone();
    writeBack(arrangement, built, other, copies);
    if (await laidOn(tools, arrangement, { board: other, copies, filled })) return arrangement;
  }
  return undefined;
}

/**
 * Lays copies on a board, from where they lie in the arrangement; those that lie elsewhere or nowhere begin anywhere
 * on it. True when they fit, and the arrangement then has them there; else it is as it was.
 */
async function laidOn(
  { problem, random, budget, pulse }: Tools,
  arrangement: Arrangement,
  { board, copies }: Used,
): Promise<boolean> {
  const excerpt = excerptOf(problem, board.containers, copies);
  const all = allContainers(excerpt);
  const begun = arrangement.excerpt(copies, board.containers);
  const missing = begun.lyingNowhere();
  for (const n of missing) begun.twist[n] = 0;
  if (!scatter(excerpt, begun, missing, all, random)) return false;
  untwist(excerpt, begun, fullEnds(excerpt));
  const fitting = new Fitting(fittingTools(excerpt, random, pulse), all);
  const share = new MovesOfBudget(shareOfRest(budget, SHARE_OF_REST), MOST_MOVES_OF_COPY * copies.length);
  const found = await fitting.tryTimes(TRIES, begun, () => share);
  if (found === undefined) return false;
  writeBack(arrangement, found, board, copies);
  return true;
}

/** Writes what was found for a board alone into the arrangement of all. */
function writeBack(
  arrangement: Arrangement,
  found: Arrangement,
  { containers }: WholeBoard,
  copies: readonly number[],
): void {
  for (const [n, item] of copies.entries()) {
    arrangement.layAs(item, found, n);
    arrangement.container[item] = found.container[n] < 0 ? -1 : containers[found.container[n]];
  }
}
