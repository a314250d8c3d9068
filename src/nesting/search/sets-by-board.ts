import { Arrangement } from '../arrangement/arrangement.ts';
import { costOfUsed, scoreOf } from '../arrangement/score.ts';
import {
  allContainers,
  allCopies,
  bestOfOrders,
  copiesOfSets,
  mostThatFit,
  placeRest,
  setsAskedFor,
} from '../construct/construct.ts';
import { areaOfCopies, mayFit } from '../problem/area-of-copies.ts';
import { boardsForSets } from '../problem/boards-for-sets.ts';
import { excerptOf } from '../problem/excerpt.ts';
import type { NestingProblem } from '../problem/problem.ts';
import {
  boardsByKind,
  byCostOfArea,
  costOfChoice,
  type WholeBoard,
  wholeBoards,
} from '../problem/whole-boards.ts';
import { MovesOfBudget, shareOfRest } from '../running/budget.ts';
import type { Pulse } from '../running/pulse.ts';
import type { Random } from '../running/random.ts';
import { isOver, type Run } from '../running/run.ts';
import { Fitting, fittingTools } from './fitting.ts';
import { scatter } from './scatter.ts';

/**
 * Whole sets on every board: as many as one board of a kind holds, laid on the others of its kind in the same way. Whoever
 * bought boards of the length of a set lays them out so, and sets that are mixed over many boards seldom come back to it.
 */

/** Share of what is left of the budget that goes to sets that nearly fit a board, all kinds of boards together. */
const SHARE_OF_REST = 0.05;

/** Tries of one number of sets on one board. */
const TRIES = 3;

/** Moves a copy that one of them gets at most. */
const MOVES_OF_TRY = 100;

/** Kinds of boards, cheapest first, that are filled with fewer sets than would gain something: enough for what is left over. */
const KINDS_FOR_THE_REST = 8;

/** Boards of one kind, and what lies on one of them. */
interface FilledKind {
  readonly members: readonly WholeBoard[];
  readonly sets: number;
  /** The copies of so many sets, in the order of {@link copiesOfSets} of the first ones. */
  readonly layout: Arrangement;
}

/**
 * Offers a layout of whole sets on every board, where one board of some kind holds more of them than the present layout
 * makes for what such a board costs.
 *
 * @param start an arrangement without overlaps; where copies lie nowhere the stock is too small, and area is what counts
 * @param accept takes an arrangement over, or finds fault with it
 */
export async function setsByBoard(
  problem: NestingProblem,
  start: Arrangement,
  random: Random,
  run: Run,
  accept: (arrangement: Arrangement) => boolean,
): Promise<void> {
  if (wholeBoards(problem).length < 2) return;
  const kinds = boardsByKind(problem);
  const gainFrom = setsForGain(problem, start);
  const budget = shareOfRest(run.budget, SHARE_OF_REST);
  const filled: FilledKind[] = [];
  for (const [k, members] of kinds.entries()) {
    const own: Run = { pulse: run.pulse, budget: shareOfRest(budget, 1 / (kinds.length - k)) };
    const most = await mostSets(problem, members, gainFrom(members[0]), random, own);
    if (most !== undefined) filled.push(most);
  }
  if (filled.length === 0) return;
  for (const members of forTheRest(kinds, filled)) {
    if (run.pulse.stopped) return;
    const fewer = await fewerSets(problem, members, gainFrom(members[0]) - 1, run.pulse);
    if (fewer !== undefined) filled.push(fewer);
  }
  const arrangement = new Arrangement(problem.shapeOf.length);
  layOnBoards(problem, filled, arrangement);
  await placeRest(problem, arrangement, run.pulse);
  if (!run.pulse.stopped) accept(arrangement);
}

/** The kinds that are not filled and have the cheapest area, in their order; those to be filled first come before others. */
function forTheRest(
  kinds: readonly (readonly WholeBoard[])[],
  filled: readonly FilledKind[],
): (readonly WholeBoard[])[] {
  const others = kinds.filter((members) => !filled.some((kind) => kind.members === members));
  const cheapest = byCostOfArea(others).sort((a, b) => Number(b[0].first) - Number(a[0].first));
  const taken = new Set(cheapest.slice(0, KINDS_FOR_THE_REST));
  return others.filter((members) => taken.has(members));
}

/** From how many sets on one board on it gives more of them for its cost, or for its area, than the arrangement does. */
function setsForGain(problem: NestingProblem, arrangement: Arrangement): (board: WholeBoard) => number {
  const score = scoreOf(problem, arrangement);
  const from = (share: number, made: number) => Math.floor(share * made * (1 + 1e-9)) + 1;
  if (score.missing > 0) {
    const whole = wholeBoards(problem).reduce((sum, { area }) => sum + area, 0);
    return ({ area }) => from(area / whole, score.sets);
  }
  const all = costOfUsed(score);
  // Everything lies on boards that cost nothing, as those with pinned copies do: there is nothing to gain.
  if (all === 0) return () => Number.POSITIVE_INFINITY;
  return (board) => from(costOfChoice(board) / all, setsAskedFor(problem));
}

