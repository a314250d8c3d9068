import { type Arrangement, fullEnds, untwist } from '../arrangement/arrangement.ts';
import { scoreOf } from '../arrangement/score.ts';
import { allCopies, bestOfOrders } from '../construct/construct.ts';
import { boardChoices, FULLEST } from '../problem/board-choices.ts';
import type { NestingProblem } from '../problem/problem.ts';
import { type WholeBoard, wholeBoards } from '../problem/whole-boards.ts';
import { type Budget, ShareOfBudget } from '../running/budget.ts';
import type { Pulse } from '../running/pulse.ts';
import type { Random } from '../running/random.ts';
import { turnApart } from '../sliding/twisting.ts';
import { scatter } from './scatter.ts';
import { type Patience, Separation } from './separation.ts';

/**
 * Fewer or cheaper boards: for choices of boards that cost less than the present one, everything is laid out
 * constructively or taken over from the present arrangement; what finds no place is strewn over the boards and
 * separated. Goes on until the budget is spent: a board saved is worth more than a shorter one.
 */

/** Choices of boards, the roomiest, that are tried in turn. */
const IN_TURN = 4;

/** Share of what is left of the budget that one try gets. */
const SHARE_OF_REST = 0.25;

/** How long a try goes on without getting nearer. */
const PATIENCE: Patience = { sweeps: 200, strikes: 3 };

/**
 * Finds ever cheaper complete arrangements; `start` must be complete.
 *
 * @param accept takes an arrangement over, or finds fault with it
 */
export async function fewerBoards(
  problem: NestingProblem,
  start: Arrangement,
  random: Random,
  budget: Budget,
  pulse: Pulse,
  accept: (arrangement: Arrangement) => boolean,
): Promise<void> {
  let best = start;
  const ends = fullEnds(problem);
  const tries = new Map<string, number>();
  const triesOf = (boards: readonly number[]) => tries.get(boards.join(' ')) ?? 0;
  while (!budget.over && !pulse.stopped) {
    const choices = cheaperChoices(problem, scoreOf(problem, best).cost)
      .filter((boards) => triesOf(boards) < HOPELESS)
      .slice(0, IN_TURN);
    if (choices.length === 0) break;
    const boards = choices.reduce((least, one) => (triesOf(one) < triesOf(least) ? one : least));
    const first = triesOf(boards) === 0;
    tries.set(boards.join(' '), triesOf(boards) + 1);
    const begun = first
      ? await bestOfOrders(problem, allCopies(problem), boards, pulse)
      : moved(problem, best, boards);
    const missing = allCopies(problem).filter((item) => begun.container[item] < 0);
    const share = new ShareOfBudget(budget, budget.done + SHARE_OF_REST * (1 - budget.done));
    const separation = new Separation(problem, random, share, pulse);
    separation.arrangement.copyFrom(begun);
    if (!scatter(problem, separation.arrangement, missing, boards, random)) {
      tries.set(boards.join(' '), HOPELESS);
      continue;
    }
    untwist(problem, separation.arrangement, ends);
    const apart = await separation.separate({ containers: boards, ends }, PATIENCE);
    if (!apart && !(await turnApart(problem, separation.arrangement, boards, pulse))) continue;
    if (accept(separation.arrangement)) best = separation.arrangement;
  }
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
  const fullest = containers.map((_, k) => k).sort((a, b) => fill[b] - fill[a] || a - b);
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

/** Containers of choices of boards that cost less than `cost` and could be large enough, the roomiest first. */
function cheaperChoices(problem: NestingProblem, cost: number): number[][] {
  const { shapes, shapeOf } = problem;
  const need = shapeOf.reduce((sum, shape) => sum + shapes[shape].area, 0) / FULLEST;
  const ofKind = new Map<string, WholeBoard[]>();
  for (const board of wholeBoards(problem))
    ofKind.set(board.kind, [...(ofKind.get(board.kind) ?? []), board]);
  const kinds = [...ofKind.values()].map((members) => {
    const [{ cost: each, area }] = members;
    return { members, cost: each, room: area };
  });
  return boardChoices(kinds, cost * (1 - 1e-9), need)
    .sort((a, b) => b.room - a.room)
    .map(({ members }) => members.flatMap(({ containers }) => containers));
}
