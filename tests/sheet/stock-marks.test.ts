import { describe, expect, it } from 'vitest';
import { ringArea } from '../../src/geometry/ring.ts';
import { boundsOf, type Ring } from '../../src/geometry/shapes.ts';
import type { LaidBoard } from '../../src/model/layout.ts';
import { stockMarks } from '../../src/sheet/board/stock-marks.ts';
import type { Mark } from '../../src/sheet/marks/marks.ts';
import { box, handBoard } from './hand-layout.ts';

/** A board of 300 x 120 mm with a check of 60 x 10 mm in its right end. */
const WHOLE = box(0, 0, 300, 120);
const CHECKED: Ring = [
  [0, 0],
  [300, 0],
  [300, 40],
  [240, 45],
  [300, 50],
  [300, 120],
  [0, 120],
];
const UNTRIMMED = { topEdge: 0, straightEdge: 0, leftEnd: 0, rightEnd: 0 };

const marksOf = (fields: Partial<LaidBoard>) => stockMarks(handBoard({ outline: WHOLE, ...fields }));
const ringsOf = (marks: readonly Mark[], role: string) =>
  marks.flatMap((mark) => (mark.kind === 'rings' && mark.role === role ? [mark.rings] : []));
const hatchedIn = (marks: readonly Mark[]) =>
  marks.filter((mark) => mark.kind === 'line' && mark.role === 'defect-hatch').length;

describe('a board is drawn', () => {
  it('with a check that is open to its end as a defect, not as a line to trim it to', () => {
    const marks = marksOf({ usable: { outline: CHECKED, openings: [] } });
    expect(ringsOf(marks, 'usable-edge')).toEqual([]);
    const [[check], ...others] = ringsOf(marks, 'defect');
    expect(others).toEqual([]);
    expect(boundsOf(check)).toEqual({ minX: 240, minY: 40, maxX: 300, maxY: 50 });
    expect(ringArea(check)).toBeCloseTo((60 * 10) / 2, 3);
    expect(hatchedIn(marks)).toBeGreaterThan(0);
  });

  it('with the lines it is trimmed to, and what is left of the check behind them', () => {
    const usable = CHECKED.map(([x, y]): [number, number] => [Math.min(x, 290), Math.max(y, 8)]);
    usable[2][1] = 45 - (5 * 50) / 60;
    usable[4][1] = 45 + (5 * 50) / 60;
    const trimmed = { ...UNTRIMMED, topEdge: 8, rightEnd: 10 };
    const marks = marksOf({ trimmed, usable: { outline: usable, openings: [] } });
    expect(ringsOf(marks, 'usable-edge').map(([edge]) => boundsOf(edge))).toEqual([
      { minX: 0, minY: 8, maxX: 290, maxY: 120 },
    ]);
    const [[check]] = ringsOf(marks, 'defect');
    expect(boundsOf(check).maxX).toBe(290);
    expect(ringArea(check)).toBeCloseTo((50 * (10 * 50)) / 60 / 2, 2);
  });

  it('without a hatch over a keeper that a crack parts from the rest', () => {
    const usable = { outline: box(0, 0, 200, 120), openings: [] };
    const keeper = {
      id: 'maple-1 keeper 1',
      region: { outline: box(204, 0, 96, 120), openings: [] },
      rectangle: { minX: 204, minY: 0, maxX: 300, maxY: 120 },
      area: 96 * 120,
      lines: [],
    };
    const [[crack], ...others] = ringsOf(marksOf({ usable, offcuts: [keeper] }), 'defect');
    expect(others).toEqual([]);
    expect(boundsOf(crack)).toEqual({ minX: 200, minY: 0, maxX: 204, maxY: 120 });
  });

  it('with its edge alone where it is as it may be used, to the rounding of its corners', () => {
    const usable = { outline: box(0, 0, 300, 119.999), openings: [] };
    const marks = marksOf({ usable });
    expect(marks).toHaveLength(1);
    expect(ringsOf(marks, 'board-edge')).toEqual([[WHOLE]]);
  });
});
