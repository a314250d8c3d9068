import { describe, expect, test } from 'vitest';
import type { Batch } from '../../src/model/batch.ts';
import { stackWays } from '../../src/nesting/groups/stack-ways.ts';
import { sharesOfMoves } from '../../src/nesting/shares-of-moves.ts';
import { rectangle } from '../rectangle.ts';
import { PLAIN_GAPS, plainBoard, plainDemand } from './plain-batch.ts';

const leaf = plainDemand('leaf', rectangle(50, 40));
const trunk = plainDemand('trunk', rectangle(100, 40), { species: 'oak', thickness: 18 });
const maple = plainBoard('Maple', 400, 100, { price: 10 });
const oak = plainBoard('Oak', 400, 100, { species: 'oak', thickness: 18, price: 40 });

function sharesOn(boards: Batch['boards'], demands: Batch['demands'] = [leaf, trunk]): number[] {
  return sharesOfMoves(stackWays({ sets: 6, demands, boards, ...PLAIN_GAPS }));
}

describe('the moves of a search', () => {
  test('go to the woods by what their parts cost, a quarter of them to all alike', () => {
    // Half the area at a quarter of the price: an eighth of the cost of the oak, a ninth of all.
    expect(sharesOn([maple, oak])[0]).toBeCloseTo(0.25 / 2 + 0.75 / 9, 12);
    expect(sharesOn([maple, oak])[1]).toBeCloseTo(0.25 / 2 + (0.75 * 8) / 9, 12);
  });

  test('go by the root of the number of copies besides', () => {
    // Twice the area at half the price, and four times as many copies.
    const small = { ...leaf, region: { outline: rectangle(25, 40), openings: [] }, copiesPerSet: 4 };
    const cheap = { ...maple, price: 20 };
    const big = { ...trunk, region: { outline: rectangle(50, 40), openings: [] } };
    expect(sharesOn([cheap, oak], [small, big])[0]).toBeCloseTo(0.25 / 2 + (0.75 * 2) / 3, 12);
  });

  test('go by the mean price of the boards: a scrap that is free or counts little makes no wood cheap', () => {
    const scrap = plainBoard('Scrap', 40, 20, { species: 'oak', thickness: 18, price: 0, takingCost: 0 });
    const [least] = sharesOn([maple, oak, scrap]);
    // The scrap is a fiftieth of the board, so the mean price of oak is 50/51 of it.
    expect(least).toBeCloseTo(0.25 / 2 + 0.75 / (1 + (8 * 50) / 51), 12);
    const keeper = { ...oak, id: 'Keeper', takingCost: 1 };
    expect(sharesOn([maple, oak, keeper])).toEqual(sharesOn([maple, oak]));
  });

  test('leave a wood out of which there is no board', () => {
    const none = plainDemand('flag', rectangle(20, 20), { species: 'holly' });
    expect(sharesOn([maple, oak], [leaf, none, trunk])).toEqual([
      sharesOn([maple, oak])[0],
      0,
      sharesOn([maple, oak])[1],
    ]);
    // Too few of them for a stack are none either.
    const stacked = [leaf, { ...trunk, stack: 3 }];
    const single = { ...oak, id: 'Single', price: undefined };
    expect(sharesOn([maple, { ...oak, quantity: 3 }, single], stacked)[0]).toBeLessThan(0.5);
  });

  test('go by the copies that are placed: in a stack one stands for several', () => {
    const boards = [
      { ...maple, quantity: 4 },
      { ...oak, quantity: 4 },
    ];
    const unstacked = sharesOn(boards)[1];
    const stacked = sharesOn(boards, [leaf, { ...trunk, stack: 4 }])[1];
    // Six sets are three in a stack of two, two in one of three or four.
    expect(stacked).toBeCloseTo(0.25 / 2 + (0.75 * 8) / (8 + Math.sqrt(3)), 12);
    expect(stacked).toBeLessThan(unstacked);
  });

  test('go by the volume of the wood where some of it has no price', () => {
    // Half the area, a third of the thickness.
    const [least] = sharesOn([maple, { ...oak, price: undefined }]);
    expect(least).toBeCloseTo(0.25 / 2 + 0.75 / 7, 12);
  });

  test('go by the slices of a board that is resawn', () => {
    const thick = { ...maple, thickness: 19, price: 20 };
    const slice = { ...maple, price: 10 };
    expect(sharesOn([thick, oak])[0]).toBeCloseTo(sharesOn([slice, oak])[0], 12);
  });

  test('are shared evenly where no wood costs anything, and go to one wood whole', () => {
    const free = [maple, oak].map((board) => ({ ...board, price: 0 }));
    expect(sharesOn(free)).toEqual([0.5, 0.5]);
    expect(sharesOn([maple, oak], [trunk])).toEqual([1]);
  });
});
