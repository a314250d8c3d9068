import type { Arrangement } from './arrangement.ts';
import { type Budget, ShareOfBudget } from './budget.ts';
import { allCopies, bestOfOrders } from './construct.ts';
import type { NestingProblem } from './problem.ts';
import type { Pulse } from './pulse.ts';
import type { Random } from './random.ts';
import { scatter } from './scatter.ts';
import { scoreOf } from './score.ts';
import { type Patience, Separation } from './separation.ts';

/**
 * Fewer or cheaper boards: for choices of boards that cost less than the present one, everything is laid out
 * constructively or taken over from the present arrangement; what finds no place is strewn over the boards and
 * separated. Goes on until the budget is spent: a board saved is worth more than a shorter one.
 */

/** No layout of real parts fills more than this share of its boards; choices beyond are not tried. */
const FULLEST = 0.985;

/** Choices looked at per round, and how many of them, the roomiest, are tried in turn. */
const MOST_CHOICES = 2000;
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
    const ends = Float64Array.from(problem.containers, ({ box }) => box.maxX - problem.margin);
    if (!(await separation.separate({ containers: boards, ends }, PATIENCE))) continue;
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

/** Choices of boards that cost less than `cost` and could be large enough, the roomiest first. */
function cheaperChoices(problem: NestingProblem, cost: number): number[][] {
  const { containers, shapes, shapeOf } = problem;
  const need = shapeOf.reduce((sum, shape) => sum + shapes[shape].area, 0) / FULLEST;
  const ofKind = new Map<number, number[]>();
  for (const [k, { kind }] of containers.entries()) ofKind.set(kind, [...(ofKind.get(kind) ?? []), k]);
  const kinds = [...ofKind.values()];
  const choices: { boards: number[]; area: number }[] = [];
  let looks = 0;
  const extend = (kind: number, boards: number[], spent: number, area: number): void => {
    if (looks++ > MOST_CHOICES) return;
    if (kind === kinds.length) {
      if (area >= need) choices.push({ boards, area });
      return;
    }
    const { cost: price, area: size } = containers[kinds[kind][0]];
    for (let count = kinds[kind].length; count >= 0; count--) {
      const total = spent + count * price;
      if (total >= cost * (1 - 1e-9)) continue;
      extend(kind + 1, [...boards, ...kinds[kind].slice(0, count)], total, area + count * size);
    }
  };
  extend(0, [], 0, 0);
  return choices.sort((a, b) => b.area - a.area).map(({ boards }) => boards);
}
