import { describe, expect, it } from 'vitest';
import { boundsOf } from '../../src/geometry/shapes.ts';
import type { Placement } from '../../src/model/layout.ts';
import { planCuts } from '../../src/sawing/plan-cuts.ts';
import { board, disc, layoutOf, part, rectangle } from './boards.ts';

/** Rows and columns of bars of 40 x 10 mm with 1.5 mm between them, as a layout with a kerf of 1 mm may have them. */
function bars(columns: number, rows: number): Placement[] {
  return Array.from({ length: columns * rows }, (_, i) =>
    part(`bar ${i}`, rectangle(100 + 41.5 * (i % columns), 50 + 11.5 * Math.floor(i / columns), 40, 10)),
  );
}

const tabbed = (placements: readonly Placement[], tab = 3) =>
  planCuts({ ...layoutOf(board(placements)), kerf: 1 }, { tab });

const tabOf = (plan: ReturnType<typeof tabbed>, name: string) =>
  boundsOf(plan.boards[0].cuts.find((cut) => cut.kind === 'tab' && cut.part === name)?.line ?? []);

describe('a tab', () => {
  it('stays where wood stays beside it, not where the cut of the next part takes all there is', () => {
    // The long sides of the one in the middle face the others: only its ends are free.
    const plan = tabbed(bars(1, 3));
    const { minX, maxX, minY, maxY } = tabOf(plan, 'bar 1');
    expect(minX).toBe(maxX);
    expect(maxY - minY).toBeCloseTo(3, 9);
    // Of those beside it the long side away from it does, in its middle.
    expect(tabOf(plan, 'bar 0')).toEqual({ minX: 118.5, maxX: 121.5, minY: 50, maxY: 50 });
    expect(tabOf(plan, 'bar 2')).toEqual({ minX: 118.5, maxX: 121.5, minY: 83, maxY: 83 });
    expect(plan.issues.map(({ kind }) => kind)).not.toContain('tab-holds-nothing');
  });

  it('is moved along a side of which a part covers the middle, and round a curve', () => {
    // Above it the saw takes what there is up to the edge of the board.
    const covered = [part('bar', rectangle(100, 1, 40, 10)), part('x', rectangle(115, 12.4, 10, 10))];
    const moved = tabOf(tabbed(covered), 'bar');
    expect([moved.minY, moved.maxX - moved.minX]).toEqual([11, 3]);
    expect(moved.minX >= 125 || moved.maxX <= 115).toBe(true);
    const row = [disc(100, 50, 8), disc(117.4, 50, 8), disc(134.8, 50, 8)].map((ring, i) =>
      part(`d${i}`, ring),
    );
    const round = tabOf(tabbed(row), 'd1');
    expect(Math.abs((round.minY + round.maxY) / 2 - 50)).toBeGreaterThan(4);
  });

  it('that finds no such place is told, with the board', () => {
    const plan = tabbed(bars(3, 3));
    const [issue] = plan.issues.filter(({ kind }) => kind === 'tab-holds-nothing');
    expect(issue).toMatchObject({ severity: 'warning' });
    expect(issue.message).toContain('1 small part of 9 on A-1 comes loose in spite of the tab');
    const reasons = plan.boards[0].cuts.filter(({ reason }) => /a carrier has to hold it/.test(reason));
    expect(reasons.map(({ kind, part: name }) => [kind, name])).toEqual([['outline', 'bar 4']]);
    // As many cuts as before: it is sawn last all the same.
    expect(plan.boards[0].cuts.filter(({ kind }) => kind === 'tab')).toHaveLength(9);
  });

  it('that is too long for the parts is told', () => {
    const plan = tabbed(bars(1, 3), 25);
    expect(plan.boards[0].cuts.some(({ kind }) => kind === 'tab')).toBe(false);
    const [issue] = plan.issues.filter(({ kind }) => kind === 'tab-too-long');
    expect(issue.message).toContain('3 small parts of 3 have no tab');
  });
});
