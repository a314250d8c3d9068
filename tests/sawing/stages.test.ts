import { describe, expect, it } from 'vitest';
import type { SawnPart } from '../../src/model/cut-plan.ts';
import { type PlanCutsOptions, planCuts } from '../../src/sawing/plan-cuts.ts';
import { board, disc, layoutOf, part, rectangle } from './boards.ts';

/** The kinds of cuts, in order, of a plate so large with an opening, on a board of 600 x 150 mm. */
function order(width: number, height: number, options: PlanCutsOptions): string[] {
  const plate = part('plate', { outline: rectangle(20, 5, width, height), openings: [disc(70, 50, 20)] });
  const [{ cuts }] = planCuts(layoutOf(board([plate])), options).boards;
  return cuts.map(({ kind }) => kind);
}

const FREED = ['outline', 'opening'];
const HELD = ['opening', 'outline'];

describe('a part with an opening on a board that does not turn: 618 mm from corner to corner', () => {
  it('is freed first where it is twice the size that can be held, both ways', () => {
    expect(order(200, 100, { throat: 400, holdSize: 50 })).toEqual(FREED);
    expect(order(200, 99.9, { throat: 400, holdSize: 50 })).toEqual(HELD);
    expect(order(99.9, 140, { throat: 400, holdSize: 50 })).toEqual(HELD);
    expect(order(100, 140, { throat: 400, holdSize: 50 })).toEqual(FREED);
  });

  it('is freed first where it turns by itself: 300 x 125 mm are 325 mm from corner to corner', () => {
    expect(order(300, 125, { throat: 325, holdSize: 50 })).toEqual(FREED);
    expect(order(300, 125, { throat: 324.9, holdSize: 50 })).toEqual(HELD);
  });

  it('stays on the board where that turns too, where nothing limits it, and where the part has a thin neck', () => {
    // 600 x 150 mm: the root of 382,500.
    expect(order(300, 125, { throat: 618.5, holdSize: 50 })).toEqual(HELD);
    expect(order(300, 125, { throat: 618.4, holdSize: 50 })).toEqual(FREED);
    expect(order(300, 125, { holdSize: 50 })).toEqual(HELD);
    const facts: SawnPart = {
      ...{ layer: 'Front', part: 'plate', sharpTurns: 4, tightestBends: [] },
      ...{ thinnestNeck: 1.5, neckAt: [20, 20] },
    };
    expect(order(300, 125, { throat: 400, holdSize: 50, parts: [facts] })).toEqual(HELD);
  });

  it('has no openings to be freed before where it has none', () => {
    const plate = part('plate', rectangle(20, 5, 200, 120));
    const [{ cuts }] = planCuts(layoutOf(board([plate])), { throat: 400, holdSize: 50 }).boards;
    expect(cuts.map(({ reason }) => reason)).toEqual([
      'strong enough to leave the board early, while it is easy to steer',
    ]);
  });
});
