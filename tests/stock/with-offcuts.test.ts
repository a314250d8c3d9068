import { describe, expect, it } from 'vitest';
import type { Ring } from '../../src/geometry/shapes.ts';
import type { Batch } from '../../src/model/batch.ts';
import type { BoardAreas, LaidBoard, Layout, Section } from '../../src/model/layout.ts';
import type { Board } from '../../src/model/stock.ts';
import { withOffcuts, withRemains } from '../../src/stock/with-offcuts.ts';
import { box } from '../rectangle.ts';

const sum = ({ board: _, ...areas }: BoardAreas) => Object.values(areas).reduce((a, b) => a + b, 0);

describe('what is left of a board', () => {
  it('parts a keeper by a straight cross-cut where one meets no part', () => {
    const { offcuts, areas } = sawn([box(10, 10, 100, 90), box(110, 10, 200, 90)]);
    expect(offcuts).toHaveLength(1);
    expect(offcuts![0].rectangle).toEqual({ minX: 204, minY: 0, maxX: 800, maxY: 100 });
    // The blade ends at 201 mm, the saw takes 3 mm more.
    expect(offcuts![0].lines).toEqual([
      [
        [202.5, 0],
        [202.5, 100],
      ],
    ]);
    expect(offcuts![0].area).toBeCloseTo(596 * 100, 3);
    // By hand: the kerf is a ring 1 mm wide with round corners around each part, and the cross-cut.
    const ring = 2 * (90 + 80) + Math.PI;
    const kerf = 2 * ring + 3 * 100;
    expect(areas!.kerf).toBeGreaterThan(kerf - 0.1);
    expect(areas!.kerf).toBeLessThan(kerf + 0.01 * 2 * (2 * (92 + 82)));
    expect(areas!.parts).toBeCloseTo(2 * 90 * 80, 6);
  });

  it('names the keepers of a board in order, and leaves none across the cut between two sections', () => {
    const sections = [
      { number: 1, from: 0, to: 398.5 },
      { number: 2, from: 401.5, to: 800 },
    ];
    const { offcuts, areas } = sawn([box(10, 10, 100, 90)], {}, [], sections);
    expect(offcuts!.map(({ id, rectangle }) => [id, rectangle.minX, rectangle.maxX])).toEqual([
      ['A-1 keeper 1', 104, 398.5],
      ['A-1 keeper 2', 401.5, 800],
    ]);
    expect(areas!.keepers).toBeCloseTo((294.5 + 398.5) * 100, 3);
    expect(sum(areas!)).toBeCloseTo(80_000, 2);
  });

  it('rips a strip off over sections only where the straight edge goes on along them', () => {
    const sections = [0, 1, 2, 3].map((i) => ({ number: i + 1, from: 200 * i, to: 200 * i + 197 }));
    const parts = sections.map(({ from }, i) => box(from + 10, i < 2 ? 20 : 55, from + 180, 75));
    const rising = (from: number): Ring => [
      [0, 0],
      [797, 0],
      [797, 80],
      [from, 100],
      [0, 100],
    ];
    const longest = (from: number) => {
      const { offcuts } = sawn(parts, { keep: { length: 150, width: 40 } }, [], sections, rising(from));
      return Math.max(...offcuts!.map(({ rectangle: { minX, maxX } }) => maxX - minX));
    };
    expect([797, 700, 450].map(longest)).toEqual([397, 397, 197]);
  });

  it('counts an end that falls away with the cut after the last section as sawn', () => {
    const { areas } = sawn([box(10, 10, 100, 90)], {}, [], [{ number: 1, from: 0, to: 798 }]);
    expect(sum(areas!)).toBeCloseTo(80_000, 2);
    const ring = 2 * (90 + 80) + Math.PI;
    expect(Math.abs(areas!.kerf - ring - 2 * 100 - 3 * 100)).toBeLessThan(4);
  });

  it('is found for every board of a layout, by the board it is cut from', () => {
    const boards = ['A', 'B'].map(
      (id, i): Board => ({ ...BOARD, id, outline: box(0, 0, 400 + 400 * i, 100) }),
    );
    const laid = boards.map(
      ({ id, outline }): LaidBoard => ({
        ...LAID,
        id: `${id}-1`,
        stock: id,
        usable: { outline, openings: [] },
      }),
    );
    const layout = withRemains(
      { boards: [laid[1], laid[0]], kerf: 1 } as unknown as Layout,
      {
        boards,
        kerf: 1,
      } as unknown as Batch,
    );
    expect(layout.kerf).toBe(1);
    expect(layout.boards.map(({ id, areas }) => [id, areas!.board, areas!.keepers])).toEqual([
      ['B-1', 80_000, 80_000],
      ['A-1', 40_000, 40_000],
    ]);
  });

  it.each([
    ['boards[0].outline', { boards: [{ ...BOARD, outline: null }] }],
    ['boards[0].defects', { boards: [{ ...BOARD, defects: undefined }] }],
    ['keep.width', { keep: { length: 100, width: Number.NaN } }],
    ['crosscutKerf', { crosscutKerf: '3' }],
  ])('is not looked for with a batch that makes no sense: %s', (field, change) => {
    const layout = { boards: [LAID], kerf: 1 } as unknown as Layout;
    const batch = { boards: [BOARD], kerf: 1, ...change } as unknown as Batch;
    expect(() => withRemains(layout, batch)).toThrow(`batch.${field}: `);
  });

  it('takes the rip when it leaves more than the cross-cut, and a middle piece between two cuts', () => {
    const low = sawn([box(10, 60, 790, 90)], { keep: { length: 200, width: 30 } });
    expect(low.offcuts!.map(({ rectangle }) => rectangle)).toEqual([
      { minX: 0, minY: 0, maxX: 800, maxY: 56 },
    ]);
    const ends = sawn([box(10, 10, 100, 90), box(700, 10, 790, 90)]);
    expect(ends.offcuts!.map(({ rectangle, lines }) => [rectangle, lines.length])).toEqual([
      [{ minX: 104, minY: 0, maxX: 696, maxY: 100 }, 2],
    ]);
  });

  it('keeps a knot in a keeper out of its rectangle, and counts it once', () => {
    const knot = box(500, 40, 520, 60);
    const { offcuts, areas } = sawn([box(10, 10, 200, 90)], {}, [knot]);
    expect(offcuts![0].region.openings).toHaveLength(1);
    expect(offcuts![0].rectangle).toEqual({ minX: 204, minY: 0, maxX: 500, maxY: 100 });
    expect(areas!.defects).toBeCloseTo(400, 6);
    expect(sum(areas!)).toBeCloseTo(80_000, 2);
  });

  it('keeps the stout piece the blade frees, without the slender wood beside it', () => {
    const l: Ring = [
      [10, 10],
      [790, 10],
      [790, 30],
      [30, 30],
      [30, 90],
      [10, 90],
    ];
    const { offcuts } = sawn([l, box(770, 40, 790, 95)], { keep: { length: 300, width: 40 } });
    expect(offcuts).toHaveLength(1);
    expect(offcuts![0].lines).toEqual([]);
    const { minX, maxX, minY, maxY } = offcuts![0].rectangle;
    expect(minX).toBeCloseTo(31, 1);
    expect(maxX).toBeCloseTo(769, 1);
    expect(minY).toBeCloseTo(31, 1);
    expect(maxY).toBe(100);
  });
});

