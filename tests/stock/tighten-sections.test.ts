import { describe, expect, it } from 'vitest';
import { boxRing, type Region } from '../../src/geometry/shapes.ts';
import { type Cell, tightened } from '../../src/stock/tighten-sections.ts';

const PLAIN: Region = { outline: boxRing({ minX: 0, minY: 0, maxX: 1000, maxY: 100 }), openings: [] };
const KNOT = boxRing({ minX: 480, minY: 40, maxX: 500, maxY: 60 });
const KNOTTY: Region = { ...PLAIN, openings: [KNOT] };
const SAWN = { margin: 2, kerf: 3, mayShift: true };

function cell(from: number, to: number, minX?: number, maxX?: number): Cell {
  return { from, to, carries: minX === undefined ? undefined : { minX, maxX: maxX! } };
}

/** Ends and shifts in whole numbers; what lies in a cell moves with it, and has to be in it, at the margin. */
function drawn(board: Region, cells: readonly Cell[], rules = SAWN): number[][] {
  const loads = cells.flatMap((one) => one.carries ?? []);
  const tight = tightened(board, cells, rules);
  expect(tight.filter((one) => one.carries !== undefined)).toHaveLength(loads.length);
  return tight.map(({ from, to, carries, shift }) => {
    if (carries !== undefined) {
      const load = loads.shift()!;
      expect(carries.minX).toBeCloseTo(load.minX + shift, 9);
      expect(carries.maxX).toBeCloseTo(load.maxX + shift, 9);
      expect(carries.minX - from).toBeGreaterThanOrEqual(rules.margin - 1e-9);
      expect(to - carries.maxX).toBeGreaterThanOrEqual(rules.margin - 1e-9);
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

  it('keep every length that is as tight as can be, to the last digit', () => {
    const cells = [cell(0, 300, 2, 200), cell(303, 603, 305, 601), cell(606, 1000, 608, 800)];
    const [first, second] = tightened(PLAIN, cells, SAWN);
    expect(first.to).toBeCloseTo(202, 2);
    expect(second.to - second.from).toBeLessThanOrEqual(300 + 1e-9);
  });

  it('leave the rest by itself where it is worth a section, and make no cut for what is no wider than it', () => {
    const beside = (maxX: number) => drawn(PLAIN, [cell(0, 600, 2, 598), cell(603, 1000, 605, maxX)])[1];
    expect(beside(800)).toEqual([603, 802, 0]);
    // 50 mm after the cut are worth keeping, a hair less is given to the last cell.
    expect(beside(944.999)).toEqual([603, 947, 0]);
    expect(beside(945.1)).toEqual([603, 1000, 0]);
    expect(beside(994.999)).toEqual([603, 1000, 0]);
    expect(beside(996)).toEqual([603, 1000, 0]);
    // Where the last cell may not grow, the cut takes it.
    const full = [cell(0, 498, 2, 496), cell(501, 998, 503, 996)];
    expect(drawn(PLAIN, full)).toEqual([
      [0, 498, 0],
      [501, 998, 0],
    ]);
  });

  it('grow the last of several up to the length of the longest, and no farther', () => {
    const three = (longest: number) => [
      cell(0, longest, 2, longest - 2),
      cell(longest + 3, longest + 203, longest + 5, longest + 180),
      cell(longest + 206, 1000, longest + 208, 980),
    ];
    expect(drawn(PLAIN, three(450))).toEqual([
      [0, 450, 0],
      [453, 632, 0],
      [635, 1000, -21],
    ]);
    // Equal lengths do.
    expect(drawn(PLAIN, [cell(0, 500, 2, 495), cell(503, 1000, 505, 960)])).toHaveLength(2);
    expect(drawn(PLAIN, [cell(0, 497, 2, 495), cell(500, 1000, 502, 960)])[1]).toEqual([500, 1000, 0]);
  });

  it('close up wherever the board lies in its drawing', () => {
    const [dx, dy] = [517, -349];
    const outline = PLAIN.outline.map(([x, y]) => [x + dx, y + dy] as const);
    const cells = [cell(0, 300, 50, 250), cell(303, 603, 303 + 2, 403), cell(606, 1000)];
    const moved = cells.map(({ from, to, carries }) =>
      cell(from + dx, to + dx, ...(carries === undefined ? [] : [carries.minX + dx, carries.maxX + dx])),
    );
    const expected = drawn(PLAIN, cells).map(([from, to, shift]) => [from + dx, to + dx, shift]);
    expect(drawn({ outline, openings: [] }, moved)).toEqual(expected);
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
    const leaning: Region = {
      outline: [
        [0, 0],
        [1000, 0],
        [1000, 100],
        [0, 90],
      ],
      openings: [],
    };
    expect(drawn(leaning, cells)).toEqual(moved);
    const full = [cell(0, 300, 10, 200), cell(303, 1000, 320, 900)];
    expect(drawn(KNOTTY, full)).toEqual([
      [0, 300, 0],
      [303, 1000, 0],
    ]);
  });

  it('bring two rests that meet at a line together, in a piece of its own', () => {
    const cells = [cell(0, 380, 2, 130), cell(383, 830, 760, 828), cell(833, 1000)];
    expect(drawn(KNOTTY, cells)).toEqual([
      [0, 132, 0],
      [135, 755, 0],
      [758, 830, 0],
      [833, 1000, 0],
    ]);
    // Not for the width of a lath on one side: that would be a cut more for little.
    expect(drawn(KNOTTY, [cell(0, 380, 2, 340), cell(383, 1000, 760, 998)])).toHaveLength(2);
  });

  it('never leave less than 50 mm of a section that carries something', () => {
    const cells = [cell(0, 300, 2, 20), cell(303, 603, 305, 315), cell(606, 1000)];
    expect(drawn(PLAIN, cells)).toEqual([
      [0, 50, 0],
      [53, 103, -250],
      [106, 1000, 0],
    ]);
    expect(drawn(KNOTTY, [cell(0, 300, 2, 20), cell(303, 1000)])).toEqual([
      [0, 50, 0],
      [53, 1000, 0],
    ]);
    expect(drawn(KNOTTY, [cell(0, 900), cell(903, 1000, 980, 998)])[1]).toEqual([950, 1000, 0]);
  });

  it('leave a board of one cell or none as it is', () => {
    expect(drawn(PLAIN, [cell(0, 1000, 100, 200)])).toEqual([[0, 1000, 0]]);
    expect(tightened(PLAIN, [], SAWN)).toEqual([]);
  });
});
