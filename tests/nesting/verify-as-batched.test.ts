import { describe, expect, it } from 'vitest';
import { boundsOf, boxRing, type Point, type Ring } from '../../src/geometry/shapes.ts';
import type { Batch, Demand } from '../../src/model/batch.ts';
import type { LaidBoard } from '../../src/model/layout.ts';
import type { Board } from '../../src/model/stock.ts';
import { layOut } from '../../src/nesting/lay-out.ts';
import { checkBatchedSections } from '../../src/nesting/verify/batched-sections.ts';
import { verifyLayout } from '../../src/nesting/verify.ts';
import { withRemains } from '../../src/stock/with-offcuts.ts';
import { handBoard, placed } from '../sheet/hand-layout.ts';

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
const noTrim = { topEdge: 0, straightEdge: 0, leftEnd: 0, rightEnd: 0 };
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

  const [demand] = batch.demands;
  const [entry] = batch.boards;
  const asking = (change: Partial<Demand>) => ({ demands: [{ ...demand, ...change }] });
  const having = (change: Partial<Board>) => ({ boards: [{ ...entry, ...change }] });
  const pin = { layer: 'Shore', part: 'bank', board: 'W', number: 1, x: 0, y: 0, rotation: 0 };

  it.each<[what: string, asked: Partial<Batch>, field: string | undefined]>([
    ['fewer sets', { sets: 5 }, 'sets'],
    ['another kerf', { kerf: 0.8 }, 'kerf'],
    ['another gap', { clearance: 2 }, 'clearance'],
    ['another margin', { edgeMargin: 3 }, 'edgeMargin'],
    ['sets apart', { setsTogether: true }, 'setsTogether'],
    ['other copies in a set', asking({ copiesPerSet: 2 }), 'copiesPerSet'],
    ['grain freed', asking({ rules: { ...rules, grain: 'across' } }), 'grain'],
    ['grain off by more', asking({ rules: { ...rules, grainTolerance: 5 } }), 'grainTolerance'],
    ['parts turned over', asking({ rules: { ...rules, turnOver: true } }), 'turnOver'],
    ['rest edges forgotten', asking({ rules: { ...rules, restEdge: true } }), 'restEdge'],
    ['another part', asking({ part: 'bay' }), undefined],
    ['another wood', asking({ species: 'oak' }), undefined],
    ['planing forgotten', asking({ thickness: 5 }), undefined],
    ['a board that is not there', having({ id: 'X' }), 'boards[0].stock'],
    ['a board of another wood', having({ species: 'oak' }), 'boards[0].species'],
    ['a board too thick', having({ thickness: 6.4 }), 'boards[0].thickness'],
    ['a board that is ripped', having({ strips: 2 }), 'boards[0].strips'],
    ['a board that is cut to lengths', having({ lengths: 2 }), 'boards[0].lengths'],
    ['a board shorter than that', having({ outline: box(890, 80) }), 'boards[0].usable'],
    ['a board longer than that', having({ outline: box(910, 80) }), 'boards[0].outline'],
    ['a trim forgotten', having({ trim: { ...noTrim, topEdge: 1 } }), 'boards[0].usable'],
    ['a knot forgotten', having({ defects: [box(9, 9)] }), 'boards[0].usable'],
    ['nothing but a defect', having({ defects: [box(900, 80)] }), 'boards[0].usable'],
    ['a pin forgotten', { pins: [pin] }, undefined],
  ])('finds %s', (_, asked, field) => {
    expect(told({}, asked)).toContain(`not-as-batched ${field}`);
  });

  it('finds a board that is stated, or left to be taken, as narrower than its entry: parts would stand in its middle', () => {
    const wider = having({ outline: box(900, 90) });
    const { outline: _, ...unstated } = board;
    for (const first of [board, unstated]) {
      const changed = { ...layout, boards: [first, ...layout.boards.slice(1)] };
      expect(verifyLayout(changed, batch).breaches).toEqual([]);
      expect(verifyLayout(changed, { ...batch, ...wider }).breaches).toMatchObject([
        { kind: 'not-as-batched', where: { field: 'boards[0].outline' } },
      ]);
    }
  });

  it('finds more slices than the saw leaves of a board, and a sheet that is planed', async () => {
    // 3/4 in gives two slices of 1/4 in to a hair: a cut of 1/8 in, and 1/16 in to clean each.
    const asked = { ...batch, ...asking({ thickness: 6.35 }), ...having({ thickness: 19.05 }) };
    const { layout: laid } = await layOut(asked, { effort: 0 });
    const found = (slices: number, sheet = false) => {
      const boards = laid.boards.map((each) => ({ ...each, slices }));
      const [own] = asked.boards;
      return verifyLayout({ ...laid, boards }, { ...asked, boards: [{ ...own, sheet }] })
        .breaches.filter(({ kind }) => kind === 'not-as-batched')
        .map(({ where, expected }) => [where?.field, expected]);
    };
    expect(laid.boards.map(({ slices }) => slices)).toEqual([2]);
    expect(found(2)).toEqual([]);
    expect(found(3)).toEqual([['boards[0].slices', 'at most 2']]);
    expect(found(2, true)).toEqual([['boards[0].planeTo', 'none, for sheets are taken as they are']]);
  });

  it('finds a top edge taken for straight of which the entry says nothing', () => {
    expect(told({ straightTopEdge: true })).toEqual(['not-as-batched boards[0].straightTopEdge']);
    expect(told({ straightTopEdge: true }, having({ straightTopEdge: true }))).toEqual([]);
  });

  it('tells a pin that is not honoured as it was measured on the board, not as the part was drawn', () => {
    const drawn = { outline: box(120, 50).map(([x, y]): Point => [x + 30, y + 70]), openings: [] };
    const pins = [{ ...pin, x: 170, y: -58 }];
    const told = verifyLayout(layout, { ...batch, ...asking({ region: drawn }), pins }).breaches.filter(
      ({ expected }) => /pinned/.test(String(expected)),
    );
    expect(told).toMatchObject([
      { expected: 'pinned 200 mm from the left end and 12 mm from the top edge', received: 'not there' },
    ]);
    const [elsewhere] = verifyLayout(layout, { ...batch, pins: [{ ...pin, number: 3 }] }).breaches;
    expect(elsewhere.received).toBe('none on this board');
  });

  it('finds a pin that was moved on its board also where other copies of its part have no place', async () => {
    const asked = { ...batch, sets: 40, ...having({ quantity: 1 }) };
    const { layout: laid } = await layOut(asked, { effort: 0 });
    const [{ x, y }] = laid.boards[0].placements;
    expect(laid.unplaced.length).toBeGreaterThan(0);
    const found = (at: Pick<typeof pin, 'x' | 'y'>) =>
      verifyLayout(laid, { ...asked, pins: [{ ...pin, ...at }] }).breaches.map(({ received }) => received);
    expect(found({ x, y })).toEqual([]);
    expect(found({ x: x + 1, y })).toEqual(['not there']);
  });

  it('finds a trim told as less than the entry says, which nobody would saw off', async () => {
    const trim = { topEdge: 6, straightEdge: 'clean', leftEnd: 10, rightEnd: 0 } as const;
    const asked = { ...batch, ...having({ trim }) };
    const { layout: laid } = await layOut(asked, { effort: 0 });
    const [first, ...others] = laid.boards;
    const saying = (trimmed: LaidBoard['trimmed']) => {
      const { trimmed: _, ...rest } = first;
      const changed = { ...laid, boards: [{ ...rest, ...(trimmed && { trimmed }) }, ...others] };
      expect(verifyLayout(changed).breaches).toEqual([]);
      return verifyLayout(changed, asked)
        .breaches.filter(({ kind }) => kind === 'not-as-batched')
        .map(({ where, expected, received }) => [where?.field, expected, received]);
    };
    expect(first.trimmed).toEqual({ ...noTrim, topEdge: 6, leftEnd: 10 });
    expect(saying(first.trimmed)).toEqual([]);
    expect(saying({ ...noTrim, topEdge: 6, leftEnd: 8 })).toEqual([
      ['boards[0].trimmed.leftEnd', '10 mm', '8 mm'],
    ]);
    expect(saying(undefined).map(([field]) => field)).toEqual([
      'boards[0].trimmed.topEdge',
      'boards[0].trimmed.leftEnd',
    ]);
  });

  it.each<[what: string, asked: object, field: string]>([
    [
      'rules',
      asking({ rules: { ...rules, grainTolerance: null as never } }),
      'demands[0].rules.grainTolerance',
    ],
    ['rules', asking({ rules: { ...rules, grain: Object.create(null) } }), 'demands[0].rules.grain'],
    ['a trim', having({ trim: { ...noTrim, leftEnd: Number.NaN } }), 'boards[0].trim.leftEnd'],
    [
      'a trim',
      having({ trim: { ...noTrim, straightEdge: 'clear' as never } }),
      'boards[0].trim.straightEdge',
    ],
  ])('refuses a batch with %s that are none', (_, asked, field) => {
    expect(() => verifyLayout(layout, { ...batch, ...asked })).toThrow(`batch.${field}`);
  });

  it('finds more boards than there are, and stacks higher than asked for', () => {
    expect(told({ id: 'W-3', pieces: ['W-3'] })).toEqual(['not-as-batched boards[0].id']);
    const stacked = { ...layout, boards: [{ ...board, copies: 2, pieces: ['W-1', 'W-2'] }] };
    const { breaches } = verifyLayout(stacked, batch);
    expect(breaches.map(({ expected }) => expected)).toContain('a stack of at most 1');
  });

  it('counts the boards of a stack that have no names of their own', async () => {
    const stacked = { ...batch, ...asking({ stack: 2 }) };
    const { layout: laid } = await layOut(stacked, { effort: 0 });
    expect(laid.boards.map(({ copies, pieces }) => [copies, pieces])).toEqual([[2, ['W-1', 'W-2']]]);
    const boards = laid.boards.map(({ pieces: _, ...unnamed }): LaidBoard => unnamed);
    const found = (quantity: number) =>
      verifyLayout({ ...laid, boards }, { ...stacked, ...having({ quantity }) }).breaches;
    expect(found(2)).toEqual([]);
    expect(found(1)).toMatchObject([
      { kind: 'not-as-batched', where: { board: 'W' }, expected: 'at most 1 of the entry', received: '2' },
    ]);
  });

  it('finds parts that are not those of the pattern, though all are alike', () => {
    const larger = { outline: box(120, 51), openings: [] };
    expect(verifyLayout(layout, { ...batch, ...asking({ region: larger }) }).breaches).toMatchObject([
      { kind: 'not-as-batched', where: { part: 'bank', field: 'region' } },
      ...Array(4).fill({ kind: 'shape-changed' }),
    ]);
    // What the layout states as drawn is refused also where what lies there is the part of the pattern.
    const setContents = [{ ...layout.setContents[0], region: larger }];
    expect(verifyLayout({ ...layout, setContents }, batch).breaches).toMatchObject([
      { kind: 'not-as-batched', where: { field: 'region' } },
    ]);
  });

  it('looks for keepers in the largest piece that a trim leaves, as the layout does', async () => {
    // The web between the two legs is trimmed off; the shorter leg is lost with it.
    const legs: Ring = [
      [0, 0],
      [900, 0],
      [900, 80],
      [500, 80],
      [500, 4],
      [350, 4],
      [350, 80],
      [0, 80],
    ];
    for (const straightEdge of [0, 5, 'clean'] as const) {
      const parted = { ...entry, outline: legs, defects: [], trim: { ...noTrim, topEdge: 6, straightEdge } };
      const asked = { ...batch, boards: [parted] };
      const laid = withRemains((await layOut(asked, { effort: 0 })).layout, asked);
      expect(laid.boards.flatMap(({ placements }) => placements).length).toBeGreaterThan(0);
      expect(verifyLayout(laid, asked).breaches).toEqual([]);
    }
  });

  it('finds a keeper beyond a crack that reaches over the crack or into a trim, or is told as scrap', async () => {
    const crack: Ring = [
      [600, -1],
      [610, -1],
      [610, 81],
      [600, 81],
    ];
    const split = { ...entry, defects: [crack], trim: { ...noTrim, topEdge: 6, rightEnd: 10 } };
    const asked = { ...batch, boards: [split] };
    const { boards, ...rest } = withRemains((await layOut(asked, { effort: 0 })).layout, asked);
    const told = (from: number, top: number, to: number) => {
      const changed = boards.map((own) => ({
        ...own,
        offcuts: own.offcuts!.map((offcut) => {
          const { region, rectangle } = offcut;
          if (rectangle.minX < 605) return offcut;
          const edges = boundsOf(region.outline);
          expect(edges).toMatchObject({ minX: 610, minY: 6, maxX: 890 });
          const outline = boxRing({ minX: from, minY: top, maxX: to, maxY: edges.maxY });
          return { ...offcut, region: { ...region, outline } };
        }),
      }));
      const { breaches } = verifyLayout({ ...rest, boards: changed }, asked);
      return breaches.filter(({ kind }) => kind === 'not-as-batched').map(({ where }) => where?.field);
    };
    expect(told(610, 6, 890)).toEqual([]);
    const field = expect.stringMatching(/^boards\[\d\]\.offcuts\[\d\]\.region$/);
    expect(told(603, 6, 890)).toContainEqual(field);
    const scrapped = boards.map((own) => {
      const offcuts = own.offcuts!.filter(({ rectangle }) => rectangle.minX < 605);
      const keepers = offcuts.reduce((sum, { area }) => sum + area, 0);
      const scrap = own.areas!.scrap + own.areas!.keepers - keepers;
      return { ...own, offcuts, areas: { ...own.areas!, keepers, scrap } };
    });
    const left = verifyLayout({ ...rest, boards: scrapped }, asked).breaches.map(({ kind }) => kind);
    expect(left).toContain('keeper-left-out');
    // On no entry that is trimmed away as a whole is anything looked for.
    const away = { ...asked, boards: [{ ...split, trim: { ...noTrim, topEdge: 90 } }] };
    expect(verifyLayout({ ...rest, boards }, away).breaches).not.toEqual([]);
    expect(told(610, 0, 890)).toContainEqual(field);
    expect(told(610, 6, 900)).toContainEqual(field);
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

  it('finds them beside a board with a pin, which may need longer ones', async () => {
    const { x, y } = board.placements[0];
    const asked = { ...batch, sets: 12, pins: [{ ...pin, x, y }] };
    const { layout: laid } = await layOut(asked, { effort: 0 });
    expect(laid.boards.map(({ id }) => id)).toEqual(['W-1', 'W-2']);
    const found = (uncut: number) => {
      const boards = laid.boards.map(({ sections: own, ...rest }, i) =>
        i === uncut || own === undefined ? rest : { ...rest, sections: own },
      );
      return verifyLayout({ ...laid, boards }, asked).breaches.map(({ where }) => where?.field);
    };
    expect([0, 1].map(found)).toEqual([[], ['boards[1].sections']]);
  });

  it('passes a long section that is empty, though the part beside it touches the line between them', () => {
    const plate = placed({
      region: { outline: box(90, 50).map(([x, y]): Point => [x + 200, y]), openings: [] },
    });
    const sawn = handBoard({
      sections: [
        { number: 1, from: 0, to: 200 },
        { number: 2, from: 200, to: 300 },
      ],
      placements: [plate],
    });
    const long: unknown[] = [];
    const asked = { ...batch, crosscutKerf: 0, reach: { throat: undefined, longest: 150 } };
    checkBatchedSections(sawn, asked, (isRight, where) => isRight || long.push(where));
    expect(long).toEqual([]);
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
