import { type Arrangement, usedEnd } from './arrangement.ts';
import type { NestingProblem } from './problem.ts';
import { wholeBoards } from './whole-boards.ts';

/** What makes one arrangement better than another, most important first; less is better everywhere. */
export interface Score {
  /** Copies that lie nowhere. */
  readonly missing: number;
  /** Cost of the boards in use. */
  readonly cost: number;
  /** Boards in use. */
  readonly boards: number;
  /** Length of the sections in use of boards that have several, mm: what is not used of a board stays in one piece. */
  readonly sections: number;
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
  let boards = 0;
  let sections = 0;
  for (const board of wholeBoards(problem)) {
    const inUse = board.containers.filter((k) => used.has(k));
    if (inUse.length === 0) continue;
    cost += board.cost;
    boards++;
    if (board.containers.length === 1) continue;
    for (const k of inUse) sections += problem.containers[k].box.maxX - problem.containers[k].box.minX;
  }
  let tail = Number.POSITIVE_INFINITY;
  for (const container of used) {
    const end = usedEnd(problem, arrangement, container) - problem.containers[container].box.minX;
    tail = Math.min(tail, end);
  }
  return { missing, cost, boards, sections, tail: used.size === 0 ? 0 : tail };
}

/** True when `a` is better than `b`. */
export function better(a: Score, b: Score): boolean {
  if (a.missing !== b.missing) return a.missing < b.missing;
  if (Math.abs(a.cost - b.cost) > 1e-9 * (a.cost + b.cost)) return a.cost < b.cost;
  if (a.boards !== b.boards) return a.boards < b.boards;
  if (Math.abs(a.sections - b.sections) > 1e-6) return a.sections < b.sections;
  return a.tail < b.tail - 1e-9;
}
