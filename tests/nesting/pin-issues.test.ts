import { describe, expect, it, test } from 'vitest';
import type { Ring } from '../../src/geometry/shapes.ts';
import { FretlayError } from '../../src/issues/fretlay-error.ts';
import type { Batch, Demand, Pin, PlacingRules } from '../../src/model/batch.ts';
import type { Board } from '../../src/model/stock.ts';
import { layOut } from '../../src/nesting/lay-out.ts';
import { pinIssues } from '../../src/nesting/pin-issues.ts';
import { verifyLayout } from '../../src/nesting/verify.ts';

const box = (x: number, y: number, width: number, height: number): Ring => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
];
const rules: PlacingRules = { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false };
const slat: Demand = {
  part: 'slat',
  layer: 'L',
  region: { outline: box(0, 0, 100, 40), openings: [] },
  veins: [],
  copiesPerSet: 1,
  species: 'oak',
  thickness: 19,
  rules,
};
const plank: Board = {
  id: 'A',
  species: 'oak',
  thickness: 19,
  outline: box(0, 0, 400, 100),
  defects: [],
  quantity: 2,
  price: undefined,
};
const pin: Pin = {
  layer: 'L',
  part: 'slat',
  board: 'A',
  number: 1,
  x: 3,
  y: 3,
  rotation: 0,
  turnedOver: false,
};
const plain: Batch = {
  sets: 4,
  demands: [slat],
  boards: [plank],
  kerf: 1,
  clearance: 1,
  edgeMargin: 3,
  thicknessTolerance: 0.5,
  outlineTolerance: 0.01,
};
const onBothEdges: Partial<Batch> = {
  demands: [{ ...slat, rules: { ...rules, restEdge: true } }],
  boards: [{ ...plank, straightTopEdge: true }],
};
const told = (pins: readonly Partial<Pin>[], change: Partial<Batch> = {}) =>
  pinIssues(
    { ...plain, ...change, pins: pins.map((each) => ({ ...pin, ...each })) },
    { field: 'batch.pins' },
  );
const withRules = (change: Partial<PlacingRules>) => ({
  demands: [{ ...slat, rules: { ...rules, ...change } }],
});
const elm: Board = { ...plank, id: 'elm', species: 'elm' };
const thin: Board = { ...plank, id: 'thin', thickness: 12 };
const ply: Board = { ...plank, id: 'ply', thickness: 22, sheet: true };
const knot: Board = { ...plank, defects: [box(200, 40, 20, 20)] };

