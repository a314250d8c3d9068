import { FULLEST } from './board-choices.ts';
import type { NestingProblem } from './problem.ts';

/** Solid area of some copies together, mm2; copies by their numbers. */
export function areaOfCopies(
  { shapes, shapeOf }: Pick<NestingProblem, 'shapes' | 'shapeOf'>,
  copies: Iterable<number>,
): number {
  let sum = 0;
  for (const copy of copies) sum += shapes[shapeOf[copy]].area;
  return sum;
}

/** False when some copies ask for more area than the boards of the problem have, however they were to lie. */
export function mayFit(problem: NestingProblem, copies: Iterable<number>): boolean {
  return (
    areaOfCopies(problem, copies) <= FULLEST * problem.containers.reduce((sum, { area }) => sum + area, 0)
  );
}
