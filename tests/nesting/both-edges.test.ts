import { describe, expect, it } from 'vitest';
import { boundsOf, type Ring } from '../../src/geometry/shapes.ts';
import type { Batch, Demand } from '../../src/model/batch.ts';
import type { Board } from '../../src/model/stock.ts';
import { layOut } from '../../src/nesting/lay-out.ts';
import { Random } from '../../src/nesting/running/random.ts';
import { verifyLayout } from '../../src/nesting/verify.ts';
import { withRemains } from '../../src/stock/with-offcuts.ts';

/** Parts that stand head to foot on both edges of boards that are straight above too. */

const rules = { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: true } as const;
const noTrim = { topEdge: 0, straightEdge: 0, leftEnd: 0, rightEnd: 0 };

function demand(part: string, outline: Ring, change: Partial<Demand> = {}): Demand {
  const region = { outline, openings: [] };
  return {
    ...{ part, layer: 'Shore', region, veins: [], copiesPerSet: 1, species: 'oak', thickness: 19, rules },
    ...change,
  };
}

const box = (length: number, width: number): Ring => [
  [0, 0],
  [length, 0],
  [length, width],
  [0, width],
];

function board(outline: Ring, change: Partial<Board> = {}): Board {
  return {
    ...{ id: 'B', species: 'oak', thickness: 19, outline, defects: [], quantity: 4, price: 10 },
    ...change,
  };
}

function batch(demands: Demand[], boards: Board[], change: Partial<Batch> = {}): Batch {
  const gaps = { kerf: 1, clearance: 1, edgeMargin: 5, thicknessTolerance: 0.5, outlineTolerance: 0.01 };
  return { sets: 24, demands, boards, ...gaps, ...change };
}

/** A fir: 60 mm wide at its foot, 20 mm at its head, 60 mm high. */
const fir = demand('fir', [
  [20, 0],
  [40, 0],
  [60, 60],
  [0, 60],
]);

