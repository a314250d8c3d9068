import { expect, test } from 'vitest';
import type { Score } from '../../../src/nesting/arrangement/score.ts';
import { containerFrom, ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { CheaperChoices } from '../../../src/nesting/search/cheaper-choices.ts';
import { rectangle } from '../../rectangle.ts';

const region = (width: number, height: number) => ({ outline: rectangle(width, height), openings: [] });

/** The score of an arrangement on boards that cost so much, and those of them that are not filled first. */
function costing(cost: number, freshCost: number): Score {
  return { sets: Infinity, missing: 0, freshCost, onFresh: 0, cost, boards: 1, sections: 0, clear: 0 };
}

test('the cheapest boards that hold all when each is filled comes second, behind larger ones that hold too little', async () => {
  // Squares of 30 mm: of the boards 59 mm wide, larger than they need be, each holds one, of those of 62 mm four.
  const shape = { region: region(30, 30), stands: false, copies: 4, perSet: 1 };
  const lies = [{ degrees: 0, turnedOver: false }];
  const sizes = [59, 59, 59, 62] as const;
  const costs = [2, 2, 2, 5] as const;
  const containers = sizes.map((side, i) => containerFrom(region(side, side), costs[i], side));
  const problem = new ProblemBuilder().build({ shapes: [{ ...shape, lies }], containers, gap: 1, margin: 0 });
  const stop = new AbortController();
  let breaths = 0;
  let last = Number.POSITIVE_INFINITY;
  class Breathless extends Pulse {
    override get due(): boolean {
      return true;
    }
    override async breathe(): Promise<void> {
      if (++breaths === last) stop.abort();
    }
  }
  const cheaper = new CheaperChoices(problem, new Breathless(stop.signal));
  const choices = await cheaper.below(costing(7, 7));
  expect(choices).toEqual([[0, 1, 2], [3], [0, 1]]);
  // A second time no board is filled any more, and every choice is sorted: there may be thousands.
  breaths = 0;
  expect(await cheaper.below(costing(7, 7))).toEqual(choices);
  expect(breaths).toBeGreaterThanOrEqual(choices.length);
  breaths = 0;
  last = 2;
  expect(await cheaper.below(costing(7, 7))).toEqual([]);
  expect(breaths).toBe(2);
});

test('boards that are filled first come before any other, though they cost more', async () => {
  const shape = { region: region(30, 30), stands: false, copies: 1, perSet: 1 };
  const lies = [{ degrees: 0, turnedOver: false }];
  const containers = [
    containerFrom(region(40, 40), 2, 0),
    { ...containerFrom(region(50, 50), 30, 1), first: true },
  ];
  const problem = new ProblemBuilder().build({ shapes: [{ ...shape, lies }], containers, gap: 1, margin: 0 });
  const cheaper = new CheaperChoices(problem, new Pulse(undefined));
  expect(await cheaper.below(costing(2, 2))).toEqual([[1]]);
  expect(await cheaper.below(costing(30, 0))).toEqual([]);
});
