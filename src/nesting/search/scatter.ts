import { type Arrangement, hasRoom, type Range, setRange } from '../arrangement/arrangement.ts';
import type { NestingProblem } from '../problem/problem.ts';
import type { Random } from '../running/random.ts';

/** Starting points for a separation: copies strewn over the boards, overlaps allowed. */

/**
 * Puts copies at random places of the given containers, each in an orientation that fits there. False when a copy
 * fits into none of them in any orientation.
 */
export function scatter(
  problem: NestingProblem,
  arrangement: Arrangement,
  copies: Iterable<number>,
  containers: readonly number[],
  random: Random,
): boolean {
  const range: Range = { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  for (const item of copies) {
    const choices = fittingLies(problem, problem.shapeOf[item], containers);
    if (choices.length === 0) return false;
    const [container, orientation] = choices[random.below(choices.length)];
    rangeOf(problem, container, orientation, range);
    arrangement.x[item] = random.between(range.minX, range.maxX);
    arrangement.y[item] = random.between(range.minY, range.maxY);
    arrangement.orientation[item] = orientation;
    arrangement.container[item] = container;
  }
  return true;
}

/** Containers and orientations in which a shape can lie at all, other copies aside. */
export function fittingLies(
  problem: NestingProblem,
  shape: number,
  containers: readonly number[],
): [container: number, orientation: number][] {
  return containers.flatMap((container) =>
    problem.shapes[shape].orientations
      .filter((orientation) => {
        if (!hasRoom(problem, container, orientation)) return false;
        return problem.containers[container].hazards.every(
          (hazard) => problem.pairs.hazard(hazard, orientation) !== null,
        );
      })
      .map((orientation): [number, number] => [container, orientation]),
  );
}

function rangeOf(problem: NestingProblem, container: number, orientation: number, range: Range): void {
  const place = problem.containers[container];
  setRange(range, place, problem.orientations[orientation], problem.margin, Number.POSITIVE_INFINITY);
}
