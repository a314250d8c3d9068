import type { NestingProblem } from './problem.ts';

/** How many of some copies, by their numbers, are of every shape. */
export function countsByShape(
  { shapes, shapeOf }: Pick<NestingProblem, 'shapes' | 'shapeOf'>,
  copies: Iterable<number>,
): Int32Array {
  const counts = new Int32Array(shapes.length);
  for (const item of copies) counts[shapeOf[item]]++;
  return counts;
}

/** Numbers of the copies of every shape, in their order. */
export function copiesByShape({
  shapes,
  shapeOf,
}: Pick<NestingProblem, 'shapes' | 'shapeOf'>): readonly (readonly number[])[] {
  const copies = shapes.map((): number[] => []);
  for (const [item, shape] of shapeOf.entries()) copies[shape].push(item);
  return copies;
}
