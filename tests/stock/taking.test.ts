import { describe, expect, it } from 'vitest';
import { type TakingOrder, withTakingCosts } from '../../src/stock/taking.ts';
import { oakBoard } from './oak-board.ts';

describe('what taking a board counts', () => {
  const boards = [
    oakBoard('a', 100, 9),
    oakBoard('b', 200, 9, true),
    oakBoard('c', 100, 9),
    oakBoard('d', 100, 9),
  ];
  const counted = (order: TakingOrder, since?: ReadonlyMap<string, string>) =>
    withTakingCosts(boards, order, since).map(({ takingCost }) => takingCost);

  it('is left to the prices, or one for every board, or its area', () => {
    expect(counted('cheapest')).toEqual([undefined, undefined, undefined, undefined]);
    expect(withTakingCosts(boards, 'cheapest')).not.toBe(boards);
    expect(withTakingCosts([{ ...boards[0], takingCost: 7 }], 'cheapest')[0].takingCost).toBe(7);
    expect(withTakingCosts(boards, 'keepers first').map(({ takenFirst }) => takenFirst)).toEqual([
      undefined,
      true,
      undefined,
      undefined,
    ]);
  });

  it('is the price of a fresh board under keepers first, and of a keeper a twentieth for its area', () => {
    // 27 for three boards of 100 mm are 9 for 100 mm: 18 for the 200 mm of the keeper, and a twentieth of it 0.9.
    const nine = expect.closeTo(9, 4);
    expect(counted('keepers first')).toEqual([nine, expect.closeTo(0.9, 9), nine, nine]);
    // A dearer board counts more, whatever its size.
    const dearer = withTakingCosts([oakBoard('a', 100, 14), oakBoard('b', 200, 9)], 'keepers first');
    expect(dearer.map(({ takingCost }) => takingCost)).toEqual([expect.closeTo(14, 4), nine]);
    // One of the wood without a price: the areas of 106 mm wide boards. Another wood keeps its prices.
    const elm = { ...oakBoard('e', 100, 5), species: 'elm' };
    const mixed = [...boards, { ...oakBoard('f', 100, 0), price: undefined }, elm];
    expect(withTakingCosts(mixed, 'keepers first').map(({ takingCost }) => takingCost)).toEqual([
      10_600,
      1060,
      10_600,
      10_600,
      10_600,
      expect.closeTo(5, 4),
    ]);
  });

  it('is less for the smaller of boards at one price under keepers first, and the area of wood that is free', () => {
    const large = oakBoard('large', 200, 0);
    const small = oakBoard('small', 100, 0);
    const counts = (...fresh: (typeof large)[]) =>
      withTakingCosts(fresh, 'keepers first').map(({ takingCost }) => takingCost!);
    expect(counts(large, small)).toEqual([21_200, 10_600]);
    // Free among others that cost: still told apart, and both far below a cent.
    const [big, little] = counts(large, small, oakBoard('dear', 300, 30));
    expect(big).toBeGreaterThan(little);
    expect(big).toBeLessThan(0.001);
    const [dear, cheap] = counts({ ...small, price: 9.01 }, { ...large, price: 9 });
    expect(dear).toBeGreaterThan(cheap);
  });

  it('is one for every board under fewest boards, and of as many the cheaper or smaller ones are taken', () => {
    // Four boards of 9: each an eighth of their price above one.
    expect(counted('fewest boards')).toEqual([1.125, 1.125, 1.125, 1.125]);
    const pair = [oakBoard('dear', 100, 30), oakBoard('cheap', 100, 10)];
    expect(withTakingCosts(pair, 'fewest boards').map(({ takingCost }) => takingCost)).toEqual([
      1.375, 1.125,
    ]);
    const unpriced = [
      oakBoard('large', 300, 1),
      { ...oakBoard('small', 100, 0), price: undefined, quantity: 5 },
    ];
    expect(withTakingCosts(unpriced, 'fewest boards').map(({ takingCost }) => takingCost)).toEqual([
      1 + 3 / 16,
      1 + 1 / 16,
    ]);
    // All of them together count less than one board more; free wood is one for each.
    expect(withTakingCosts([oakBoard('free', 100, 0)], 'fewest boards')[0].takingCost).toBe(1);
  });

  it('puts keepers before all others only where they are asked for first', () => {
    for (const order of ['oldest', 'fewest boards', 'cheapest'] as const)
      for (const { takenFirst } of withTakingCosts(boards, order)) expect(takenFirst).toBeUndefined();
  });

  it('grows evenly with every later date to ten times the area; without a date a board is the oldest', () => {
    const since = new Map([
      ['a', '2026-05-01'],
      ['b', '2024-01-01'],
      ['c', '2025-12-31'],
    ]);
    expect(counted('oldest', since)).toEqual([10 * 10_600, 4 * 21_200, 7 * 10_600, 10_600]);
    expect(counted('oldest')).toEqual([10_600, 21_200, 10_600, 10_600]);
    expect(counted('oldest', new Map([['c', '2025-12-31']]))).toEqual([10_600, 21_200, 106_000, 10_600]);
  });
});
