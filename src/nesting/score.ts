import { type Arrangement, usedEnd } from './arrangement.ts';
import type { NestingProblem } from './problem.ts';

/** What makes one arrangement better than another, most important first; less is better everywhere. */
export interface Score {
  /** Copies that lie nowhere. */
  readonly missing: number;
  /** Cost of the containers in use. */
  readonly cost: number;
  /** Containers in use. */
  readonly boards: number;
  /** Used length of the emptiest container in use, mm. */
  readonly tail: number;
}

/** Scores an arrangement without overlaps. */
export function scoreOf(problem: NestingProblem, arrangement: Arrangement): Score {
  const used = new Set<number>();
  let missing = 0;
  for (const container of arrangement.container) {
    if (container < 0) missing++;
    else used.add(container);
  }
  let cost = 0;
  let tail = Number.POSITIVE_INFINITY;
  for (const container of used) {
    cost += problem.containers[container].cost;
    const end = usedEnd(problem, arrangement, container) - problem.containers[container].box.minX;
    tail = Math.min(tail, end);
  }
  return { missing, cost, boards: used.size, tail: used.size === 0 ? 0 : tail };
}

/** True when `a` is better than `b`. */
export function better(a: Score, b: Score): boolean {
  if (a.missing !== b.missing) return a.missing < b.missing;
  if (Math.abs(a.cost - b.cost) > 1e-9 * (a.cost + b.cost)) return a.cost < b.cost;
  if (a.boards !== b.boards) return a.boards < b.boards;
  return a.tail < b.tail - 1e-9;
}
