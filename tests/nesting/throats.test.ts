import { expect, test } from 'vitest';
import { boundsOf, type Ring } from '../../src/geometry/shapes.ts';
import type { Batch, Demand } from '../../src/model/batch.ts';
import type { LayOutProgress } from '../../src/model/laying-out.ts';
import { layOut } from '../../src/nesting/lay-out.ts';
import { verifyLayout } from '../../src/nesting/verify.ts';
import { rectangle } from '../rectangle.ts';
import { PLAIN_GAPS, plainBoard, plainDemand, soundLayout } from './plain-batch.ts';

/** Length, width and price of boards as they lie in a rack. */
const BOARDS = [
  [1206, 181, 41.5],
  [971, 213, 39],
  [1549, 159, 46.5],
  [756, 232, 33],
  [756, 232, 33],
];

function part(name: string, outline: Ring): Demand {
  return {
    part: name,
    layer: 'Shore',
    region: { outline, openings: [] },
    veins: [],
    copiesPerSet: 1,
    species: 'walnut',
    thickness: 19,
    rules: { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false },
  };
}

/** A hill and a bank, both so long that it matters where the boards are cut. */
function shore(sets: number, throat: number): Batch {
  return {
    sets,
    demands: [
      part('hill', [
        [0, 86],
        [60, 30],
        [140, 0],
        [200, 40],
        [278, 86],
      ]),
      part('bank', [
        [0, 68],
        [30, 20],
        [140, 0],
        [250, 30],
        [280, 68],
      ]),
    ],
    boards: BOARDS.map(([length, width, price], i) => ({
      id: `${i}`,
      species: 'walnut',
      thickness: 19,
      outline: rectangle(length, width),
      defects: [],
      quantity: 1,
      price,
    })),
    kerf: 1,
    clearance: 0,
    edgeMargin: 3,
    thicknessTolerance: 0.5,
    outlineTolerance: 0,
    reach: { throat, longest: undefined },
  };
}

test('a deeper throat costs no more boards than the usual shallower ones', async () => {
  const costs: number[] = [];
  for (const throat of [16, 20, 24].map((inches) => 25.4 * inches)) {
    const { layout } = await layOut(shore(6, throat), { effort: 0 });
    expect(layout.unplaced).toEqual([]);
    expect(verifyLayout(layout).breaches).toEqual([]);
    // Whatever parting it came from, every section that is sawn turns in the throat of this saw.
    for (const { sections = [], usable, placements } of layout.boards) {
      const [, , [, width]] = usable.outline;
      const isSawn = ({ from, to }: { from: number; to: number }) =>
        placements.some(({ region }) => region.outline.every(([x]) => x > from && x < to));
      for (const { from, to } of sections.filter(isSawn))
        expect(Math.hypot(to - from, width)).toBeLessThanOrEqual(throat + 1e-3);
    }
    costs.push(layout.boards.reduce((sum, { stock }) => sum + BOARDS[Number(stock)][2], 0));
  }
  // If only its own partings were tried, 24 in would take boards for 72, 20 in those for 66.
  expect([...costs].sort((a, b) => b - a)).toEqual(costs);
});

test('parts that fit a board and none of its sections are told what helps', async () => {
  // A board of 232 mm turns in a throat of 300 mm in sections of 190 mm: more such boards would not hold the hill.
  const { issues } = await layOut({ ...shore(1, 300), boards: shore(1, 300).boards.slice(3) }, { effort: 0 });
  const unplaced = issues.filter(({ kind }) => kind === 'copies-unplaced');
  expect(unplaced.map(({ where }) => where?.part)).toEqual(['hill', 'bank']);
  for (const { message, remedy } of unplaced) {
    expect(message).toContain('larger than every section');
    expect(remedy).toContain('Say "strips" of the board');
  }
});

test('a part that no strip would let turn is not told to be helped by strips', async () => {
  const told = async (width: number, height: number, throat: number, longest?: number) => {
    const batch = {
      ...shore(1, throat),
      demands: [part('canoe', rectangle(width, height))],
      reach: { throat, longest },
    };
    const { issues } = await layOut({ ...batch, boards: batch.boards.slice(3) }, { effort: 0 });
    return issues.flatMap(({ kind, message, remedy }) =>
      kind === 'copies-unplaced' ? [[message, remedy]] : [],
    );
  };
  const turns = [[expect.not.stringContaining('itself'), expect.stringContaining('Say "strips"')]];
  const never = [
    [expect.stringContaining('and itself too long to be swung'), expect.stringContaining('"pinned"')],
  ];
  // Their diagonals are 298.3 and 302.3 mm.
  expect(await told(296, 37, 300)).toEqual(turns);
  expect(await told(300, 37, 300)).toEqual(never);
  expect(await told(300, 37, 320)).toEqual(turns);
  expect(await told(300, 37, 320, 290)).toEqual(never);
  expect((await told(300, 37, 320, 290))[0][1]).not.toContain('strips');
});

