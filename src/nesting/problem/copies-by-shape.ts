import type { NestingProblem } from './problem.ts';

/** Numbers of the copies of every shape, in their order. */
export function copiesByShape({
  shapes,
  shapeOf,
}: Pick<NestingProblem, 'shapes' | 'shapeOf'>): readonly (readonly number[])[] {
  const copies = shapes.map((): number[] => []);
  for (const [item, shape] of shapeOf.entries()) copies[shape].push(item);
  return copies;
}