describe('pinIssues', () => {
  it('tells how a part may be pinned head down that stands on its rest edge', () => {
    const headDown = [{ x: 103, y: 43, rotation: 180 }];
    expect(told(headDown, withRules({ restEdge: true }))[0].remedy).toContain('"straightTopEdge"');
    expect(told([{ rotation: 90 }], withRules({ restEdge: true }))[0].remedy).toBeUndefined();
    const { message, remedy } = told(headDown, onBothEdges)[0];
    expect(message).toBe('head down the part has to stand on the top edge of the board');
    expect(remedy).toBeUndefined();
  });

  it.each([
    ['names no part', [{ part: 'x' }], {}, '[0].part'],
    ['names no board', [{ board: 'x' }], {}, '[0].board'],
    ['is on a board that is not there', [{ number: 3 }], {}, '[0].number'],
    ['is one copy too many', [{}, { x: 150 }], { sets: 1 }, '[1].part'],
    ['is on other wood', [{ board: 'elm' }], { boards: [plank, elm] }, '[0].board'],
    ['is on wood too thin', [{ board: 'thin' }], { boards: [plank, thin] }, '[0].board'],
    // A thicker board would be planed; a sheet is not, and the pin would be dropped without a word.
    ['is on a sheet too thick', [{ board: 'ply' }], { boards: [plank, ply] }, '[0].board'],
    ['is turned over', [{ x: 103, turnedOver: true }], {}, '[0].turnedOver'],
    ['is turned off the grain', [{ x: 100, rotation: 3 }], withRules({ grainTolerance: 2 }), '[0].rotation'],
    [
      'is tipped off its rest edge',
      [{ x: 103, y: 100, rotation: 180 }],
      withRules({ restEdge: true }),
      '[0].rotation',
    ],
    ['hangs above the straight edge', [{ y: 59 }], withRules({ restEdge: true }), '[0]'],
    ['hangs below the top edge', [{ x: 103, y: 41, rotation: 180 }], onBothEdges, '[0]'],
    [
      'is tipped where both edges are straight',
      [{ x: 103, y: 40, rotation: 90 }],
      onBothEdges,
      '[0].rotation',
    ],
    ['lies off the board', [{ x: -1000 }], {}, '[0]'],
    ['lies nearer to the edge than the margin', [{ x: 2.9 }], {}, '[0]'],
    ['lies on a defect', [{ x: 160, y: 30 }], { boards: [knot] }, '[0]'],
    ['lies nearer to a defect than the margin', [{ x: 97.5, y: 30 }], { boards: [knot] }, '[0]'],
    ['lies on another', [{}, {}], {}, '[1]'],
    ['is nearer to another than kerf and clearance', [{}, { x: 104.9 }], {}, '[1]'],
  ] as const)('refuses a pin that %s', (_, pins, change, field) => {
    expect(told(pins, change)).toMatchObject([
      { kind: 'pin-invalid', severity: 'error', where: { field: `batch.pins${field}` } },
    ]);
  });

  it.each([
    ['at the margins', [{}, { x: 105 }, { number: 2 }], {}],
    ['measured to a hundredth', [{ x: 2.996 }], {}],
    ['beside a defect', [{ x: 97, y: 30 }], { boards: [knot] }],
    ['within the tolerance of the grain', [{ x: 100, y: 10, rotation: 2 }], withRules({ grainTolerance: 2 })],
    ['head down', [{ x: 103, y: 43, rotation: -180 }], {}],
    ['on the straight edge', [{ y: 60 }], withRules({ restEdge: true })],
    ['on the straight edge of two', [{ y: 60 }], onBothEdges],
    ['head down on the top edge', [{ x: 103, y: 40, rotation: 180 }], onBothEdges],
    ['the same from the other side', [{ x: 103, y: 40, rotation: -180 }], onBothEdges],
  ] as const)('lets a pin lie %s', (_, pins, change) => {
    expect(told(pins, change)).toEqual([]);
  });

  it('refuses two pins of different stacks on one board', () => {
    const stacked = { ...slat, part: 'leaf', stack: 2 };
    const pins = [{}, { part: 'leaf', x: 150 }];
    expect(told(pins, { demands: [slat, stacked] })).toMatchObject([
      // A single board makes no stack and may be all there is.
      {
        where: { field: 'batch.pins[1].board' },
        remedy: expect.stringContaining('"stacked" to both or to neither'),
      },
    ]);
  });
});

