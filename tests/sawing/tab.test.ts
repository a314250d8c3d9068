import { describe, expect, it } from 'vitest';
import { boundsOf, type Line, type Point, type Ring } from '../../src/geometry/shapes.ts';
import type { Placement } from '../../src/model/layout.ts';
import { planCuts } from '../../src/sawing/plan-cuts.ts';
import { leaveTab, leaveTabInLine } from '../../src/sawing/tab.ts';
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
    expect(plan.issues.filter(({ kind }) => kind.startsWith('tab-'))).toEqual([]);
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
    expect(issue.message).toBe(
      '1 small part of 9 on A-1 comes loose in spite of the tab: the cuts beside it leave no wood that it could hold by',
    );
    expect(plan.issues.filter(({ kind }) => kind === 'tab-too-long')).toEqual([]);
    // Of five in a row and five rows the nine in the middle.
    const [more] = tabbed(bars(5, 5)).issues.filter(({ kind }) => kind === 'tab-holds-nothing');
    expect(more.message).toBe(
      '9 small parts of 25 on A-1 come loose in spite of the tab: the cuts beside them leave no wood that it could hold by',
    );
    const reasons = plan.boards[0].cuts.filter(({ reason }) => /a carrier has to hold it/.test(reason));
    expect(reasons.map(({ kind, part: name }) => [kind, name])).toEqual([['outline', 'bar 4']]);
    // As many cuts as before: it is sawn last all the same.
    expect(plan.boards[0].cuts.filter(({ kind }) => kind === 'tab')).toHaveLength(9);
  });

  it('is left to small parts on the board itself, not to those in an opening of another', () => {
    const frame = { outline: rectangle(100, 10, 130, 130), openings: [rectangle(115, 25, 100, 100)] };
    const plan = tabbed([
      part('frame', frame),
      part('in', disc(165, 75, 15)),
      part('out', disc(300, 75, 15)),
    ]);
    const tabs = plan.boards[0].cuts.filter(({ kind }) => kind === 'tab');
    expect(tabs.map(({ part: name }) => name)).toEqual(['out']);
    expect(plan.issues.filter(({ kind }) => kind.startsWith('tab-'))).toEqual([]);
  });

  it('of a part on the edge of the board holds where wood stands beside it, and is told where none does', () => {
    const onEdge = (...beside: Placement[]) =>
      tabbed([part('bar', rectangle(100, 110, 40, 40)), ...beside]).issues.flatMap(({ kind, message }) =>
        kind.startsWith('tab-') ? [message] : [],
      );
    expect(onEdge()).toEqual([]);
    // Large parts 1.5 mm away on all three sides take what wood there is.
    const [left, right] = [part('l', rectangle(20, 60, 78.5, 90)), part('r', rectangle(141.5, 60, 80, 90))];
    const above = part('above', rectangle(100, 30, 40, 78.5));
    expect(onEdge(left, right, above)).toEqual([
      '1 small part of 1 on A-1 comes loose in spite of the tab: the cuts beside it leave no wood that it could hold by',
    ]);
  });

  it('that is too long for the parts is told', () => {
    const plan = tabbed(bars(1, 3), 25);
    expect(plan.boards[0].cuts.some(({ kind }) => kind === 'tab')).toBe(false);
    const [issue] = plan.issues.filter(({ kind }) => kind === 'tab-too-long');
    expect(issue.message).toContain('3 small parts of 3 have no tab');
  });
});

