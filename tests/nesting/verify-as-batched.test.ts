import { describe, expect, it } from 'vitest';
import type { Point, Ring } from '../../src/geometry/shapes.ts';
import type { Batch } from '../../src/model/batch.ts';
import type { LaidBoard } from '../../src/model/layout.ts';
import { layOut } from '../../src/nesting/lay-out.ts';
import { verifyLayout } from '../../src/nesting/verify.ts';
import { withRemains } from '../../src/stock/with-offcuts.ts';

/** What only the batch tells of a layout. */

const box = (length: number, width: number): Ring => [
  [0, 0],
  [length, 0],
  [length, width],
  [0, width],
];
const rules = { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false } as const;
const batch: Batch = {
  sets: 4,
  demands: [
    {
      ...{ layer: 'Shore', part: 'bank', region: { outline: box(120, 50), openings: [] }, veins: [] },
      ...{ copiesPerSet: 1, species: 'walnut', thickness: 6, rules },
    },
  ],
  boards: [
    { id: 'W', species: 'walnut', thickness: 6, outline: box(900, 80), defects: [], quantity: 2, price: 5 },
  ],
  ...{ kerf: 1, clearance: 1, edgeMargin: 2, thicknessTolerance: 0.5, outlineTolerance: 0.01 },
  ...{ keep: { length: 100, width: 60 }, crosscutKerf: 3, reach: { throat: 300, longest: undefined } },
};
const layout = withRemains((await layOut(batch, { effort: 0 })).layout, batch);
const [board] = layout.boards;
const { sections = [], areas } = board;

/** What is told of the layout with fields of its first board changed, as long as it is right by itself. */
const told = (change: Partial<LaidBoard>, asked: Partial<Batch> = {}) => {
  const changed = { ...layout, boards: [{ ...board, ...change }, ...layout.boards.slice(1)] };
  expect(verifyLayout(changed).breaches).toEqual([]);
  return verifyLayout(changed, { ...batch, ...asked }).breaches.map(
    ({ kind, where }) => `${kind} ${where?.field}`,
  );
};

describe('verifyLayout with the batch', () => {
  it('passes what was laid out for it', () => {
    expect(sections.length).toBeGreaterThan(1);
    expect(told({})).toEqual([]);
  });

  it('finds sections that do not turn in the throat', () => {
    // By Pythagoras: a board of 80 mm turns in 200 mm up to 183 mm of length, in a throat of 70 mm not at all.
    expect(told({}, { reach: { throat: 200, longest: undefined } })).toEqual([
      'not-as-batched boards[0].sections',
    ]);
    expect(told({}, { reach: { throat: undefined, longest: 100 } })).toEqual([
      'not-as-batched boards[0].sections',
    ]);
  });

  it('finds less between two sections than the saw takes', () => {
    expect(told({}, { crosscutKerf: 3.2 })).toContain('not-as-batched boards[0].sections[1].from');
  });

  it('finds a straight cut told as scrap', () => {
    // One cut across the board is 3 x 80 mm.
    const { kerf = 0, scrap = 0 } = areas ?? {};
    const less = { ...areas!, kerf: kerf - 120, scrap: scrap + 120 };
    expect(told({ areas: less })).toEqual(['figure-wrong areas.kerf']);
  });

  it('finds a keeper told as scrap', () => {
    const boards = layout.boards.map((each) => {
      const { areas, offcuts = [] } = each;
      expect(offcuts.length).toBeGreaterThan(0);
      const scrap = areas!.scrap + areas!.keepers;
      return { ...each, offcuts: [], areas: { ...areas!, keepers: 0, scrap } };
    });
    expect(verifyLayout({ ...layout, boards }).ok).toBe(true);
    const { breaches } = verifyLayout({ ...layout, boards }, batch);
    expect(breaches.map(({ kind }) => kind)).toEqual(boards.map(() => 'keeper-left-out'));
  });

  const frame = { outline: box(120, 70), openings: [box(80, 40).map(([x, y]): Point => [x + 20, y + 15])] };
  const slot: Ring = [
    [0, 0],
    [40, 0],
    [40, 40],
    [49.5, 40],
    [49.5, 0],
    [120, 0],
    [120, 50],
    [0, 50],
  ];
  it.each([
    ['falls out of an opening', frame, { length: 60, width: 30 }],
    ['breaks off in a slot of 9.5 mm', { outline: slot, openings: [] }, { length: 1, width: 1 }],
  ])('takes what %s for no keeper', async (_, region, keep) => {
    const asked = {
      ...batch,
      sets: 1,
      demands: [{ ...batch.demands[0], region }],
      keep,
      kerf: 0.3,
      crosscutKerf: 0,
    };
    const laid = withRemains((await layOut(asked, { effort: 0 })).layout, asked);
    expect(verifyLayout(laid, asked).breaches).toEqual([]);
  });

  it('refuses what is no batch', () => {
    expect(() => verifyLayout(layout, { ...batch, crosscutKerf: Number.NaN })).toThrow('batch.crosscutKerf');
  });
});
