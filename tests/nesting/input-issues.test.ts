import { expect, test } from 'vitest';
import { applyToRegion, rotation } from '../../src/geometry/affine.ts';
import type { Line, Point, Region, Ring } from '../../src/geometry/shapes.ts';
import { FretlayError } from '../../src/issues/fretlay-error.ts';
import type { Batch } from '../../src/model/batch.ts';
import type { LayOutOptions } from '../../src/model/laying-out.ts';
import { inputIssues } from '../../src/nesting/input-issues.ts';
import { layOut } from '../../src/nesting/lay-out.ts';
import { referenceRegion } from '../../src/nesting/verify/reference-geometry.ts';
import { randomBatch } from './random-batch.ts';

/** What `layOut` says of a batch or options as a caller without a compiler may hand them over. */
async function refused(change: object, options: object = {}): Promise<string> {
  const batch = { ...randomBatch(5), ...change } as Batch;
  const error = await layOut(batch, { effort: 0, ...options } as LayOutOptions).catch((thrown) => thrown);
  expect(error).toBeInstanceOf(FretlayError);
  expect(new Set((error as FretlayError).issues.map(({ kind }) => kind))).toEqual(
    new Set(['option-invalid']),
  );
  return (error as FretlayError).message;
}

test.each([
  [
    { effort: -1 },
    'options.effort: this value makes no sense (expected a number from 0 to 1000000, found -1)',
  ],
  [{ effort: Number.NaN }, 'found NaN'],
  [{ effort: Number.POSITIVE_INFINITY }, 'found Infinity'],
  [{ effort: '60' }, 'found "60"'],
  [{ seed: 1.5 }, 'options.seed: this value makes no sense (expected a whole number from 0 to 2147483648'],
  [{ workers: 0 }, 'options.workers'],
])('an option that makes no sense is refused: %o', async (options, told) => {
  const message = await refused({}, options);
  expect(message).toContain(told);
  expect(message).toContain('Leave it out to have the usual one.');
});

test('a number that a batch lacks is named, and not taken for want of room', async () => {
  expect(await refused({ outlineTolerance: undefined })).toBe(
    'batch.outlineTolerance: this field is missing (expected a number from 0 to 50000 mm, found nothing). Give the `tolerance` of the pattern that the outlines are of; 0.01 is usual.',
  );
  const [demand] = randomBatch(5).demands;
  const [board] = randomBatch(5).boards;
  for (const [change, field] of [
    [{ sets: 0.5 }, 'batch.sets'],
    [{ kerf: null }, 'batch.kerf'],
    [{ keep: { length: 0, width: 10 } }, 'batch.keep.length'],
    [{ keep: { length: 100 } }, 'batch.keep.width: this field is missing'],
    [{ demands: [demand, { ...demand, copiesPerSet: '2' }] }, 'batch.demands[1].copiesPerSet'],
    [{ demands: [{ ...demand, rules: undefined }] }, 'batch.demands[0].rules: this field is missing'],
    [
      { boards: [{ ...board, thickness: 0 }] },
      'batch.boards[0].thickness: this value makes no sense (expected a number above 0',
    ],
    [{ boards: undefined }, 'batch.boards: this field is missing'],
    [{ pins: [{ number: 1, x: Number.NaN, y: 0, rotation: 0 }] }, 'batch.pins[0].x'],
    [
      { pins: [{ number: 1, x: 0, y: 0, rotation: 0, turnedOver: 'no' }] },
      'batch.pins[0].turnedOver: this value makes no sense (expected true or false',
    ],
    [{ demands: [] }, 'batch.demands: this value makes no sense (expected a list of one part or more'],
  ] as const)
    expect(await refused(change)).toMatch(new RegExp(`^${field.replace(/[[\]().]/g, '\\$&')}`));
});

test('every fault is told at once', async () => {
  const message = await refused({ kerf: -1, clearance: undefined }, { effort: -1 });
  expect(message.split('\n')).toHaveLength(3);
});

/** The one issue `layOut` has with a batch: its kind and field. */
async function told(change: object, options: object = {}): Promise<string> {
  const batch = { ...randomBatch(5), ...change } as Batch;
  const error = await layOut(batch, { effort: 0, ...options } as LayOutOptions).catch((thrown) => thrown);
  expect(error).toBeInstanceOf(FretlayError);
  const { issues } = error as FretlayError;
  expect(issues).toHaveLength(1);
  return `${issues[0].kind} ${issues[0].where?.field}`;
}

