import { expect, test } from 'vitest';
import { MoveBudget, MovesAtLeast, shareOfRest } from '../../../src/nesting/running/budget.ts';

/** Moves that are spent one by one until it is over. */
function movesOf(budget: { spend(moves: number): void; readonly over: boolean }): number {
  let moves = 0;
  for (; !budget.over; moves++) budget.spend(1);
  return moves;
}

test('a share of a budget lasts for so many moves at least, and no longer than the whole', () => {
  const whole = new MoveBudget(1000);
  expect(movesOf(new MovesAtLeast(whole, shareOfRest(whole, 0.25), 100))).toBe(250);
  expect(whole.done).toBeCloseTo(0.25, 12);
  expect(movesOf(new MovesAtLeast(whole, shareOfRest(whole, 0.1), 300))).toBe(300);
  expect(movesOf(new MovesAtLeast(whole, shareOfRest(whole, 0.1), 2000))).toBe(450);
  expect(whole.over).toBe(true);
});