/** As many sets as are found to fit one board of a kind; undefined when those are less than `from`. */
async function mostSets(
  problem: NestingProblem,
  members: readonly WholeBoard[],
  from: number,
  random: Random,
  run: Run,
): Promise<FilledKind | undefined> {
  const all = setsAskedFor(problem);
  let most: FilledKind | undefined;
  for (let sets = from; sets <= all && !isOver(run); sets++) {
    const excerpt = setsOnBoard(problem, members[0], sets);
    if (excerpt === undefined) break;
    const layout = await laidOut(excerpt, random, run);
    if (layout === undefined) break;
    most = { members, sets, layout };
  }
  return most;
}

/** The most sets, up to a number, that fit one board of a kind copy by copy; undefined when not one does. */
async function fewerSets(
  problem: NestingProblem,
  members: readonly WholeBoard[],
  upTo: number,
  pulse: Pulse,
): Promise<FilledKind | undefined> {
  // Of keepers and dear boards the number asked about may be in the millions.
  const tooMany = Math.min(upTo, setsAskedFor(problem)) + 1;
  const most = await mostThatFit(tooMany, pulse, async (sets) => {
    const excerpt = setsOnBoard(problem, members[0], sets);
    if (excerpt === undefined) return undefined;
    const layout = await constructed(excerpt, pulse);
    return scoreOf(excerpt, layout).missing > 0 ? undefined : layout;
  });
  return most && { members, ...most };
}

/** Some sets on one board as a problem of its own; undefined when they have more area than it. */
function setsOnBoard(problem: NestingProblem, board: WholeBoard, sets: number): NestingProblem | undefined {
  const copies = [...copiesOfSets(problem, 0, sets)];
  return areaOfCopies(problem, copies) <= board.area
    ? excerptOf(problem, board.containers, copies)
    : undefined;
}

function constructed(problem: NestingProblem, pulse: Pulse): Promise<Arrangement> {
  return bestOfOrders(problem, allCopies(problem), allContainers(problem), pulse);
}

/** All copies of a problem laid out, copy by copy or by a short search; undefined when they are not. */
async function laidOut(problem: NestingProblem, random: Random, run: Run): Promise<Arrangement | undefined> {
  const begun = await constructed(problem, run.pulse);
  const missing = begun.lyingNowhere();
  if (missing.length === 0) return begun;
  const boards = allContainers(problem);
  if (!mayFit(problem, allCopies(problem))) return undefined;
  if (!scatter(problem, begun, missing, boards, random)) return undefined;
  const fitting = new Fitting(fittingTools(problem, random, run.pulse), boards);
  return fitting.tryTimes(TRIES, begun, () => new MovesOfBudget(run.budget, MOVES_OF_TRY * begun.count));
}

/** Lays sets on the cheapest boards that hold all of them, or on all boards where those do not. */
function layOnBoards(problem: NestingProblem, filled: readonly FilledKind[], arrangement: Arrangement): void {
  const all = setsAskedFor(problem);
  const kinds = filled.toSorted((a, b) => Number(b.members[0].first) - Number(a.members[0].first));
  const counts = boardsForSets(
    kinds.map(({ members, sets }) => {
      const [{ cost, first }] = members;
      return { holds: sets, count: members.length, cost, first };
    }),
    all,
  );
  let done = 0;
  for (const [k, kind] of kinds.entries()) {
    for (const board of kind.members.slice(0, counts?.[k])) {
      if (done === all) return;
      layOnBoard(problem, kind, board, done, arrangement);
      done = Math.min(all, done + kind.sets);
    }
  }
}

/** Lays the sets from number `first` (from 0) on on one board, as those of its kind lie; there may be fewer of them. */
function layOnBoard(
  problem: NestingProblem,
  { sets, layout }: FilledKind,
  board: WholeBoard,
  first: number,
  arrangement: Arrangement,
): void {
  const pattern = copiesOfSets(problem, 0, sets);
  const free = problem.shapes.map((): number[] => []);
  for (const [n, item] of pattern.entries()) free[problem.shapeOf[item]].push(n);
  for (const item of copiesOfSets(problem, first, first + sets)) {
    const n = free[problem.shapeOf[item]].shift()!;
    arrangement.layAs(item, layout, n);
    arrangement.container[item] = board.containers[layout.container[n]];
  }
}
