import { Arrangement, fullEnds, untwist } from '../arrangement/arrangement.ts';
import { scoreOf } from '../arrangement/score.ts';
import { allContainers, copiesOfSets, placeRest } from '../construct/construct.ts';
import { mayFit } from '../problem/area-of-copies.ts';
import type { NestingProblem } from '../problem/problem.ts';
import { shareOfRest } from '../running/budget.ts';
import type { Random } from '../running/random.ts';
import { isOver, type Run } from '../running/run.ts';
import { Fitting, fittingTools } from './fitting.ts';
import { scatter } from './scatter.ts';

/**
 * More complete sets from a stock that is too small for all: the copies of one more set are strewn over the boards
 * among the complete ones and separated; single copies then fill what room is left. A try that fails is gone on from,
 * or made again from other places, until the budget is spent: what one strewing jams another lets in.
 */

/** Share of what is left of the budget that one try gets. */
const SHARE_OF_REST = 0.5;

/** Every so many tries for one more set start from the best arrangement, the others from one that failed. */
const ANEW = 3;

/** The arrangement with as many complete sets as are found; `start` with what it has when there are no more. */
export async function moreSets(
  problem: NestingProblem,
  start: Arrangement,
  random: Random,
  run: Run,
): Promise<Arrangement> {
  const { pulse, budget } = run;
  const boards = allContainers(problem);
  const ends = fullEnds(problem);
  let best = start;
  const tools = fittingTools(problem, random, pulse);
  let fitting = new Fitting(tools, boards);
  for (let tries = 0; !isOver(run); tries++) {
    const { sets } = scoreOf(problem, best);
    const wanted = copiesOfSets(problem, 0, sets + 1, problem.pinned);
    if (wanted.length === 0 || wanted.length > best.count || !mayFit(problem, wanted)) return best;
    const share = shareOfRest(budget, SHARE_OF_REST);
    let next: Arrangement | undefined;
    if (tries % ANEW === 0) {
      const listed = best.clone();
      untwist(problem, listed, ends);
      const begun = new Arrangement(best.count);
      takeOver(problem, listed, wanted, begun);
      const missing = wanted.filter((item) => begun.container[item] < 0);
      if (missing.length === 0 || !scatter(problem, begun, missing, boards, random)) return best;
      next = await fitting.tryFrom(begun, share);
    } else next = await fitting.tryAgain(share);
    if (next === undefined) continue;
    best = next;
    const filled = best.clone();
    await placeRest(problem, filled, pulse);
    // Single copies are placed by no-fit polygons, which do not know of copies that are turned on.
    if (tools.check.passes(filled)) best = filled;
    fitting = new Fitting(tools, boards);
    tries = -1;
  }
  return best;
}

/** Lays the wanted copies where the best arrangement has copies of their shape; the others stay away. */
function takeOver(problem: NestingProblem, best: Arrangement, wanted: Int32Array, target: Arrangement): void {
  const free = problem.shapes.map((): number[] => []);
  for (let i = best.count - 1; i >= 0; i--) if (best.container[i] >= 0) free[problem.shapeOf[i]].push(i);
  for (const item of wanted) {
    const from = free[problem.shapeOf[item]].pop();
    if (from === undefined) continue;
    target.layAs(item, best, from);
    target.container[item] = best.container[from];
  }
}
