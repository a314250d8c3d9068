import { expect, it } from 'vitest';
import { marginIssues } from '../../src/job/margin-issues.ts';
import type { LaidBoard, Layout } from '../../src/model/layout.ts';
import { fullBoard, layoutOf } from '../sawing/boards.ts';

const box = (width: number, height: number) => ({
  outline: [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ] as const,
  openings: [],
});

/** A board of 1000 x 180 mm with one part, and a margin of 30 mm. */
function told(more: Partial<LaidBoard>, rules: Partial<Layout> = {}) {
  const board = { ...fullBoard(), usable: box(1000, 180), ...more };
  return marginIssues({ ...layoutOf(board), edgeMargin: 30, ...rules });
}

it('an edge margin that takes much of short sections is named with what it takes', () => {
  const sections = [0, 1, 2, 3].map((i) => ({ number: i + 1, from: 250 * i, to: 250 * i + 240 }));
  // 180 x 120 of 240 x 180 mm is left of each.
  expect(told({ sections })).toMatchObject([
    { kind: 'margin-takes-wood', received: '30 mm', where: { field: 'edgeMargin' } },
  ]);
  expect(told({ sections })[0].message).toMatch(
    /takes 50 % of the boards that are used, for it is kept on both/,
  );
  expect(told({ sections }, { edgeMargin: 3 })).toEqual([]);
  expect(told({ placements: [], sections })).toEqual([]);
});

it('where all parts stand on straight edges nothing is kept from those', () => {
  const usable = box(1000, 90);
  expect(told({ usable })[0].message).toContain('takes 69 %');
  const rules = {
    copiesPerSet: 1,
    grain: 'along',
    grainTolerance: 0,
    turnOver: false,
    restEdge: true,
  } as const;
  const setContents = fullBoard().placements.map(({ part, layer }) => ({ ...rules, part, layer }));
  expect(told({ usable }, { setContents })[0].message).toContain('takes 37 %');
  // Of 90 mm 60 are left across, of parts on both edges all; 940 mm of the length.
  const above = fullBoard().placements.map((each) => ({
    ...each,
    rotation: 180,
    region: { outline: box(40, 40).outline, openings: [] },
  }));
  const both = { usable, placements: [...fullBoard().placements, ...above] };
  const low = box(1000, 45);
  expect(told({ ...both, straightTopEdge: true }, { setContents })).toEqual([]);
  expect(told({ ...both, usable: low, straightTopEdge: true }, { setContents })).toEqual([]);
  expect(told({ ...both, usable: low }, { setContents })[0].message).toContain('takes 69 %');
});

it('boards that are sawn alike count one by one', () => {
  const [broad, narrow] = [180, 60].map((width) => ({ ...fullBoard(), usable: box(1000, width) }));
  const issuesOf = (copies: number) =>
    marginIssues({ ...layoutOf({ ...narrow, copies }, broad), edgeMargin: 30 });
  // 940 x 120 of 1000 x 180 mm is left of the broad one, nothing of the narrow one.
  expect(issuesOf(1)[0].message).toContain('takes 53 %');
  expect(issuesOf(3)[0].message).toContain('takes 69 %');
});

it('a third of the wood is where a margin is told', () => {
  // Of 1000 x 200 mm 940 x 140 are left, 65.8 %; of 1000 x 210 mm 940 x 150, 67.1 %.
  expect(told({ usable: box(1000, 200) })[0].message).toContain('takes 34 %');
  expect(told({ usable: box(1000, 210) })).toEqual([]);
});