const [demand] = randomBatch(5).demands;
const [board] = randomBatch(5).boards;
const ofPart = (change: object) => ({ demands: [{ ...demand, ...change }] });
const ofBoard = (change: object) => ({ boards: [{ ...board, ...change }] });
const square = (at: number, size: number): Ring => [
  [at, at],
  [at + size, at],
  [at + size, at + size],
  [at, at + size],
];
const bowTie: Ring = [
  [0, 0],
  [40, 40],
  [40, 0],
  [0, 40],
];
const crack: Ring = [
  [0, 30],
  [60, 30],
  [120, 30],
];

test('of two boards with one id none is laid on twice, and parts have names of their own', async () => {
  expect(await told({ boards: [board, { ...board, quantity: 9 }] })).toBe(
    'board-id-repeated batch.boards[1].id',
  );
  expect(await told({ demands: [demand, { ...demand, layer: 'other' }, demand] })).toBe(
    'part-repeated batch.demands[2].part',
  );
});

test.each([
  [
    'two points',
    [
      [0, 0],
      [9, 0],
    ],
    'option-invalid batch.demands[0].region.outline',
  ],
  [
    'no number',
    [
      [0, 0],
      [9, 0],
      [9, Number.NaN],
    ],
    'option-invalid batch.demands[0].region.outline[2]',
  ],
  ['no point', [[0, 0], null, [9, 9]], 'option-invalid batch.demands[0].region.outline[1]'],
  [
    'texts',
    [
      ['0', '0'],
      ['9', '0'],
      ['9', '9'],
    ],
    'option-invalid batch.demands[0].region.outline[0]',
  ],
  ['a bow tie', bowTie, 'outline-invalid batch.demands[0].region'],
  [
    'a spike',
    [
      [0, 0],
      [20, 0],
      [20, 20],
      [50, 20],
      [20, 20],
      [0, 20],
    ],
    'outline-invalid batch.demands[0].region',
  ],
  ['one line', crack, 'outline-invalid batch.demands[0].region'],
])('an outline that is no part is refused: %s', async (_, outline, expected) => {
  expect(await told(ofPart({ region: { outline, openings: [] }, veins: [] }))).toBe(expected);
});

test.each([
  ['outside', [square(50, 10)]],
  ['across the edge', [square(35, 10)]],
  ['the whole part', [square(0, 40)]],
  ['over one another', [square(5, 10), square(10, 10)]],
  ['in one another', [square(5, 20), square(10, 5)]],
])('an opening is a hole inside its part: %s is refused', async (_, openings) => {
  expect(await told(ofPart({ region: { outline: square(0, 40), openings }, veins: [] }))).toBe(
    'outline-invalid batch.demands[0].region',
  );
});

/** An outline of 120 x 80 mm whose first edge goes through more points. */
const edged = (...points: Ring): Ring => [[0, 0], ...points, [120, 0], [120, 80], [0, 80]];

test.each<[string, Ring, Ring[], Point]>([
  ['a curl', edged([60, 0], [60.002, -0.002], [60, -0.002], [60.002, 0]), [], [60.001, -0.001]],
  [
    'a slit whose sides cross',
    edged([50, 0], [50.02, 1], [50, 2], [50.02, 2], [50.02, 1.04], [50.01, 0]),
    [],
    [50.0193, 0.963],
  ],
  [
    'an opening over the edge',
    edged(),
    [
      [
        [20, -0.005],
        [40, 20],
        [20, 20],
      ],
    ],
    [20, 0],
  ],
  ['openings over one another', edged(), [square(20, 20), square(39.995, 25)], [40, 40]],
])(
  'a part that crosses itself by micrometres is refused, with the place: %s',
  (_, outline, openings, [x, y]) => {
    const region = { outline, openings };
    const [issue, ...others] = inputIssues({ ...randomBatch(5), ...ofPart({ region, veins: [] }) }, {});
    expect(others).toEqual([]);
    expect(issue).toMatchObject({ kind: 'outline-invalid', where: { field: 'batch.demands[0].region' } });
    const [foundX, foundY] = issue.where?.at ?? [];
    expect(Math.hypot(foundX! - x, foundY! - y)).toBeLessThan(0.01);
    // Hardly any area comes of it, but the check of a layout takes it for no region, turned as it may lie.
    expect(referenceRegion(applyToRegion(rotation(180), region)).fault).toContain('Self-intersection');
  },
);