test('an edge margin that leaves no room in sections is named, not the throat alone', async () => {
  // Sections of a board of 181 mm are 173 mm long: 113 mm of them without 30 mm at either end.
  const batch = { ...shore(1, 250), demands: [part('bar', rectangle(140, 20))], edgeMargin: 30 };
  const told = async (edgeMargin: number) => {
    const { issues } = await layOut(
      { ...batch, boards: batch.boards.slice(0, 1), edgeMargin },
      { effort: 0 },
    );
    return issues.filter(({ kind }) => kind === 'copies-unplaced').map(({ remedy }) => remedy);
  };
  expect(await told(3)).toEqual([]);
  expect(await told(30)).toEqual([
    expect.stringMatching(/^Lower "edgeMargin": without it there is room. Else say "strips"/),
  ]);
});

test('long sections are searched too where quick layouts prefer single rows', async () => {
  // Staggered head to foot two ridges fill a section of 375 mm, which a quick layout does not find: it fills 304 mm by one.
  const ridge: Ring = [
    [0, 0],
    [0, 40],
    [15, 58],
    [35, 70],
    [55, 71],
    [75, 59],
    [90, 57],
    [110, 64],
    [128, 76],
    [145, 86],
    [160, 90],
    [180, 83],
    [200, 68],
    [217, 58],
    [232, 54],
    [255, 56],
    [285, 56],
    [297, 48],
    [300, 40],
    [300, 0],
  ];
  const batch: Batch = {
    ...PLAIN_GAPS,
    sets: 4,
    demands: [plainDemand('ridge', ridge)],
    boards: [plainBoard('A', 900, 155)],
    reach: { throat: 406, longest: undefined },
  };
  const [{ placements }] = (await soundLayout(batch, 4)).boards;
  expect(placements).toHaveLength(4);
});

test('parts stand on the straight edge of sections of a board whose width in 64ths of an inch is on no grid', async () => {
  // 3-3/64 in: sections are clipped to 77.3906 mm.
  const width = 77.390625;
  const rules = { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: true } as const;
  const bank = plainDemand('bank', rectangle(60, 20), { rules });
  const layout = await soundLayout({
    ...PLAIN_GAPS,
    sets: 4,
    demands: [bank],
    boards: [plainBoard('shelf', 300, width)],
    reach: { throat: 200, longest: undefined },
  });
  expect(layout.unplaced).toEqual([]);
  const bottoms = layout.boards[0].placements.map(({ region }) => boundsOf(region.outline).maxY);
  for (const bottom of bottoms) expect(bottom).toBeCloseTo(width, 3);
});

test('of sets that stay together the layout on one parting is told while the next parting is searched', async () => {
  const flag: Ring = [
    [0, 0],
    [40, 0],
    [28, 18],
    [40, 30],
    [0, 30],
  ];
  const rules = { grain: 'free', grainTolerance: 0, turnOver: false, restEdge: false } as const;
  // The first layout takes the dear board, the search on the first parting the cheap one.
  const batch: Batch = {
    ...PLAIN_GAPS,
    sets: 3,
    setsTogether: true,
    demands: [plainDemand('flag', flag, { copiesPerSet: 2, rules })],
    boards: [plainBoard('dear', 300, 120, { price: 50 }), plainBoard('cheap', 186, 68, { price: 10 })],
    reach: { throat: 130, longest: undefined },
  };
  const told: string[] = [];
  const onProgress = ({ best }: LayOutProgress) => told.push(best.boards.map(({ stock }) => stock).join());
  await layOut(batch, { effort: 0.04, onProgress });
  expect(told).toContain('dear');
  expect(told.at(-1)).toBe('cheap');
});

test('a board that need not be cut is cut through nothing that is pinned to it, also where another is for a shallower throat', async () => {
  const along = { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false } as const;
  const fish: Ring = [
    [0, 0],
    [85, 8],
    [68, 27],
    [17, 24],
  ];
  const waney: Ring = [
    [0, 23],
    [179, 0],
    [598, 11],
    [568, 114],
    [0, 114],
  ];
  // A throat of 16 in would have the second board cut in two, through the pinned part.
  const batch: Batch = {
    ...PLAIN_GAPS,
    edgeMargin: 1,
    sets: 3,
    demands: [
      plainDemand('log', rectangle(49, 26), { copiesPerSet: 2, rules: along }),
      plainDemand('fish', fish, { rules: along }),
      plainDemand('stone', rectangle(51, 44), {
        copiesPerSet: 2,
        rules: { ...along, grain: 'free', turnOver: true },
      }),
    ],
    boards: [
      { ...plainBoard('waney', 598, 114, { price: 21 }), outline: waney },
      plainBoard('plain', 393, 173),
    ],
    reach: { throat: 520, longest: undefined },
    pins: [{ layer: 'L', part: 'stone', board: 'plain', number: 1, x: 234, y: 90, rotation: 90 }],
  };
  const layout = await soundLayout(batch);
  expect(layout.unplaced).toEqual([]);
  expect(verifyLayout(layout, batch).breaches).toEqual([]);
});
