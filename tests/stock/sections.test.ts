import { describe, expect, it } from 'vitest';
import { boundsOf, type Ring } from '../../src/geometry/shapes.ts';
import { throatIssues } from '../../src/job/throat-issues.ts';
import type { Batch } from '../../src/model/batch.ts';
import type { Layout } from '../../src/model/layout.ts';
import { layOut } from '../../src/nesting/lay-out.ts';
import { verifyLayout } from '../../src/nesting/verify.ts';
import { longestSection, partingsOf, swingOf } from '../../src/stock/sections.ts';
import { MM_PER_UNIT } from '../../src/units/length.ts';
import { randomBatch } from '../nesting/random-batch.ts';

const inch = (value: number) => value * MM_PER_UNIT.in;

const box = (minX: number, minY: number, maxX: number, maxY: number): Ring => [
  [minX, minY],
  [maxX, minY],
  [maxX, maxY],
  [minX, maxY],
];

describe('longestSection', () => {
  // By hand, Pythagoras: a board 6 in wide turns fully in a 20 in throat up to 19.08 in, in 16 in up to 14.83 in;
  // 8 in wide in 16 in up to 13.86 in.
  it.each([
    [6, 20, 19.08],
    [6, 16, 14.83],
    [8, 16, 13.86],
  ])('of a board %d in wide in a throat of %d in is %d in', (width, throat, expected) => {
    const length = longestSection(inch(width), { throat: inch(throat), longest: undefined });
    expect(length / MM_PER_UNIT.in).toBeCloseTo(expected, 2);
  });

  it('is no longer than what is handled', () => {
    expect(longestSection(100, { throat: 1000, longest: 300 })).toBe(300);
    expect(longestSection(100, { throat: undefined, longest: 300 })).toBe(300);
  });
});

describe('partingsOf', () => {
  const reach = { throat: undefined, longest: 300 };
  const lengths = (length: number, filled: readonly number[] = []) =>
    partingsOf({ outline: box(0, 0, length, 100), openings: [] }, { reach, kerf: 3, filled }).map(
      (sections) => sections.map(({ from, to }) => [from, to]),
    );

  it('leaves a board whole that need not be cut', () => {
    expect(lengths(300)).toEqual([[]]);
  });

  it('cuts as long as may be from either end, alike, and as rows of parts ask, the kerf between', () => {
    expect(lengths(700, [255, 301, 20])).toEqual([
      [
        [0, 300],
        [303, 603],
        [606, 700],
      ],
      [
        [0, 94],
        [97, 397],
        [400, 700],
      ],
      [
        [0, 231.3333],
        [234.3333, 465.6666],
        [468.6666, 700],
      ],
      [
        [0, 255],
        [258, 513],
        [516, 700],
      ],
    ]);
  });

  it('is the same wherever the board lies in its drawing; sections are numbered and hold their wood', () => {
    const usable = { outline: box(1000, -50, 1700, 50), openings: [box(1020, -10, 1040, 10)] };
    const [sections] = partingsOf(usable, { reach, kerf: 3 });
    expect(sections.map(({ number, from, to }) => [number, from, to])).toEqual([
      [1, 1000, 1300],
      [2, 1303, 1603],
      [3, 1606, 1700],
    ]);
    for (const { from, to, usable: wood } of sections) {
      expect(boundsOf(wood.outline)).toEqual({ minX: from, minY: -50, maxX: to, maxY: 50 });
      expect(wood.openings.length).toBe(from === 1000 ? 1 : 0);
    }
    // A throat is measured over the width of the board: 300 x 400 mm turn in 500 mm.
    const wide = { outline: box(0, 200, 900, 600), openings: [] };
    const [turning] = partingsOf(wide, { reach: { throat: 500, longest: undefined }, kerf: 0 });
    expect(turning.map(({ from, to }) => [from, to])).toEqual([
      [0, 300],
      [300, 600],
      [600, 900],
    ]);
  });

  it('has one parting where all ways come to the same, and none of lengths not worth a cut', () => {
    expect(lengths(603)).toEqual([
      [
        [0, 300],
        [303, 603],
      ],
    ]);
    expect(lengths(603, [300, 49.9])).toHaveLength(1);
    expect(lengths(603, [50])).toHaveLength(2);
  });

  it('turns a section as short as is worth a cut, and takes the throat as length where none turns', () => {
    const throat = Math.hypot(50, 120);
    expect(longestSection(120, { throat, longest: undefined })).toBeCloseTo(50, 9);
    expect(longestSection(121, { throat, longest: undefined })).toBe(throat);
    expect(longestSection(500, { throat, longest: 90 })).toBe(90);
  });

  it('gives a short rest to the last two, and lets the cut take what is no wider than itself', () => {
    // By hand: 40 mm after the first cut are too short, 300 + 40 - 3 = 337 mm are halved around the kerf; 50 suffice.
    expect(lengths(340)[0]).toEqual([
      [0, 168.5],
      [171.5, 340],
    ]);
    expect(lengths(353)[0]).toEqual([
      [0, 300],
      [303, 353],
    ]);
    for (const length of [301.5, 303]) expect(lengths(length)[0]).toEqual([[0, 300]]);
  });

  it('puts its lines on the grid of layouts, and the last end where the board ends', () => {
    const usable = { outline: box(0.00005, 0, 700.00005, 100), openings: [] };
    for (const sections of partingsOf(usable, { reach, kerf: 3 })) {
      expect(sections[0].from).toBe(0.00005);
      const end = sections[sections.length - 1].to;
      expect(700.00005 - end).toBeGreaterThanOrEqual(0);
      expect(700.00005 - end).toBeLessThan(1e-4);
      const lines = sections.flatMap(({ from, to }) => [from, to]).slice(1, -1);
      for (const mm of lines) expect(mm).toBeCloseTo(Math.round(mm * 1e4) / 1e4, 9);
    }
  });

  it('loses no wood at the end of a board whose length is not on the grid', () => {
    const usable = { outline: box(0, 0, 700.00005, 100), openings: [] };
    expect(partingsOf(usable, { reach, kerf: 3 })[0][2]).toMatchObject({ from: 606, to: 700.00005 });
  });

  it('never leaves a sliver, and no wood between sections but the kerf, over lengths from 300 to 1500 mm', () => {
    const faults: string[] = [];
    for (let length = 300.5; length < 1500; length += 23.3) {
      for (const sections of lengths(length, [151, 200, 289.37])) {
        const sizes = sections.map(([from, to]) => to - from);
        const cuts = sections.slice(1).map(([from], i) => from - sections[i][1]);
        // What is left at the end is no wider than a cut.
        const rest = length - sections[sections.length - 1][1];
        const isRight =
          sections[0][0] === 0 &&
          sizes.every((size) => size >= 50 && size <= 300 + 1e-6) &&
          cuts.every((cut) => Math.abs(cut - 3) < 1e-3) &&
          rest <= 3.001;
        if (!isRight) faults.push(`${length}: ${sections.join(' ')}`);
      }
    }
    expect(faults).toEqual([]);
  });
});

