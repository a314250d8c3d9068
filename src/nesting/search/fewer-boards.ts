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
  const search = new SearchForFewer(problem, start, random, run, accept);
  while (!isOver(run)) if (!(await search.spareOne()) && !(await search.tryNext())) return;
}

/** The search as it stands, from one try to the next. */
class SearchForFewer {
  readonly #problem: NestingProblem;
  readonly #random: Random;
  readonly #run: Run;
  readonly #accept: (arrangement: Arrangement) => boolean;
  readonly #cheaper: CheaperChoices;
  readonly #ends: Float64Array;
  /** Choices that were among the next to try, by their containers. */
  readonly #known = new Map<string, Choice>();
  #tools: FittingTools | undefined;
  #best: Arrangement;
  /** Containers of the choices that cost less than the best, once they are asked for. */
  #listed: readonly number[][] | undefined;
  /** Times that single boards of the best were tried to be spared. */
  #spared = 0;
  /** Tries of choices since the best was found. */
  #inVain = 0;

  constructor(
    problem: NestingProblem,
    start: Arrangement,
    random: Random,
    run: Run,
    accept: (arrangement: Arrangement) => boolean,
  ) {
    this.#problem = problem;
    this.#random = random;
    this.#run = run;
    this.#accept = accept;
    this.#best = start;
    this.#cheaper = new CheaperChoices(problem, run.pulse);
    this.#ends = fullEnds(problem);
  }

  /** Tries to spare a single board of the best, unless that was tried often enough; true when it is spared. */
  async spareOne(): Promise<boolean> {
    if (this.#spared >= TRIED_TO_SPARE) return false;
    this.#spared++;
    const { pulse, budget } = this.#run;
    const share = shareOfRest(budget, SHARE_OF_REST);
    const less = await spareBoard(this.#problem, this.#best, this.#random, { pulse, budget: share });
    return less !== undefined && this.#take(less);
  }

  /** Tries to lay everything out on the most hopeful choice of boards; false when there is none left. */
  async tryNext(): Promise<boolean> {
    const choice = await this.#mostHopeful();
    if (choice === undefined) return false;
    const { fitting, tries } = choice;
    const share = budgetOfTry(this.#run.budget, tries, this.#problem.shapeOf.length);
    let next: Arrangement | undefined;
    if (tries === 1) next = await fitting.goOn(share);
    else if (tries === 0 || tries % ANEW === 2) {
      const begun = await this.#strewn(choice);
      if (begun === undefined) {
        choice.tries = HOPELESS;
        return true;
      }
      next = await fitting.tryFrom(begun, share);
    } else next = await fitting.tryAgain(share);
    choice.tries++;
    this.#inVain++;
    if (next !== undefined) this.#take(next);
    return true;
  }

  /** Goes on from an arrangement, where no fault is found with it. */
  #take(next: Arrangement): boolean {
    if (!this.#accept(next)) return false;
    this.#best = next;
    this.#listed = undefined;
    this.#spared = 0;
    this.#inVain = 0;
    return true;
  }

  async #mostHopeful(): Promise<Choice | undefined> {
    this.#listed ??= await this.#cheaper.below(scoreOf(this.#problem, this.#best));
    const inTurn = IN_TURN + Math.floor(this.#inVain / TRIES_TO_WIDEN);
    const choices: Choice[] = [];
    // Of thousands no more are looked at than are asked for.
    for (const boards of this.#listed) {
      if (choices.length === inTurn) break;
      const choice = this.#choiceOf(boards);
      if (choice.tries !== HOPELESS) choices.push(choice);
    }
    if (choices.length === 0) return undefined;
    return choices.reduce((nearest, one) => (isNearer(one, nearest) ? one : nearest));
  }

  #choiceOf(boards: readonly number[]): Choice {
    const key = boards.join(' ');
    this.#tools ??= fittingTools(this.#problem, this.#random, this.#run.pulse);
    const choice = this.#known.get(key) ?? { boards, tries: 0, fitting: new Fitting(this.#tools, boards) };
    this.#known.set(key, choice);
    return choice;
  }

  /**
   * An arrangement on the boards of a choice to separate: built for them the first time, later taken over from the best,
   * with what finds no place strewn over them. Undefined where some copy fits on none of them.
   */
  async #strewn({ boards, tries }: Choice): Promise<Arrangement | undefined> {
    const problem = this.#problem;
    const begun =
      tries === 0
        ? await bestOfOrders(problem, allCopies(problem), boards, this.#run.pulse)
        : moved(problem, this.#best, boards);
    if (!scatter(problem, begun, begun.lyingNowhere(), boards, this.#random)) return undefined;
    untwist(problem, begun, this.#ends);
    return begun;
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
  /** Indices of its containers. */
  readonly boards: readonly number[];
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
