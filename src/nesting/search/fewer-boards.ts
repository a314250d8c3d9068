import { type Arrangement, fullEnds, untwist } from '../arrangement/arrangement.ts';
import { scoreOf } from '../arrangement/score.ts';
import { allContainers, allCopies, bestOfOrders } from '../construct/construct.ts';
import type { NestingProblem } from '../problem/problem.ts';
import { type Budget, MovesAtLeast, MovesOfBudget, shareOfRest } from '../running/budget.ts';
import type { Random } from '../running/random.ts';
import { isOver, type Run } from '../running/run.ts';
import { CheaperChoices } from './cheaper-choices.ts';
import { Fitting, type FittingTools, fittingTools } from './fitting.ts';
import { scatter } from './scatter.ts';
import { spareBoard } from './spare-board.ts';

/**
 * Fewer or cheaper boards: for choices of boards that cost less than the present one, everything is laid out
 * constructively or taken over from the present arrangement; what finds no place is strewn over the boards and
 * separated. Before and between, single boards are tried to be spared. Goes on until the budget is spent: a board saved is worth more than a shorter one.
 */

/** Choices of boards, the most hopeful, among which the next to try is the one that came nearest. */
const IN_TURN = 4;

/** Tries in vain after which one choice more is among them: those may never hold it all. */
const TRIES_TO_WIDEN = 4;

/** Share of what is left of the budget that one try gets. */
const SHARE_OF_REST = 0.25;

/** Moves a copy that the first try of a choice gets at most: enough to tell boards that nearly hold all from those that never will. */
const MOVES_OF_FIRST_TRY = 25;

/** Moves a copy that every other try of a choice gets at most. */
const MOST_MOVES_OF_TRY = 200;

/** Moves a copy that it gets at least, as long as there are any: of shorter tries hardly one comes to its end. */
const LEAST_MOVES_OF_TRY = 50;

/** Every so many tries of a choice start from the present arrangement, the others from one that failed. */
const ANEW = 4;

/** Times that single boards of one arrangement are tried to be spared, one after each try of a choice. */
const TRIED_TO_SPARE = 3;

/**
 * Finds ever cheaper complete arrangements; `start` must be complete.
 *
 * @param accept takes an arrangement over, or finds fault with it
 */
export async function fewerBoards(
  problem: NestingProblem,
  start: Arrangement,
  random: Random,
  run: Run,
  accept: (arrangement: Arrangement) => boolean,
): Promise<void> {
  const { pulse, budget } = run;
  let best = start;
  const ends = fullEnds(problem);
  let tools: FittingTools | undefined;
  const known = new Map<string, Choice>();
  const keyOf = (boards: readonly number[]) => boards.join(' ');
  const choiceOf = (boards: readonly number[]): Choice => {
    const key = keyOf(boards);
    tools ??= fittingTools(problem, random, pulse);
    const choice = known.get(key) ?? { tries: 0, fitting: new Fitting(tools, boards) };
    known.set(key, choice);
    return choice;
  };
  let spared = 0;
  let inVain = 0;
  const cheaper = new CheaperChoices(problem, pulse);
  let listed: readonly number[][] | undefined;
  const goOnFrom = (next: Arrangement) => {
    best = next;
    spared = 0;
    inVain = 0;
    listed = undefined;
  };
  while (!isOver(run)) {
    if (spared < TRIED_TO_SPARE) {
      const less = await spareBoard(problem, best, random, {
        pulse,
        budget: shareOfRest(budget, SHARE_OF_REST),
      });
      spared++;
      if (less !== undefined && accept(less)) {
        goOnFrom(less);
        continue;
      }
    }
    listed ??= await cheaper.below(scoreOf(problem, best));
    const inTurn = IN_TURN + Math.floor(inVain / TRIES_TO_WIDEN);
    const choices: (readonly number[])[] = [];
    // Of thousands no more are looked at than are asked for.
    for (const boards of listed) {
      if (choices.length === inTurn) break;
      if (known.get(keyOf(boards))?.tries !== HOPELESS) choices.push(boards);
    }
    if (choices.length === 0) break;
    const boards = choices.reduce((least, one) => (isNearer(choiceOf(one), choiceOf(least)) ? one : least));
    const choice = choiceOf(boards);
    const share = budgetOfTry(budget, choice.tries, problem.shapeOf.length);
    let next: Arrangement | undefined;
    if (choice.tries === 1) next = await choice.fitting.goOn(share);
    else if (choice.tries === 0 || choice.tries % ANEW === 2) {
      const begun =
        choice.tries === 0
          ? await bestOfOrders(problem, allCopies(problem), boards, pulse)
          : moved(problem, best, boards);
      const missing = begun.lyingNowhere();
      if (!scatter(problem, begun, missing, boards, random)) {
        choice.tries = HOPELESS;
        continue;
      }
      untwist(problem, begun, ends);
      next = await choice.fitting.tryFrom(begun, share);
    } else next = await choice.fitting.tryAgain(share);
    choice.tries++;
    inVain++;
    if (next !== undefined && accept(next)) goOnFrom(next);
  }
}

/** What a try of a choice may spend, by the number of tries before it. */
function budgetOfTry(budget: Budget, tries: number, copies: number): Budget {
  const share = shareOfRest(budget, SHARE_OF_REST);
  if (tries === 0) return new MovesOfBudget(share, MOVES_OF_FIRST_TRY * copies);
  return new MovesOfBudget(
    new MovesAtLeast(budget, share, LEAST_MOVES_OF_TRY * copies),
    MOST_MOVES_OF_TRY * copies,
  );
}

/** A choice of boards, and what has been tried to fit everything onto it. */
interface Choice {
  tries: number;
  readonly fitting: Fitting;
}

/** True when a choice of boards is the one to try next: it has not been tried, or the overlap left of it times its tries is less. */
function isNearer(a: Choice, b: Choice): boolean {
  if (a.tries === 0 || b.tries === 0) return a.tries < b.tries;
  return a.fitting.nearest * a.tries < b.fitting.nearest * b.tries;
}

/** Number of tries of a choice on whose boards some copy fits nowhere. */
const HOPELESS = Number.POSITIVE_INFINITY;

/**
 * The arrangement on other boards: those of a kind that both have carry what lies there, the fullest first; copies of
 * boards that are not among them lie nowhere.
 */
function moved(problem: NestingProblem, arrangement: Arrangement, boards: readonly number[]): Arrangement {
  const { containers, shapes, shapeOf } = problem;
  const fill = containers.map(() => 0);
  for (const [item, k] of arrangement.container.entries()) if (k >= 0) fill[k] += shapes[shapeOf[item]].area;
  const fullest = allContainers(problem).sort((a, b) => fill[b] - fill[a] || a - b);
  const target = new Int32Array(containers.length).fill(-1);
  for (const board of boards) {
    const from = fullest.findIndex((k) => containers[k].kind === containers[board].kind);
    target[fullest[from]] = board;
    fullest.splice(from, 1);
  }
  const copy = arrangement.clone();
  for (const [item, k] of arrangement.container.entries()) copy.container[item] = k < 0 ? -1 : target[k];
  return copy;
}