test('a part whose pieces hang together by a point is refused, and one around a hole that reaches the edge in a point is not', () => {
  const told = (outline: Ring) =>
    inputIssues({ ...randomBatch(5), ...ofPart({ region: { outline, openings: [] }, veins: [] }) }, {});
  const [issue, ...others] = told([
    [0, 0],
    [20, 20],
    [40, 0],
    [40, 40],
    [20, 20],
    [0, 40],
  ]);
  expect(others).toEqual([]);
  expect(issue.message).toContain('meet at a point');
  expect(told([...square(0, 60), [0, 0], [10, 30], [30, 40], [40, 20]])).toEqual([]);
  // Two openings that meet in two points, around wood that hangs by these; and that meet in one.
  const below = (y: number): Ring => [
    [2, 30],
    [20, y],
    [38, 30],
    [20, y + 8],
  ];
  const region = (y: number): Region => ({ outline: square(0, 60), openings: [below(15), below(y)] });
  expect(inputIssues({ ...randomBatch(5), ...ofPart({ region: region(37), veins: [] }) }, {})).toMatchObject([
    { kind: 'outline-invalid', message: expect.stringContaining('meet at a point') },
  ]);
  expect(referenceRegion(region(37)).fault).toContain('disconnected');
  const once = { outline: square(0, 60), openings: [square(10, 10), square(20, 10)] };
  expect(inputIssues({ ...randomBatch(5), ...ofPart({ region: once, veins: [] }) }, {})).toEqual([]);
});

test('a vein lies in its part: one that leaves it is told with the part', async () => {
  const region = { outline: square(0, 40), openings: [square(10, 10)] };
  const veins: Line[] = [
    // Within, along the outline, and from edge to edge.
    [
      [2, 2],
      [5, 35],
    ],
    [
      [0, 0],
      [0, 40],
    ],
    [
      [25, 0],
      [25, 40],
    ],
    // Out of the part, through its opening, and nowhere near it.
    [
      [30, 30],
      [45, 30],
    ],
    [
      [5, 15],
      [25, 15],
    ],
    [
      [100, 100],
      [120, 100],
    ],
  ];
  const change = ofPart({ region, veins });
  const issues = inputIssues({ ...randomBatch(5), ...change }, {});
  expect(issues.map(({ kind, where }) => [kind, where?.field])).toEqual(
    [3, 4, 5].map((i) => ['outline-invalid', `batch.demands[0].veins[${i}]`]),
  );
  expect(issues[0].where).toMatchObject({ layer: demand.layer, part: demand.part });
});

test('a vein is as far outside its part as may be in a layout, and no farther', () => {
  // By hand: 0.05 mm, as the verifier has it; straight out, aslant past a corner, along the edge.
  const told = (out: number) => {
    const veins: Line[] = [
      [
        [20, 20],
        [20, 40 + out],
      ],
      [
        [20, 20],
        [-out / Math.SQRT2, -out / Math.SQRT2],
      ],
      [
        [5, 40 + out],
        [35, 40 + out],
      ],
    ];
    const region = { outline: square(0, 40), openings: [] };
    return inputIssues({ ...randomBatch(5), ...ofPart({ region, veins }) }, {}).length;
  };
  expect([0.045, 0.0501, 0.09].map(told)).toEqual([0, 3, 3]);
});

test('what the search can use passes: points that come twice, openings that touch in a point', () => {
  const outline: Ring = [...square(0, 40).flatMap((point) => [point, point]), [0, 0]];
  const diamond: Ring = [
    [0, 20],
    [10, 10],
    [20, 20],
    [10, 30],
  ];
  const batch = { ...randomBatch(5), ...ofPart({ region: { outline, openings: [diamond] }, veins: [] }) };
  expect(inputIssues(batch, {})).toEqual([]);
  // A knot may lie over the edge of a board and cross itself: what it covers is covered.
  expect(inputIssues({ ...batch, boards: [{ ...board, defects: [bowTie, square(-5, 10)] }] }, {})).toEqual(
    [],
  );
});