describe('a tab over whole sides, where none is as long as it', () => {
  // Sides of 2 mm in steps down to the right: so many mm along, x and y add up to them.
  const steps: Line = Array.from(
    { length: 21 },
    (_, i): Point => [2 * Math.floor(i / 2), 2 * Math.ceil(i / 2)],
  );

  it('lies in the middle of a piece between two ends on the edge: 3 mm of 40 take the sides from 18 to 22', () => {
    expect(leaveTabInLine(steps, 3)).toEqual({
      sawn: [steps.slice(0, 10), steps.slice(11).reverse()],
      tab: [
        [8, 10],
        [10, 10],
        [10, 12],
      ],
      holds: true,
    });
  });

  it('moves by turns to the nearest sides with wood beside them: those from 6 to 10 where wood ends at 11', () => {
    const found = leaveTabInLine(steps, 3, ([x, y]) => x + y <= 11);
    expect(found).toEqual({
      sawn: [steps.slice(0, 4), steps.slice(5).reverse()],
      tab: steps.slice(3, 6),
      holds: true,
    });
  });

  it('stays in the middle where nothing stands beside any', () => {
    expect(leaveTabInLine(steps, 3, () => false)).toMatchObject({ tab: steps.slice(9, 12), holds: false });
  });

  it('is none of more than a fifth of the line: 8 mm of 40 are one', () => {
    expect(leaveTabInLine(steps, 8)).toBeDefined();
    expect(leaveTabInLine(steps, 8.01)).toBeUndefined();
  });

  // 10 x 6 mm with a vertex every 2 mm, but for one side of 4 mm above: its perimeter is 32 mm.
  const box: Ring = [
    ...[0, 2, 4, 8, 10].map((x): Point => [x, 0]),
    ...[2, 4, 6].map((y): Point => [10, y]),
    ...[8, 6, 4, 2, 0].map((x): Point => [x, 6]),
    ...[4, 2].map((y): Point => [0, y]),
  ];

  it('begins, on a whole outline, with the longest side: 5 mm take it and the next', () => {
    expect(leaveTab(box, 5)).toEqual({
      tab: box.slice(2, 5),
      sawn: [...box.slice(4), ...box.slice(0, 3)],
      holds: true,
    });
    expect(leaveTab(box, 5, () => false)).toMatchObject({ tab: box.slice(2, 5), holds: false });
    expect([leaveTab(box, 6.4) === undefined, leaveTab(box, 6.41) === undefined]).toEqual([false, true]);
  });

  it('goes on round it to the first sides with wood beside them: from the height of 4 where it stands below 3', () => {
    expect(leaveTab(box, 5, ([, y]) => y >= 3)).toEqual({
      tab: box.slice(6, 10),
      sawn: [...box.slice(9), ...box.slice(0, 7)],
      holds: true,
    });
  });
});

describe('a tab in a straight side of a piece of outline', () => {
  // Up 30 mm, along 100 mm and down again.
  const arch: Line = [
    [0, 0],
    [0, 30],
    [100, 30],
    [100, 0],
  ];

  it('lies in the middle of the longest, and the halves are sawn from their ends', () => {
    expect(leaveTabInLine(arch, 4)).toEqual({
      tab: [
        [48, 30],
        [52, 30],
      ],
      sawn: [
        [
          [0, 0],
          [0, 30],
          [48, 30],
        ],
        [
          [100, 0],
          [100, 30],
          [52, 30],
        ],
      ],
      holds: true,
    });
  });

  it('moves by half its length to the one side, then to the other, and to the next side where all of one is barred', () => {
    const tabWhere = (stands: (x: number, y: number) => boolean) =>
      leaveTabInLine(arch, 4, ([x, y]) => stands(x, y))?.tab;
    expect(tabWhere((x) => x <= 51)).toEqual([
      [46, 30],
      [50, 30],
    ]);
    expect(tabWhere((x) => x >= 49)).toEqual([
      [50, 30],
      [54, 30],
    ]);
    // The first 30 mm are as long as the last: the middle of the first.
    expect(tabWhere((_, y) => y < 29)).toEqual([
      [0, 13],
      [0, 17],
    ]);
    // A gap in the wood at one place of a tab is enough to bar it, at its middle too: 2 mm on, at 50, it is at the end.
    expect(tabWhere((x) => x !== 50)).toEqual([
      [44, 30],
      [48, 30],
    ]);
    expect(leaveTabInLine(arch, 4, () => false)).toMatchObject({
      tab: [
        [48, 30],
        [52, 30],
      ],
      holds: false,
    });
  });
});
