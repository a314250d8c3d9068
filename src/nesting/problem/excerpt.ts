import type { NestingProblem } from './problem.ts';

/**
 * Some copies on some containers as a problem of their own, numbered in the order given; shapes and fields are shared.
 * Tables of pairs grow with the square of the copies, so what concerns one board is better asked of it alone.
 *
 * @param containers their indices in the problem, from 0
 * @param copies the same of copies
 */
export function excerptOf(
  problem: NestingProblem,
  containers: readonly number[],
  copies: readonly number[],
): NestingProblem {
  return {
    ...problem,
    containers: containers.map((k) => problem.containers[k]),
    shapeOf: Int32Array.from(copies, (item) => problem.shapeOf[item]),
  };
}
