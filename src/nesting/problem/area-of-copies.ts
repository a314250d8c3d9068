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
