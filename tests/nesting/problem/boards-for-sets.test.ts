import { describe, expect, test } from 'vitest';
import { type BoardsOfKind, boardsForSets } from '../../../src/nesting/problem/boards-for-sets.ts';
import { Random } from '../../../src/nesting/running/random.ts';

const kind = (holds: number, count: number, cost: number, first = false): BoardsOfKind => ({
  holds,
  count,
  cost,
  first,
});

/** What the best of all choices costs, counted out. */
function leastCost([one, ...others]: readonly BoardsOfKind[], sets: number): number {
  if (sets <= 0) return 0;
  if (one === undefined) return Number.POSITIVE_INFINITY;
  const costs = Array.from(
    { length: one.count + 1 },
    (_, n) => n * one.cost + leastCost(others, sets - n * one.holds),
  );
  return Math.min(...costs);
}

describe('boards for whole sets', () => {
  test('cost the least that any choice of them does', () => {
    const random = new Random(7);
    let held = 0;
    for (let round = 0; round < 300; round++) {
      const kinds = Array.from({ length: 1 + random.below(4) }, () =>
        kind(random.below(5), 1 + random.below(3), 1 + random.below(20)),
      );
      const sets = 1 + random.below(12);
      const least = leastCost(kinds, sets);
      const counts = boardsForSets(kinds, sets);
      expect(counts === undefined).toBe(least === Number.POSITIVE_INFINITY);
      if (counts === undefined) continue;
      held++;
      expect(counts.reduce((sum, n, k) => sum + n * kinds[k].cost, 0)).toBe(least);
      expect(counts.reduce((sum, n, k) => sum + n * kinds[k].holds, 0)).toBeGreaterThanOrEqual(sets);
    }
    expect(held).toBeGreaterThan(150);
  });

  test('those filled first are taken as far as they spare others', () => {
    expect(boardsForSets([kind(2, 1, 50, true), kind(1, 9, 10)], 3)).toEqual([1, 1]);
    expect(boardsForSets([kind(1, 2, 50, true), kind(4, 1, 10)], 4)).toEqual([2, 1]);
    expect(boardsForSets([kind(1, 4, 50, true), kind(4, 1, 10)], 4)).toEqual([4, 0]);
  });

  test('no sets ask for no boards', () => {
    expect(boardsForSets([kind(2, 1, 5)], 0)).toEqual([0]);
    expect(boardsForSets([], 0)).toEqual([]);
    expect(boardsForSets([], 1)).toBeUndefined();
  });
});