describe('layOut', () => {
  test('a pin that cannot be honoured is refused before the search', async () => {
    const laying = layOut({ ...plain, pins: [{ ...pin, x: -1000 }] });
    await expect(laying).rejects.toThrow(FretlayError);
  });

  test('a thicker board with a pin is taken beside exact wood, its fellows are not', async () => {
    const thick: Board = { ...plank, id: 'thick', thickness: 22 };
    const short = { ...plank, outline: box(0, 0, 110, 50), quantity: 1 };
    const pins = [{ ...pin, board: 'thick', number: 2 }];
    const { layout } = await layOut({ ...plain, sets: 2, boards: [short, thick], pins }, { effort: 0 });
    expect(layout.unplaced).toEqual([]);
    expect(verifyLayout(layout).breaches).toEqual([]);
    const where = layout.boards.map(({ id, planeTo }) => [id, planeTo]);
    expect(where).toContainEqual(['thick-2', 19]);
    expect(where.map(([id]) => id)).not.toContain('thick-1');
  });

  test('stacks in which pinned copies would lie on top of each other are not made', async () => {
    const stacked = { ...slat, stack: 2 };
    const pins = [pin, { ...pin, number: 2, x: 50 }];
    const { layout } = await layOut({ ...plain, demands: [stacked], pins }, { effort: 0 });
    expect(layout.unplaced).toEqual([]);
    expect(verifyLayout(layout).breaches).toEqual([]);
    expect(layout.boards.map(({ id, copies }) => [id, copies])).toEqual([
      ['A-1', 1],
      ['A-2', 1],
    ]);
  });

  test('a pin on the last of very many boards is honoured', async () => {
    const many = { ...plank, quantity: 100 };
    const { layout } = await layOut(
      { ...plain, boards: [many], pins: [{ ...pin, number: 90 }] },
      { effort: 0 },
    );
    expect(layout.boards.map(({ id }) => id)).toContain('A-90');
  });

  test('cross-cuts keep the margin and their own width from what is pinned', async () => {
    const reach = { throat: undefined, longest: 150 };
    const long = { ...plank, outline: box(0, 0, 600, 100), quantity: 1 };
    for (const x of [53, 99, 147, 493]) {
      const pins = [{ ...pin, x }];
      const { layout } = await layOut({ ...plain, boards: [long], pins, reach }, { effort: 0.2 });
      expect(verifyLayout(layout).breaches, `pinned ${x} mm from the end`).toEqual([]);
      expect(layout.unplaced).toEqual([]);
      expect(layout.boards[0].placements).toContainEqual(expect.objectContaining({ x }));
    }
  });

  test('a pinned copy is of one of the sets that stay together', async () => {
    // A board holds six slats in three columns: sets of four are one set, and the pinned slat at its end is of that.
    const four = { ...slat, copiesPerSet: 4 };
    const short = { ...plank, outline: box(0, 0, 330, 100) };
    const pins = [
      { ...pin, x: 225, y: 50 },
      { ...pin, number: 2, x: 225 },
    ];
    const job = { ...plain, sets: 2, demands: [four], boards: [short], pins, setsTogether: true };
    const { layout, issues } = await layOut(job, { effort: 0 });
    expect([layout.unplaced, issues]).toEqual([[], []]);
    expect(verifyLayout(layout).breaches).toEqual([]);
    const lying = layout.boards.map(({ id, placements }) => [id, placements.some(({ x }) => x === 225)]);
    expect(lying).toEqual([
      ['A-1', true],
      ['A-2', true],
    ]);
  });

  test('a pinned copy around which no whole set fits is named in the reason', async () => {
    // A board of 210 x 100 has room for four slats: none for a set of five, whatever is pinned.
    const five = { ...slat, copiesPerSet: 5 };
    const short = { ...plank, outline: box(0, 0, 210, 100), quantity: 1 };
    const long = { ...plank, id: 'B', quantity: 1 };
    const job = {
      ...plain,
      sets: 2,
      demands: [five],
      boards: [short, long],
      pins: [pin],
      setsTogether: true,
    };
    const { layout, issues } = await layOut(job, { effort: 0 });
    expect(issues.filter(({ kind }) => kind === 'pin-left-out')).toMatchObject([
      { severity: 'warning', where: { layer: 'L', part: 'slat', board: 'A' } },
    ]);
    expect(layout.boards.map(({ id }) => id)).toEqual(['B-1']);
    const why = 'no board has room left for a whole set, nor around what is pinned: "slat" on A-1';
    expect(layout.unplaced.map((copy) => copy.why)).toEqual(Array(5).fill(why));
    // Where the other board has room for all, the warning is all that is told; a copy moved on its own board is wrong.
    const one = { ...job, sets: 1 };
    const elsewhere = await layOut(one, { effort: 0 });
    expect(elsewhere.issues.map(({ kind }) => kind)).toEqual(['pin-left-out']);
    expect(verifyLayout(elsewhere.layout, one).breaches).toEqual([]);
    const moved = { ...one, pins: [{ ...pin, board: 'B', x: pin.x + 1 }] };
    expect(verifyLayout(elsewhere.layout, moved).breaches).toMatchObject([{ kind: 'not-as-batched' }]);
  });

  test('one of two pins on a board that holds one whole set is left out with a warning, and nothing is wrong', async () => {
    // A board of 120 x 90 has room for one bank of 90 x 50, not for two.
    const bank = { ...slat, part: 'bank', region: { outline: box(0, 0, 90, 50), openings: [] } };
    const square = { ...plank, outline: box(0, 0, 120, 90), quantity: 2 };
    const short = { ...slat, region: { outline: box(0, 0, 40, 20), openings: [] } };
    const pins = [10, 60].map((x) => ({ ...pin, x, y: 10 }));
    const job = { ...plain, sets: 2, demands: [short, bank], boards: [square], pins, setsTogether: true };
    const { layout, issues } = await layOut(job, { effort: 0 });
    expect(issues.map(({ kind, message }) => [kind, message.slice(0, 5)])).toEqual([
      ['pin-left-out', 'pin 2'],
    ]);
    expect(layout.unplaced).toEqual([]);
    expect(verifyLayout(layout, job).breaches).toEqual([]);
    const moved = { ...job, pins: [{ ...pins[0], x: 11 }, pins[1]] };
    expect(verifyLayout(layout, moved).breaches.map(({ kind }) => kind)).toContain('not-as-batched');
  });
});