describe('swingOf', () => {
  it('reaches from the farthest point of a part, openings and all, to the farthest corner', () => {
    const section = { outline: box(0, 0, 300, 40), openings: [] };
    const part = { outline: box(0, 0, 10, 10), openings: [] };
    expect(swingOf(part, section)).toBeCloseTo(Math.hypot(300, 40), 9);
    const middle = { outline: box(140, 15, 180, 25), openings: [] };
    expect(swingOf(middle, section)).toBeCloseTo(Math.hypot(180, 25), 9);
    // An opening is sawn as well, wherever it lies.
    expect(swingOf({ ...middle, openings: [box(200, 5, 210, 10)] }, section)).toBeCloseTo(
      Math.hypot(210, 35),
      9,
    );
  });
});

describe('layouts in sections', () => {
  it('keep every part in one section that fits the throat, over random jobs', async () => {
    let sectioned = 0;
    // Jobs that are laid out in a third of a second each.
    for (const seed of [201, 208, 210, 211, 213]) {
      const plain = randomBatch(seed);
      const reach = { throat: 240, longest: 210 };
      const batch: Batch = { ...plain, sets: Math.min(3, plain.sets), reach };
      const { layout } = await layOut(batch, { effort: 0 });
      expect(verifyLayout(layout).breaches, `seed ${seed}`).toEqual([]);
      for (const { sections = [], placements, usable } of layout.boards) {
        const { minY, maxY } = boundsOf(usable.outline);
        if (sections.length > 0) sectioned++;
        for (const { region } of placements) {
          const part = boundsOf(region.outline);
          const home = sections.filter(({ from, to }) => part.minX >= from - 1e-3 && part.maxX <= to + 1e-3);
          expect(sections.length === 0 || home.length === 1).toBe(true);
          for (const { from, to } of home) {
            expect(to - from).toBeLessThanOrEqual(reach.longest + 1e-6);
            expect(Math.hypot(to - from, maxY - minY)).toBeLessThanOrEqual(reach.throat + 1e-6);
          }
        }
      }
      // Sections turn fully, so every part in them does.
      expect(throatIssues(layout, reach, 'mm')).toEqual([]);
    }
    expect(sectioned).toBeGreaterThan(5);
  });

  /** Rectangles of 95 x 45 mm, to be cut from boards of 620 x 100 mm: twelve fill one that stays whole. */
  const tiles = (sets: number, longest: number | undefined, price?: number): Batch => {
    const [demand] = randomBatch(1).demands;
    const board = {
      species: 'oak',
      thickness: 6,
      outline: box(0, 0, 620, 100),
      defects: [],
      quantity: 1,
      price,
    };
    const rules = { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false } as const;
    const region = { outline: box(0, 0, 95, 45), openings: [] };
    return {
      ...randomBatch(1),
      sets,
      kerf: 1,
      clearance: 0,
      edgeMargin: 2,
      outlineTolerance: 0.01,
      crosscutKerf: 3,
      demands: [{ ...demand, region, veins: [], rules, species: 'oak', thickness: 6, copiesPerSet: 1 }],
      boards: ['A', 'B', 'C'].map((id) => ({ ...board, id })),
      reach: { throat: undefined, longest },
    };
  };

  it('fill all sections of a board before another is opened, whether boards are priced or not', async () => {
    for (const price of [undefined, 20]) {
      const { layout } = await layOut(tiles(12, 205, price), { effort: 0 });
      expect(layout.boards.map(({ placements }) => placements.length)).toEqual([12]);
      expect(verifyLayout(layout).breaches).toEqual([]);
    }
  });

  it('take no more boards in sections than whole, where the lines suit the parts', async () => {
    // By hand: six columns, each a section by itself at worst, take 6 x 99.02 + 5 x 3 = 609 of 620 mm.
    for (const longest of [110, 150, 310]) {
      const { layout } = await layOut(tiles(24, longest), { effort: 0 });
      expect(layout.unplaced).toEqual([]);
      expect(layout.boards, `${longest} mm`).toHaveLength(2);
    }
  });

  it('leave what no part needs in one piece, not a bit at the end of every section', async () => {
    const { layout } = await layOut(tiles(5, 250), { effort: 0 });
    const [{ sections, placements }] = layout.boards;
    const ends = placements.map(({ region }) => boundsOf(region.outline).maxX);
    expect(sections).toHaveLength(3);
    // A margin after the last part, the cross-cut, and then the rest up to the end of the board.
    expect(sections![1].to).toBeCloseTo(Math.max(...ends) + 2.01, 1);
    expect(sections![2]).toMatchObject({ to: 620 });
    expect(sections![2].from).toBeCloseTo(sections![1].to + 3, 3);
  });

  it('are told when a wide board cannot be swung', async () => {
    const batch: Batch = {
      ...randomBatch(1),
      sets: 1,
      demands: [{ ...randomBatch(1).demands[0], species: 'oak', copiesPerSet: 1 }],
      boards: [
        {
          id: 'Wide',
          species: 'oak',
          thickness: 6,
          outline: box(0, 0, 300, 400),
          defects: [],
          quantity: 1,
          price: undefined,
        },
      ],
      reach: { throat: 350, longest: undefined },
    };
    const { layout } = await layOut(batch, { effort: 0 });
    expect(throatIssues(layout, { throat: 350 }, 'mm')).toMatchObject([
      { kind: 'part-beyond-throat', where: { board: 'Wide-1' } },
    ]);
  });

  it('are left out with one note where no throat is stated and the boards are long', async () => {
    const { layout } = await layOut(tiles(13, undefined), { effort: 0 });
    expect(layout.boards).toHaveLength(2);
    expect(throatIssues(layout, {}, 'mm').map(({ kind, severity }) => [kind, severity])).toEqual([
      ['throat-unstated', 'note'],
    ]);
    expect(throatIssues(layout, { longest: 800 }, 'mm')).toEqual([]);
    const short = {
      boards: [
        { ...layout.boards[0], usable: { outline: box(0, 0, 300, 100), openings: [] }, placements: [] },
      ],
    };
    expect(throatIssues(short, {}, 'mm')).toEqual([]);
  });
});

describe('the verifier', () => {
  it('finds a part moved across the line between two sections', async () => {
    const batch: Batch = { ...randomBatch(3), sets: 1, reach: { throat: undefined, longest: 120 } };
    const { layout } = await layOut(batch, { effort: 0 });
    const board = layout.boards.find(({ sections }) => sections !== undefined);
    expect(board).toBeDefined();
    const { minX, maxX } = boundsOf(board!.placements[0].region.outline);
    const middle = (minX + maxX) / 2;
    const sections = [
      { number: 1, from: 0, to: middle },
      { number: 2, from: middle + 3, to: 1000 },
    ];
    const wrong: Layout = {
      ...layout,
      boards: layout.boards.map((one) => (one === board ? { ...one, sections } : one)),
    };
    expect(verifyLayout(wrong).breaches.map(({ kind }) => kind)).toContain('across-sections');
  });
});