const BOARD: Board = {
  id: 'A',
  species: 'cherry',
  thickness: 6,
  outline: box(0, 0, 800, 100),
  defects: [],
  quantity: 1,
  price: undefined,
};

const LAID: LaidBoard = {
  id: 'A-1',
  stock: 'A',
  species: 'cherry',
  thickness: 6,
  copies: 1,
  usable: { outline: BOARD.outline, openings: [] },
  placements: [],
};

/** A board of 800 x 100 mm with rectangular parts on it, kerf 1 mm, saw 3 mm. */
function sawn(
  parts: readonly Ring[],
  change: Partial<Batch> = {},
  defects: readonly Ring[] = [],
  sections?: readonly Section[],
  outline = BOARD.outline,
): LaidBoard {
  const batch = { kerf: 1, crosscutKerf: 3, ...change } as Batch;
  const laid: LaidBoard = {
    ...LAID,
    ...(sections === undefined ? {} : { sections }),
    usable: { outline, openings: defects },
    placements: parts.map((outline, i) => ({
      part: `part ${i}`,
      layer: 'layer',
      set: 1,
      x: 0,
      y: 0,
      rotation: 0,
      turnedOver: false,
      region: { outline, openings: [] },
      veins: [],
    })),
  };
  return withOffcuts(laid, { ...BOARD, outline, defects }, batch);
}