test.each([
  [ofPart({ veins: undefined }), 'option-invalid batch.demands[0].veins'],
  [ofPart({ veins: [[[1, 1]]] }), 'option-invalid batch.demands[0].veins[0]'],
  [ofPart({ part: '' }), 'option-invalid batch.demands[0].part'],
  [ofPart({ layer: 5 }), 'option-invalid batch.demands[0].layer'],
  [ofPart({ rules: { ...demand.rules, grain: 'diagonal' } }), 'option-invalid batch.demands[0].rules.grain'],
  [
    ofPart({ rules: { ...demand.rules, grain: 'across', restEdge: true } }),
    'option-invalid batch.demands[0].rules',
  ],
  [ofPart({ rules: { ...demand.rules, turnOver: 'no' } }), 'option-invalid batch.demands[0].rules.turnOver'],
  [ofPart({ region: undefined }), 'option-invalid batch.demands[0].region'],
  [ofPart({ region: { outline: demand.region.outline } }), 'option-invalid batch.demands[0].region.openings'],
  [{ demands: [null] }, 'option-invalid batch.demands[0]'],
  [{ boards: [undefined] }, 'option-invalid batch.boards[0]'],
  [{ pins: [null] }, 'option-invalid batch.pins[0]'],
  [ofBoard({ id: ' ' }), 'option-invalid batch.boards[0].id'],
  [ofBoard({ outline: bowTie }), 'outline-invalid batch.boards[0].outline'],
  [ofBoard({ defects: undefined }), 'option-invalid batch.boards[0].defects'],
  [ofBoard({ defects: [crack.slice(1)] }), 'option-invalid batch.boards[0].defects[0]'],
  [ofBoard({ defects: [crack] }), 'outline-invalid batch.boards[0].defects[0]'],
  [
    ofBoard({ trim: { topEdge: -20, straightEdge: 'clean', leftEnd: 0, rightEnd: 0 } }),
    'option-invalid batch.boards[0].trim.topEdge',
  ],
  [ofBoard({ strips: 1.5 }), 'option-invalid batch.boards[0].strips'],
  [ofBoard({ takingCost: Number.NaN }), 'option-invalid batch.boards[0].takingCost'],
  [ofBoard({ nominal: -1 }), 'option-invalid batch.boards[0].nominal'],
  [ofBoard({ sheet: 'yes' }), 'option-invalid batch.boards[0].sheet'],
  [{ reach: null }, 'option-invalid batch.reach'],
])('a field of a wrong kind is named: %#', async (change, expected) => {
  expect(await told(change)).toBe(expected);
});

test('options of a wrong kind, no batch and no worker are told, not thrown by the engine', async () => {
  for (const options of [{ onProgress: 'x' }, { startWorker: null }, { signal: {} }])
    expect(await told({}, options)).toBe(`option-invalid options.${Object.keys(options)[0]}`);
  for (const startWorker of [() => null, () => ({})])
    await expect(told({}, { startWorker })).resolves.toBe('search-worker-failed undefined');
  for (const nothing of [null, undefined, [], 'x'])
    await expect(layOut(nothing as never)).rejects.toBeInstanceOf(FretlayError);
  await expect(layOut(randomBatch(5), null as never)).rejects.toBeInstanceOf(FretlayError);
});

test('an outline of thousands of points is checked within milliseconds, and one of deep teeth passes too', () => {
  const around = (points: number, radius: (i: number) => number): Ring =>
    Array.from({ length: points }, (_, i): Point => {
      const angle = (2 * Math.PI * i) / points;
      return [radius(i) * Math.cos(angle), radius(i) * Math.sin(angle)];
    });
  const issuesWith = (outline: Ring) =>
    inputIssues({ ...randomBatch(5), ...ofPart({ region: { outline, openings: [] }, veins: [] }) }, {});
  const smooth = around(5000, () => 30);
  const before = process.cpuUsage().user;
  expect(issuesWith(smooth)).toEqual([]);
  expect((process.cpuUsage().user - before) / 1000).toBeLessThan(200);
  const jagged = around(1500, (i) => 30 + 5 * Math.sin(1.7 * i));
  expect(issuesWith(jagged)).toEqual([]);
});

test('sets that stay together have one stack for all parts of a layer and wood', async () => {
  const [demand] = randomBatch(5).demands;
  const demands = (layer: string, stack?: number) => [
    { ...demand, part: 'a', layer: 'L', stack: 1 },
    { ...demand, part: 'b', layer, stack },
  ];
  expect(await refused({ demands: demands('L', 2), setsTogether: true })).toMatch(
    /^batch\.demands\[1\]\.stack: .* \(expected 1, as for .* layer "L".*found 2\)/,
  );
  for (const change of [
    { demands: demands('L'), setsTogether: true },
    { demands: demands('M', 2), setsTogether: true },
    { demands: demands('L', 2), setsTogether: false },
  ])
    expect(inputIssues({ ...randomBatch(5), ...change }, {})).toEqual([]);
});