describe('standing on both edges', () => {
  it('lays firs head to foot as near as their sides allow', async () => {
    // Sides 2 mm apart, that of one 10 mm lower than that of the next: by the slope of 1 in 3 of the sides, and Pythagoras.
    const pitch = 40 - 10 / 3 + 2.02 * Math.hypot(1, 1 / 3);
    const room = 600 - 2 * 5.01;
    const asMany = 1 + Math.floor((room - 60) / pitch);
    const asked = batch([fir], [board(box(600, 70), { straightTopEdge: true })]);
    const { layout } = await layOut(asked);
    expect(layout.unplaced).toEqual([]);
    expect(layout.boards.map(({ placements }) => placements.length)).toEqual([asMany, 24 - asMany]);
    const turned = layout.boards[0].placements.map(({ rotation, region }) => {
      const { minY, maxY } = boundsOf(region.outline);
      return [rotation, rotation === 0 ? maxY : minY];
    });
    expect(new Set(turned.map(String))).toEqual(new Set(['0,70', '180,0']));
    expect(verifyLayout(layout, asked).breaches).toEqual([]);
  });

  it.each<[what: string, change: Partial<Board>, stands: boolean]>([
    ['nothing is said of', {}, false],
    ['is said to be straight', { straightTopEdge: true }, true],
    ['is ripped off', { trim: { ...noTrim, topEdge: 10 } }, true],
    [
      'is ripped off and said to be none',
      { trim: { ...noTrim, topEdge: 10 }, straightTopEdge: false },
      false,
    ],
    ['a sheet has', { sheet: true }, true],
    ['was left of a sheet', { sheet: true, keeper: true }, false],
  ])('uses a top edge that %s: %o', async (_, change, stands) => {
    const asked = batch([fir], [board(box(600, 140), change)], { sets: 12 });
    const { layout } = await layOut(asked, { effort: 0.2 });
    const turned = layout.boards.flatMap(({ placements }) => placements.map(({ rotation }) => rotation));
    expect(turned).toHaveLength(12);
    expect(turned.includes(180)).toBe(stands);
    expect(layout.boards[0].straightTopEdge).toBe(stands ? true : undefined);
    expect(verifyLayout(layout, asked).breaches).toEqual([]);
  });

  it.each<[what: string, change: Partial<Board>]>([
    ['a knot or a bad strip takes all of', { defects: [box(620, 12).map(([x, y]) => [x - 10, y - 2])] }],
    ['lies beyond a crack', { defects: [box(620, 4).map(([x, y]) => [x - 10, y + 25])] }],
    [
      'was ripped off within a bad strip',
      { trim: { ...noTrim, topEdge: 2 }, defects: [box(620, 12).map(([x, y]) => [x - 10, y - 2])] },
    ],
  ])('stands nothing on a top edge that %s', async (_, change) => {
    const sheet = board(box(600, 150), { sheet: true, ...change });
    const asked = batch([fir], [sheet], { sets: 12 });
    const { layout } = await layOut(asked, { effort: 0.2 });
    const turned = layout.boards.flatMap(({ placements }) => placements.map(({ rotation }) => rotation));
    expect(turned).toEqual(new Array(12).fill(0));
    expect(layout.boards.map(({ straightTopEdge }) => straightTopEdge)).toEqual([undefined, undefined]);
    // The same is found of a layout that has it otherwise.
    const claimed = { ...layout, boards: layout.boards.map((each) => ({ ...each, straightTopEdge: true })) };
    const told = verifyLayout(claimed, asked).breaches.map(({ where }) => where?.field);
    expect(told).toEqual(['boards[0].straightTopEdge', 'boards[1].straightTopEdge']);
    expect(verifyLayout(layout, asked).breaches).toEqual([]);
    const pin = { layer: 'Shore', part: 'fir', board: 'B', number: 1, x: 300, y: 89, rotation: 180 };
    await expect(layOut({ ...asked, pins: [pin] })).rejects.toThrow(/stand on its rest edge/);
  });

  it.each<[what: string, change: Partial<Board>]>([
    ['a bad strip takes all of', { defects: [box(620, 12).map(([x, y]) => [x - 10, y + 140])] }],
    ['lies beyond a crack', { defects: [box(620, 4).map(([x, y]) => [x - 10, y + 120])] }],
  ])('stands nothing on a straight edge that %s', async (_, change) => {
    const unsound = board(box(600, 150), change);
    const asked = batch([fir], [unsound, board(box(600, 80), { id: 'C' })], { sets: 12 });
    const { layout } = await layOut(asked, { effort: 0.2 });
    expect(layout.unplaced).toEqual([]);
    expect(new Set(layout.boards.map(({ stock }) => stock))).toEqual(new Set(['C']));
    expect(verifyLayout(layout, asked).breaches).toEqual([]);
    // On the defect, as if it were the edge.
    const usable = layout.boards[0].usable;
    const raised = {
      ...layout,
      boards: layout.boards.map((each) => ({ ...each, outline: box(600, 92), usable })),
    };
    expect(new Set(verifyLayout(raised).breaches.map(({ kind }) => kind))).toContain('rest-edge');
    const alone = await layOut({ ...asked, boards: [unsound] }, { effort: 0 });
    expect(alone.layout.unplaced[0].why).toContain(
      'no sound straight edge, for defects run along most of the lower one',
    );
    expect(alone.issues[0].remedy).toContain('as far up as they reach');
    const pin = { layer: 'Shore', part: 'fir', board: 'B', number: 1, x: 300, y: 80, rotation: 0 };
    await expect(layOut({ ...asked, pins: [pin] })).rejects.toThrow(/a defect runs all along that/);
    // Ripped off it is straight again.
    const sound = { ...unsound, trim: { ...noTrim, straightEdge: 34 } };
    const ripped = await layOut({ ...asked, boards: [sound] }, { effort: 0 });
    expect(ripped.layout.unplaced).toEqual([]);
    expect(verifyLayout(ripped.layout).breaches).toEqual([]);
  });

  it('stands parts on an edge that reached farther at an end that is trimmed off', async () => {
    const outline: Ring = [
      [0, 0],
      [600, 0],
      [600, 100],
      [40, 100],
      [40, 110],
      [0, 110],
    ];
    const trim = { ...noTrim, leftEnd: 45 };
    const asked = batch([fir], [board(outline, { trim })], { sets: 6 });
    const { layout } = await layOut(asked, { effort: 0 });
    expect(layout.unplaced).toEqual([]);
    expect(verifyLayout(layout, asked).breaches).toEqual([]);
  });

  it('lays many out over boards of which some are straight above and some are not', async () => {
    const asked = batch(
      [fir],
      [
        board(box(300, 140), { quantity: 1 }),
        board(box(300, 140), { id: 'C', straightTopEdge: true, quantity: 1 }),
      ],
      { sets: 12 },
    );
    const { layout } = await layOut(asked, { effort: 0.2 });
    expect(layout.unplaced).toEqual([]);
    const turned = layout.boards.map(({ stock, placements }) => [
      stock,
      placements.some(({ rotation }) => rotation === 180),
    ]);
    expect(turned.sort()).toEqual([
      ['B', false],
      ['C', true],
    ]);
    expect(verifyLayout(layout, asked).breaches).toEqual([]);
  });

  it('leaves the blade that runs out over the top edge out of the wood it takes', async () => {
    // All hang from the top edge, and what is left is parted off straight: each takes a kerf of 1 mm less than all around it.
    const post = demand('post', box(96, 112));
    const pins = Array.from({ length: 8 }, (_, i) => ({
      ...{ layer: 'Shore', part: 'post', board: 'B', number: 1, x: 106 + 98.1 * i, y: 112, rotation: 180 },
    }));
    const asked = batch([post], [board(box(1200, 300), { straightTopEdge: true })], { sets: 8, pins });
    const { layout } = await layOut(asked, { effort: 0 });
    const remains = withRemains(layout, asked);
    expect(remains.boards[0].offcuts!.flatMap(({ lines }) => lines)).not.toEqual([]);
    expect(verifyLayout(remains, asked).breaches).toEqual([]);
  });

  it('keeps rectangles apart that look the same head down', async () => {
    const post = demand('post', box(60, 60));
    const asked = batch([post], [board(box(600, 130), { straightTopEdge: true, quantity: 1 })], { sets: 18 });
    const { layout } = await layOut(asked);
    expect(layout.figures.completeSets).toBe(18);
    expect(verifyLayout(layout, asked).breaches).toEqual([]);
  });

  it('keeps off the slanting ends, the knots and the saw, over random boards', async () => {
    const random = new Random(41);
    for (let run = 0; run < 12; run++) {
      const [length, width] = [random.between(400, 700), random.between(80, 170)];
      const outline: Ring = [
        [random.between(0, 40), 0],
        [length - random.between(0, 40), 0],
        [length, width],
        [random.between(0, 40), width],
      ];
      const knot = [random.between(60, 360), random.between(0, width)];
      const defect = box(15, 12).map(([x, y]) => [x + knot[0], y + knot[1]] as const);
      const shapes = Array.from({ length: 2 }, (_, i) => {
        const [foot, head, high] = [
          [30, 80],
          [10, 50],
          [20, 70],
        ].map(([a, b]) => random.between(a, b));
        const left = random.between(0, foot);
        return demand(`part ${i}`, [
          [left, 0],
          [left + head, 0],
          [foot, high],
          [0, high],
        ]);
      });
      const free = demand('leaf', box(18, 11), { rules: { ...rules, restEdge: false } });
      const asked = batch(
        [...shapes, free],
        [board(outline, { straightTopEdge: true, defects: [defect] })],
        run % 2 === 0 ? { sets: 6 } : { sets: 6, reach: { throat: 260, longest: undefined } },
      );
      const { layout } = await layOut(asked, { seed: run, effort: 0.1 });
      expect(verifyLayout(layout, asked).breaches).toEqual([]);
      expect(layout.unplaced).toEqual([]);
      const turned = layout.boards.flatMap(({ placements }) => placements.map(({ rotation }) => rotation));
      expect(turned).toContain(180);
    }
  }, 60_000);
});
