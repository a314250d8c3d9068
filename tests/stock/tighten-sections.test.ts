import { describe, expect, it } from 'vitest';
import { boxRing, type Region } from '../../src/geometry/shapes.ts';
import { type Cell, tightened } from '../../src/stock/tighten-sections.ts';

const PLAIN: Region = { outline: boxRing({ minX: 0, minY: 0, maxX: 1000, maxY: 100 }), openings: [] };
const KNOT = boxRing({ minX: 480, minY: 40, maxX: 500, maxY: 60 });
const KNOTTY: Region = { ...PLAIN, openings: [KNOT] };
const SAWN = { margin: 2, kerf: 3, mayShift: true };
/** Lines are on the grid of layouts, a thousandth of a millimetre or two. */
const GRID = 2.5e-3;

function cell(from: number, to: number, minX?: number, maxX?: number): Cell {
  return { from, to, carries: minX === undefined ? undefined : { minX, maxX: maxX! } };
}

/** Ends and shifts in whole numbers; what lies in a cell has to be in it, at the margin. */
function drawn(board: Region, cells: readonly Cell[], rules = SAWN): number[][] {
  return tightened(board, cells, rules).map(({ from, to, carries, shift }) => {
    if (carries !== undefined) {
      expect(carries.minX - from).toBeGreaterThanOrEqual(rules.margin - GRID);
      expect(to - carries.maxX).toBeGreaterThanOrEqual(rules.margin - GRID);
    }
    return [from, to, shift].map((mm) => Math.round(mm) + 0);
  });
}

describe('cells drawn together', () => {
  it('close up to the left on a plain board, and leave the rest in one piece at its right end', () => {
    const cells = [cell(0, 300, 50, 250), cell(303, 603, 303 + 2, 403), cell(606, 1000)];
    expect(drawn(PLAIN, cells)).toEqual([
      [0, 204, -48],
      [207, 309, -96],
      [312, 1000, 0],
    ]);
  });

  it('take an empty cell between two out, and move what lies behind it up', () => {
    expect(drawn(PLAIN, [cell(0, 300, 2, 298), cell(303, 603), cell(606, 906, 608, 904)])).toEqual([
      [0, 300, 0],
      [303, 603, -303],
      [606, 1000, 0],
    ]);
  });

  it('give a rest too short for the saw to the last cell, if the saw can handle that', () => {
    // Beyond what lies in the last cell 42 mm are left, less than a section is worth: the cell may be as long as the longest.
    const long = [cell(0, 500, 2, 498), cell(503, 1000, 505, 956)];
    expect(drawn(PLAIN, long)).toEqual([
      [0, 500, 0],
      [503, 1000, 0],
    ]);
    // Grown to the end it would be longer than any was: the short rest stays by itself.
    const full = [cell(0, 480, 2, 478), cell(483, 963, 485, 961)];
    expect(drawn(PLAIN, full)).toEqual([
      [0, 480, 0],
      [483, 963, 0],
      [966, 1000, 0],
    ]);
  });

  it('only move lines beside empty cells on a board whose wood differs from place to place', () => {
    const cells = [cell(0, 300, 10, 200), cell(303, 603), cell(606, 1000, 700, 990)];
    const moved = [
      [0, 202, 0],
      [205, 695, 0],
      [698, 1000, 0],
    ];
    expect(drawn(KNOTTY, cells)).toEqual(moved);
    expect(drawn(PLAIN, cells, { ...SAWN, mayShift: false })).toEqual(moved);
    const full = [cell(0, 300, 10, 200), cell(303, 1000, 320, 900)];
    expect(drawn(KNOTTY, full)).toEqual([
      [0, 300, 0],
      [303, 1000, 0],
    ]);
  });

  it('leave a board of one cell or none as it is', () => {
    expect(drawn(PLAIN, [cell(0, 1000, 100, 200)])).toEqual([[0, 1000, 0]]);
    expect(tightened(PLAIN, [], SAWN)).toEqual([]);
  });
});
