import type { Arrangement } from './arrangement.ts';
import { type Budget, ShareOfBudget } from './budget.ts';
import { allCopies, bestOfOrders } from './construct.ts';
import type { NestingProblem } from './problem.ts';
import type { Pulse } from './pulse.ts';
import type { Random } from './random.ts';
import { scatter } from './scatter.ts';
import { scoreOf } from './score.ts';
import { Separation } from './separation.ts';

/**
 * Fewer or cheaper boards: for choices of boards that cost less than the present one, most room first, everything
 * is laid out constructively or, failing that, strewn over them and separated.
 */

/** No layout of real parts fills more than this share of its boards; choices beyond are not tried. */
const FULLEST = 0.985;

/** Choices looked at per round, and tries without success before giving up. */
const MOST_CHOICES = 2000;
const FAILURES = 6;

/** Tries of one choice of boards. */
const TRIES = 3;

/** The cheapest complete arrangement found; `start` must be complete. */
export async function fewerBoards(
  problem: NestingProblem,
  start: Arrangement,
  random: Random,
  budget: Budget,
  pulse: Pulse,
): Promise<Arrangement> {
  let best = start;
  let failures = 0;
  const tries = new Map<string, number>();
  while (failures < FAILURES && !budget.over && !pulse.stopped) {
    const choice = cheaperChoices(problem, scoreOf(problem, best).cost).find(
      (boards) => (tries.get(boards.join(' ')) ?? 0) < TRIES,
    );
    if (choice === undefined) break;
    const key = choice.join(' ');
    tries.set(key, (tries.get(key) ?? 0) + 1);
    const share = new ShareOfBudget(budget, budget.done + (1 - budget.done) / (FAILURES - failures));
    const arrangement = await fillExactly(problem, choice, random, share, pulse);
    if (arrangement === undefined) failures++;
    else best = arrangement;
  }
  return best;
}

/** A complete arrangement on exactly these boards, or undefined. */
async function fillExactly(
  problem: NestingProblem,
  boards: readonly number[],
  random: Random,
  budget: Budget,
  pulse: Pulse,
): Promise<Arrangement | undefined> {
  const built = await bestOfOrders(problem, allCopies(problem), boards, pulse);
  const missing = allCopies(problem).filter((item) => built.container[item] < 0);
  if (missing.length === 0) return built;
  const separation = new Separation(problem, random, budget, pulse);
  separation.arrangement.copyFrom(built);
  if (!scatter(problem, separation.arrangement, missing, boards, random)) return undefined;
  const ends = Float64Array.from(problem.containers, ({ box }) => box.maxX - problem.margin);
  const apart = await separation.separate({ containers: boards, ends }, { sweeps: 200, strikes: 3 });
  return apart ? separation.arrangement : undefined;
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
