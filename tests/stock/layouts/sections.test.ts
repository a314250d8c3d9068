import { describe, expect, it } from 'vitest';
import { boundsOf } from '../../../src/geometry/shapes.ts';
import { throatIssues } from '../../../src/job/throat-issues.ts';
import type { Batch } from '../../../src/model/batch.ts';
import type { Layout } from '../../../src/model/layout.ts';
import type { Board } from '../../../src/model/stock.ts';
import { layOut } from '../../../src/nesting/lay-out.ts';
import { verifyLayout } from '../../../src/nesting/verify.ts';
import { randomBatch } from '../../nesting/random-batch.ts';
import { box } from '../../rectangle.ts';

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
    const remedy = (change: Partial<Board>, pins: Batch['pins'] = []) =>
      throatIssues(layout, { throat: 350 }, 'mm', { boards: [{ ...batch.boards[0], ...change }], pins })[0]
        .remedy;
    const pin = {
      part: 'p',
      layer: 'l',
      board: 'Wide',
      number: 1,
      x: 0,
      y: 0,
      rotation: 0,
      turnedOver: false,
    };
    expect(remedy({})).toContain('Say "strips" of the board');
    expect(remedy({ defects: [box(0, 0, 9, 9)] })).toContain('not ripped because it has defects');
    expect(remedy({ trim: { topEdge: 5, straightEdge: 0, leftEnd: 0, rightEnd: 0 } })).toContain(
      'because it has a trim',
    );
    expect(
      remedy({
        outline: [
          [0, 0],
          [300, 0],
          [280, 400],
          [0, 400],
        ],
      }),
    ).toContain('no rectangle: mark strips');
    expect(remedy({}, [pin])).toContain('because it has pinned parts');
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
