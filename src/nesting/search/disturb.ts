import { type Arrangement, hasRoom } from '../arrangement/arrangement.ts';
import type { NestingProblem } from '../problem/problem.ts';
import type { Random } from '../running/random.ts';

/** Disturbances that lead a search out of a dead end: what is disturbed overlaps and has to be separated again. */

/** Share of the copies, largest first, that count as large. */
const LARGE = 0.5;

/** Copies that change places in a shuffle: at least, and how many more at most. */
const FEWEST = 3;
const MORE = 5;

/**
 * Swaps two large copies of different shapes, or shuffles the places of some neighbours. A copy that is larger than the one
 * whose place it takes may then reach out of its container: who disturbs moves it back in.
 */
export function disturb(problem: NestingProblem, arrangement: Arrangement, random: Random): void {
  if (random.unit() < 0.5) swapLarge(problem, arrangement, random);
  else shuffleNeighbours(arrangement, random);
}

function swapLarge(problem: NestingProblem, arrangement: Arrangement, random: Random): void {
  const { shapeOf, shapes } = problem;
  const size = (i: number) => shapes[shapeOf[i]].area;
  const large = placed(arrangement).sort((a, b) => size(b) - size(a) || a - b);
  const count = Math.max(2, Math.ceil(large.length * LARGE));
  for (let attempt = 0; attempt < 20 && large.length > 1; attempt++) {
    const a = large[Math.min(large.length - 1, random.below(count))];
    const b = large[Math.min(large.length - 1, random.below(count))];
    if (shapeOf[a] === shapeOf[b] || !mayChangePlaces(problem, arrangement, a, b)) continue;
    changePlaces(arrangement, a, b);
    return;
  }
}

/** Gives a copy and its nearest neighbours each other's places at random. */
function shuffleNeighbours(arrangement: Arrangement, random: Random): void {
  const all = placed(arrangement);
  if (all.length < 2) return;
  const middle = all[random.below(all.length)];
  const squared = (i: number) => {
    const dx = arrangement.x[i] - arrangement.x[middle];
    const dy = arrangement.y[i] - arrangement.y[middle];
    return dx * dx + dy * dy;
  };
  const near = all
    .filter((i) => arrangement.container[i] === arrangement.container[middle])
    .sort((a, b) => squared(a) - squared(b) || a - b)
    .slice(0, FEWEST + random.below(MORE + 1));
  for (let n = near.length - 1; n > 0; n--) changePlaces(arrangement, near[n], near[random.below(n + 1)]);
}

function placed(arrangement: Arrangement): number[] {
  return Array.from(arrangement.container, (_, i) => i).filter((i) => arrangement.container[i] >= 0);
}

/** True when each of two copies has room in the container of the other, as it is turned. */
function mayChangePlaces(problem: NestingProblem, arrangement: Arrangement, a: number, b: number): boolean {
  const { container, orientation } = arrangement;
  if (container[a] === container[b]) return true;
  return hasRoom(problem, container[b], orientation[a]) && hasRoom(problem, container[a], orientation[b]);
}

/** Swaps the places of two copies; each keeps its orientation. */
function changePlaces(arrangement: Arrangement, a: number, b: number): void {
  for (const values of [arrangement.x, arrangement.y, arrangement.container]) {
    const kept = values[a];
    values[a] = values[b];
    values[b] = kept;
  }
}
