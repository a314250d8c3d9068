import type { NestingProblem } from '../problem/problem.ts';
import { costOfChoice, wholeBoards } from '../problem/whole-boards.ts';
import { type Arrangement, usedEnd } from './arrangement.ts';
import { clearEnd } from './clear-end.ts';

/** What makes one arrangement better than another, most important first; less is better where nothing else is said. */
export interface Score {
  /** Complete sets; more is better, for sets are what is sold. Infinite when no copy is missing. */
  readonly sets: number;
  /** Copies that lie nowhere. */
  readonly missing: number;
  /** Cost of the boards in use that are not filled first. */
  readonly freshCost: number;
  /** Area of the copies on such boards, mm2: none is cut from them while one that is filled first has room. */
  readonly onFresh: number;
  /** Cost of all boards in use. */
  readonly cost: number;
  /** Boards in use. */
  readonly boards: number;
  /** Length of the sections in use of boards that have several, mm: what is not used of a board stays in one piece. */
  readonly sections: number;
  /** Largest clear end of a container in use, mm2; more is better: one big keeper is worth more than many slivers. */
  readonly clear: number;
}

/** Cost by which boards are chosen, of those in use: see {@link costOfChoice}. */
export function costOfUsed({ cost, freshCost }: Score): number {
  return (
    costOfChoice({ cost: freshCost, first: false }) + costOfChoice({ cost: cost - freshCost, first: true })
  );
}

/** Scores an arrangement without overlaps. */
export function scoreOf(problem: NestingProblem, arrangement: Arrangement): Score {
  const { containers, shapes, shapeOf } = problem;
  const areas = new Map<number, number>();
  let missing = 0;
  for (let item = 0; item < arrangement.count; item++) {
    const k = arrangement.container[item];
    if (k < 0) missing++;
    else areas.set(k, (areas.get(k) ?? 0) + shapes[shapeOf[item]].area);
  }
  let freshCost = 0;
  let onFresh = 0;
  let cost = 0;
  let boards = 0;
  let sections = 0;
  for (const board of wholeBoards(problem)) {
    const inUse = board.containers.filter((k) => areas.has(k));
    if (inUse.length === 0) continue;
    cost += board.cost;
    boards++;
    if (!board.first) {
      freshCost += board.cost;
      for (const k of inUse) onFresh += areas.get(k)!;
    }
    if (board.containers.length === 1) continue;
    for (const k of inUse) sections += containers[k].box.maxX - containers[k].box.minX;
  }
  let clear = 0;
  for (const k of areas.keys())
    clear = Math.max(clear, clearEnd(containers[k], usedEnd(problem, arrangement, k)));
  const sets = missing === 0 ? Number.POSITIVE_INFINITY : completeSets(problem, arrangement);
  return { sets, missing, freshCost, onFresh, cost, boards, sections, clear };
}

/**
 * Number of sets of which every copy lies somewhere. A shape of which no copy is missing does not count: all its copies
 * may be pinned, and then none of them is among those to place.
 */
function completeSets({ shapes, shapeOf, perSet, pinned }: NestingProblem, arrangement: Arrangement): number {
  const placed = Int32Array.from(pinned);
  const isMissing = new Uint8Array(shapes.length);
  for (let item = 0; item < arrangement.count; item++) {
    if (arrangement.container[item] >= 0) placed[shapeOf[item]]++;
    else isMissing[shapeOf[item]] = 1;
  }
  const sets = perSet.map((each, s) => (isMissing[s] ? Math.floor(placed[s] / each) : Infinity));
  return Math.min(...sets);
}

/**
 * True when `a` is better than `b`. Nothing that is measured is asked to be exactly equal: two sums of the same terms in
 * another order would then pass for a gain, and the search would chase its own rounding.
 */
export function better(a: Score, b: Score): boolean {
  if (a.sets !== b.sets) return a.sets > b.sets;
  if (a.missing !== b.missing) return a.missing < b.missing;
  if (differ(a.freshCost, b.freshCost)) return a.freshCost < b.freshCost;
  if (differ(a.onFresh, b.onFresh)) return a.onFresh < b.onFresh;
  if (differ(a.cost, b.cost)) return a.cost < b.cost;
  if (a.boards !== b.boards) return a.boards < b.boards;
  if (Math.abs(a.sections - b.sections) > 1e-6) return a.sections < b.sections;
  return a.clear > b.clear * (1 + 1e-9);
}

/** Sums of the same boards and copies differ by their rounding. */
function differ(a: number, b: number): boolean {
  return Math.abs(a - b) > 1e-9 * (a + b);
}
