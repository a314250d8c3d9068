import { inspect } from 'node:util';
import { describe, expect, it } from 'vitest';
import type { Line, Region, Ring } from '../../src/geometry/shapes.ts';
import { FretlayError } from '../../src/issues/fretlay-error.ts';
import type { LaidBoard, Layout, Placement } from '../../src/model/layout.ts';
import { referenceRegion, sawnAreas } from '../../src/nesting/verify/reference-geometry.ts';
import { verifyLayout } from '../../src/nesting/verify.ts';

const square = (x: number, y: number, side: number): Ring => [
  [x, y],
  [x + side, y],
  [x + side, y + side],
  [x, y + side],
];

/** Perimeter of an upright square. */
const edgeLength = (ring: Ring) => (ring.length === 4 ? 4 * Math.abs(ring[1][0] - ring[0][0]) : 0);

const placed = (part: string, set: number, x: number, y: number, side: number, hole = 0): Placement => ({
  part,
  layer: 'L',
  set,
  x,
  y,
  rotation: 0,
  turnedOver: false,
  region: {
    outline: square(x, y, side),
    openings: hole > 0 ? [square(x + (side - hole) / 2, y + (side - hole) / 2, hole)] : [],
  },
  veins: [],
});

/** A 200 x 100 board, kerf 1, margin 3, with a frame of 60 (opening 40) in each of two sets and a small square in each. */
function layoutOf(placements: Placement[], change: Partial<Layout> = {}): Layout {
  const partArea = placements.reduce(
    (sum, { part }) => sum + (part === 'frame' ? 60 * 60 - 40 * 40 : part === 'small' ? 100 : 0),
    0,
  );
  const rule = { copiesPerSet: 1, grain: 'along', grainTolerance: 0, turnOver: false } as const;
  const totals = {
    boards: 1,
    parts: placements.length,
    partArea,
    boardArea: 20_000,
    yield: partArea / 20_000,
    boardFeet: 0,
    cutLength: placements.reduce(
      (sum, { region }) =>
        sum + edgeLength(region.outline) + region.openings.reduce((all, ring) => all + edgeLength(ring), 0),
      0,
    ),
    openings: placements.reduce((sum, { region }) => sum + region.openings.length, 0),
  };
  return {
    format: 'fretlay-layout',
    version: 1,
    unit: 'mm',
    kerf: 1,
    clearance: 0,
    edgeMargin: 3,
    sets: 2,
    setContents: [
      { part: 'frame', layer: 'L', ...rule },
      { part: 'small', layer: 'L', ...rule },
    ],
    boards: [
      {
        id: 'B-1',
        stock: 'B',
        species: 'oak',
        thickness: 19,
        copies: 1,
        usable: {
          outline: [
            [0, 0],
            [200, 0],
            [200, 100],
            [0, 100],
          ],
          openings: [],
        },
        placements,
      },
    ],
    unplaced: [],
    figures: { ...totals, completeSets: 2, bySpecies: { oak: totals } },
    ...change,
  };
}

const GOOD = [
  placed('frame', 1, 3, 3, 60, 40),
  placed('frame', 2, 64, 3, 60, 40),
  placed('small', 1, 20, 20, 10),
  placed('small', 2, 130, 3, 10),
];
const kinds = (layout: Layout) => verifyLayout(layout).breaches.map(({ kind }) => kind);

/** The upper right of the board, freed by two cuts of 2 mm, and where the rest goes. */
const REMAINS = {
  offcuts: [
    {
      id: 'B-1 keeper 1',
      region: { outline: square(150, 0, 50), openings: [] },
      rectangle: { minX: 150, minY: 0, maxX: 200, maxY: 50 },
      area: 2500,
      lines: [
        [
          [149, 0],
          [149, 100],
        ],
        [
          [150, 51],
          [200, 51],
        ],
      ] as Line[],
    },
  ],
  areas: {
    board: 20_000,
    trims: 0,
    defects: 0,
    parts: 4200,
    openings: 2745,
    kerf: 1124,
    keepers: 2500,
    scrap: 9431,
  },
};

/** A layout with every field that the verifier reads, and a copy that found no place. */
function fullLayout(): Layout {
  const layout = layoutOf(GOOD, { setsTogether: true });
  const small = { outline: square(0, 0, 10), openings: [] };
  const frame = { outline: square(0, 0, 60), openings: [square(10, 10, 40)] };
  const [one, other] = layout.setContents;
  const section = { number: 1, from: 0, to: 200 };
  const trimmed = { topEdge: 0, straightEdge: 0, leftEnd: 0, rightEnd: 0 };
  const cut = { trimmed, pieces: ['B-1'], planeTo: 18, slices: 1, strips: 1, sections: [section] };
  const { usable } = layout.boards[0];
  return {
    ...layout,
    setContents: [
      { ...one, restEdge: false, region: frame },
      { ...other, restEdge: false, region: small },
    ],
    boards: [{ ...layout.boards[0], ...cut, outline: usable.outline, ...REMAINS }],
    sets: 3,
    unplaced: [
      { part: 'small', layer: 'L', set: 3, why: 'no room' },
      { part: 'frame', layer: 'L', set: 3, why: 'no room' },
    ],
  };
}

type Way = readonly (string | number)[];

/** The ways to every value in some data, the inner ones too; of a list to its first. */
function fieldsOf(data: unknown, way: Way = []): Way[] {
  if (typeof data !== 'object' || data === null) return [way];
  const names = Array.isArray(data) ? [...data.keys()].slice(0, 1) : Object.keys(data);
  return [
    ...(way.length > 0 ? [way] : []),
    ...names.flatMap((name) => fieldsOf((data as Record<string, unknown>)[name], [...way, name])),
  ];
}

function changed(layout: Layout, way: Way, value: unknown): Layout {
  const copy = structuredClone(layout);
  const last = way.slice(0, -1).reduce((inner, name) => inner[name as never] as never, copy) as object;
  Object.assign(last, { [way.at(-1)!]: value });
  return copy;
}

/** False for a breach and for a typed error; an error of the language comes through. */
function passes(layout: Layout): boolean {
  try {
    return verifyLayout(layout).ok;
  } catch (error) {
    if (error instanceof FretlayError) return false;
    throw error;
  }
}

/** What the check of a layout has nothing to say about: a field that may be left out, a name, board feet. */
function isFine(way: Way, value: unknown): boolean {
  const name = way.at(-1)!;
  const optional =
    'setsTogether restEdge region trimmed pieces planeTo slices strips sections outline offcuts areas'.split(
      ' ',
    );
  // A shape of its own may be left out by a kind of part, but not by a copy or a keeper.
  const isOwn = way.includes('region')
    ? way.at(-1) === 'region' && way[0] === 'setContents'
    : !way.includes('usable');
  if (value === undefined && optional.includes(`${name}`)) return isOwn;
  if (typeof value === 'string') return ['id', 'stock', 'why'].includes(`${name}`) || way.at(-2) === 'pieces';
  // A list of none: of knots, of veins, of sections that it is not cut to.
  return Array.isArray(value) && ['veins', 'sections', 'openings', 'pieces', 'lines'].includes(`${name}`);
}

describe('verifyLayout', () => {
  it("passes a right layout, with a part inside another part's opening, and gives the least distances", () => {
    const found = verifyLayout(layoutOf(GOOD));
    expect(found.breaches).toEqual([]);
    expect(found.ok).toBe(true);
    expect(found.leastDistance).toBeCloseTo(1, 9);
    expect(found.leastEdgeDistance).toBeCloseTo(3, 9);
    expect(found.pairsMeasured).toBeGreaterThan(1);
  });

  it('finds parts closer than the kerf, by how much and where', () => {
    const near = [...GOOD.slice(0, 1), placed('frame', 2, 63.9, 3, 60, 40), ...GOOD.slice(2)];
    const found = verifyLayout(layoutOf(near));
    expect(found.breaches.map(({ kind }) => kind)).toEqual(['parts-too-close']);
    expect(found.leastDistance).toBeCloseTo(0.9, 9);
    expect(found.breaches[0].where?.at?.[0]).toBeGreaterThan(62);
    // The sum that the language has as 3.3000000000000003 is told as a person would.
    const { breaches } = verifyLayout(layoutOf(near, { kerf: 1.1, clearance: 2.2 }));
    expect(breaches.map(({ expected }) => expected)).toContain('at least 3.3 mm');
  });

  it('finds overlapping parts, also one wholly inside the solid of another', () => {
    expect(
      kinds(layoutOf([...GOOD.slice(0, 1), placed('frame', 2, 50, 3, 60, 40), ...GOOD.slice(2)])),
    ).toEqual(['parts-too-close']);
    const crossing = [...GOOD.slice(0, 2), placed('small', 1, 5, 5, 10), GOOD[3]];
    const found = verifyLayout(layoutOf(crossing));
    expect(found.breaches.map(({ kind }) => kind)).toEqual(['parts-too-close']);
    expect(found.leastDistance).toBeLessThan(0);
  });

  it('finds a tooth beside a long edge in common, where no gap is asked for', () => {
    const strip = (y: number, tooth: Line): Placement => {
      const outline: Ring = [[0, y], [200, y], [200, y + 20], ...tooth, [0, y + 20]];
      return { ...placed('small', 1, 0, y, 0), region: { outline, openings: [] } };
    };
    const toothAt = (y: number): Line => [
      [101, y],
      [101, y + 1],
      [100, y + 1],
      [100, y],
    ];
    const found = (placements: Placement[]) => {
      const { breaches, ...least } = verifyLayout(layoutOf(placements, { kerf: 0, edgeMargin: 0 }));
      const [breach] = breaches.filter(({ kind }) => /close|outside/.test(kind));
      return { kind: breach?.kind, ...least };
    };
    // The edges are off one another by less than the grid of the file, as rounding leaves them.
    const hair = 5e-5;
    const beside = [strip(10, []), strip(30 - hair, [])];
    expect(found(beside).kind).toBeUndefined();
    const bitten = found([strip(10, toothAt(30)), beside[1]]);
    expect(bitten.kind).toBe('parts-too-close');
    expect(bitten.leastDistance).toBeLessThan(-0.4);
    expect(found([strip(80 + hair, [])]).kind).toBeUndefined();
    const outside = found([strip(80 + hair, toothAt(100 + hair))]);
    expect(outside.kind).toBe('outside-usable-board');
    expect(outside.leastEdgeDistance).toBeLessThan(-0.4);
  });

  it('finds a part over a knot that lies wholly inside it', () => {
    const { boards } = layoutOf(GOOD);
    const knotted = [{ ...boards[0], usable: { ...boards[0].usable, openings: [square(134.5, 7.5, 1)] } }];
    expect(kinds(layoutOf(GOOD, { boards: knotted }))).toContain('outside-usable-board');
  });

  it('finds a part larger than its board, also when its opening lies on the board', () => {
    const frame = placed('frame', 1, -50, -50, 300, 20);
    const found = kinds(layoutOf([frame, ...GOOD.slice(1)]));
    expect(found).toContain('outside-usable-board');
  });

  it('counts the opening as space only with the same distance to its edge', () => {
    expect(kinds(layoutOf([...GOOD.slice(0, 2), placed('small', 1, 13.5, 20, 10), GOOD[3]]))).toEqual([
      'parts-too-close',
    ]);
  });

  it('finds parts too near the edge, over the edge, and on a defect', () => {
    expect(kinds(layoutOf([...GOOD.slice(0, 3), placed('small', 2, 187.5, 3, 10)]))).toEqual([
      'outside-usable-board',
    ]);
    expect(kinds(layoutOf([...GOOD.slice(0, 3), placed('small', 2, 195, 3, 10)]))).toEqual([
      'outside-usable-board',
    ]);
    const { boards } = layoutOf(GOOD);
    const knotted = [{ ...boards[0], usable: { ...boards[0].usable, openings: [square(133, 5, 2)] } }];
    const found = kinds(layoutOf(GOOD, { boards: knotted }));
    expect(found).toContain('outside-usable-board');
  });

  it('finds a part turned off its grain, turned over, or of no set', () => {
    const turned = { ...GOOD[3], rotation: 90, x: 140, y: 3 };
    expect(kinds(layoutOf([...GOOD.slice(0, 3), turned]))).toContain('grain-rule');
    const { region } = GOOD[3];
    const over = { ...GOOD[3], turnedOver: true, x: 140, region };
    expect(kinds(layoutOf([...GOOD.slice(0, 3), over]))).toContain('turned-over');
    expect(kinds(layoutOf([...GOOD, placed('stranger', 1, 160, 40, 10)]))).toContain('unknown-part');
  });

  it('finds a shape that is not the part moved by its placement', () => {
    expect(kinds(layoutOf([...GOOD.slice(0, 3), placed('small', 2, 130, 3, 11)]))).toContain('shape-changed');
  });

  it('finds missing copies and wrong figures', () => {
    const missing = layoutOf(GOOD.slice(0, 3));
    expect(kinds(missing)).toEqual(['copies-missing', 'figure-wrong']);
    const boastful = layoutOf(GOOD, { figures: { ...layoutOf(GOOD).figures, yield: 0.9 } });
    expect(kinds(boastful)).toEqual(['figure-wrong']);
    const { oak } = layoutOf(GOOD).figures.bySpecies;
    const figures = (bySpecies: Layout['figures']['bySpecies']) =>
      kinds(layoutOf(GOOD, { figures: { ...layoutOf(GOOD).figures, bySpecies } }));
    expect(figures({ Oak: oak })).toEqual([]);
    expect(figures({})).toEqual(['figure-wrong']);
    expect(figures({ Oak: oak, oak })).toEqual(['figure-wrong']);
  });

  it('reports an invalid region instead of measuring it', () => {
    const bowTie = {
      ...GOOD[3],
      region: {
        outline: [
          [130, 3],
          [140, 13],
          [140, 3],
          [130, 13],
        ] as Ring,
        openings: [],
      },
    };
    expect(kinds(layoutOf([...GOOD.slice(0, 3), bowTie]))).toContain('invalid-region');
  });

  it('refuses settings and names that cannot be', () => {
    for (const change of [{ kerf: Number.NaN }, { kerf: -1000 }, { edgeMargin: -1 }, { sets: 1.5 }]) {
      expect(kinds(layoutOf(GOOD, change))).toContain('setting-invalid');
    }
    const { boards, setContents } = layoutOf(GOOD);
    expect(kinds(layoutOf(GOOD, { boards: [boards[0], { ...boards[0], placements: [] }] }))).toContain(
      'setting-invalid',
    );
    expect(kinds(layoutOf(GOOD, { setContents: [...setContents, setContents[0]] }))).toContain(
      'setting-invalid',
    );
    expect(kinds(layoutOf([...GOOD.slice(0, 3), { ...GOOD[3], rotation: Number.NaN }]))).toContain(
      'setting-invalid',
    );
  });

  it('never passes a field without a value that there can be, and never ends in an error of the language', () => {
    const layout = fullLayout();
    expect(verifyLayout(layout).breaches).toEqual([]);
    const passed: string[] = [];
    for (const at of fieldsOf(layout))
      for (const wrong of [
        undefined,
        null,
        Number.NaN,
        Number.POSITIVE_INFINITY,
        1e300,
        -5,
        '',
        '1',
        'x',
        [],
        {},
        Object.create(null),
        Symbol('none'),
        5n,
      ])
        if (passes(changed(layout, at, wrong)) && !isFine(at, wrong))
          passed.push(`${at.join('.')}: ${inspect(wrong)}`);
    expect(passed).toEqual([]);
  });

  it('finds a gap in a list of points', () => {
    const vein = Object.assign(new Array(2), { 1: [5, 5] });
    const gap = changed(fullLayout(), ['boards', 0, 'placements', 0, 'veins'], [vein]);
    expect(() => verifyLayout(gap)).toThrow(FretlayError);
  });

  it('finds a keeper that is no wood left over, and areas that do not make the board', () => {
    const broken = (way: Way, value: unknown) => kinds(changed(fullLayout(), ['boards', 0, ...way], value));
    const [keeper] = REMAINS.offcuts;
    const moved = (x: number, y: number) => ({
      ...keeper,
      region: { outline: square(x, y, 50), openings: [] },
      rectangle: { minX: x, minY: y, maxX: x + 50, maxY: y + 50 },
      lines: [
        ...[x - 1, x + 51].map(
          (at): Line => [
            [at, 0],
            [at, 100],
          ],
        ),
        ...[y - 1, y + 51].map(
          (at): Line => [
            [x, at],
            [x + 50, at],
          ],
        ),
      ].filter((line) => line.every(([x, y]) => x <= 200 && y >= 0)),
    });
    expect(broken(['offcuts', 0], moved(145, 30))).toEqual([]);
    expect(broken(['offcuts', 0], moved(139, 0))).toContain('keeper-not-left');
    // Beyond the board, and so beyond its only section.
    expect(broken(['offcuts', 0], moved(151, 0))).toContain('keeper-not-left');
    // On the parts themselves.
    expect(broken(['offcuts', 0], moved(3, 3))).toContain('keeper-not-left');
    const twice = [keeper, { ...moved(150, 40), id: 'B-1 keeper 2' }];
    expect(broken(['offcuts'], twice)).toContain('keeper-not-left');
    expect(broken(['offcuts', 0, 'rectangle', 'maxX'], 210)).toEqual(['keeper-not-left']);
    expect(broken(['offcuts', 0, 'area'], 2600)).toEqual(['figure-wrong', 'figure-wrong']);
    expect(broken(['areas', 'scrap'], 9432)).toEqual(['figure-wrong']);
    expect(broken(['areas'], { ...REMAINS.areas, kerf: -5, scrap: 10_560 })).toEqual([
      'figure-wrong',
      'figure-wrong',
    ]);
  });

  it('finds a keeper that nothing frees, or that takes wood of the blade, of a straight cut or of a trim', () => {
    const layout = fullLayout();
    const [keeper] = REMAINS.offcuts;
    const whys = (change: object, board: Partial<LaidBoard> = {}) =>
      verifyLayout({
        ...layout,
        boards: [{ ...layout.boards[0], ...board, offcuts: [{ ...keeper, ...change }] }],
      })
        .breaches.filter(({ kind }) => kind === 'keeper-not-left')
        .map(({ message }) => message.replace(/.*keeper 1" /, ''));
    const unfreed = 'is not freed: nothing saws along its edge';
    expect(whys({})).toEqual([]);
    expect(whys({ lines: [] })).toEqual([unfreed]);
    expect(whys({ lines: keeper.lines.slice(1) })).toEqual([unfreed]);
    // Slender wood breaks off, and leaves an edge of no more than 45 mm.
    const broken = (by: number): Ring => [
      [150, 0],
      [200, 0],
      [200, 50],
      [150 + by, 50],
      [150, 50 - by],
    ];
    const rectangle = { minX: 183, minY: 0, maxX: 200, maxY: 50 };
    const corner = (by: number) => whys({ region: { outline: broken(by), openings: [] }, rectangle });
    expect([31, 33].map(corner)).toEqual([[], [unfreed]]);
    const grown: Ring = [
      [149.7, 0],
      [200, 0],
      [200, 50],
      [149.7, 50],
    ];
    expect(whys({ region: { outline: grown, openings: [] } })).toContain(unfreed);
    const sections = [
      { number: 1, from: 0, to: 148 },
      { number: 2, from: 150, to: 200 },
    ];
    expect(whys({ lines: keeper.lines.slice(1) }, { sections })).toEqual([]);
    const low = {
      outline: [
        [150, 0],
        [200, 0],
        [200, 50.3],
        [150, 50.3],
      ],
      openings: [],
    };
    expect(whys({ region: low, lines: keeper.lines.slice(1) }, { sections })).toContain(
      'lies where a straight cut goes',
    );
    // The small part ends at x = 140, and the blade takes 1 mm of what is beside it.
    const beside = (x: number) =>
      whys({
        region: {
          outline: [
            [x, 0],
            [200, 0],
            [200, 50],
            [x, 50],
          ],
          openings: [],
        },
      });
    expect(beside(140.7)).toContain('lies where the blade goes around part "small" of layer "L", set 2');
    const trimmed = {
      usable: {
        outline: [
          [0, 0.3],
          [200, 0.3],
          [200, 100],
          [0, 100],
        ] as Ring,
        openings: [],
      },
    };
    expect(whys({}, trimmed)).toEqual(['is not there: it lies beyond what may be used']);
  });

  it('measures what is trimmed, sawn and falls out of the parts, and board feet', () => {
    const layout = fullLayout();
    const fields = (changes: object) =>
      verifyLayout({
        ...layout,
        boards: [{ ...layout.boards[0], areas: { ...REMAINS.areas, ...changes } }],
      }).breaches.map(({ where }) => where?.field);
    expect(fields({})).toEqual([]);
    expect(fields({ kerf: 700, scrap: 9855 })).toEqual(['areas.kerf']);
    expect(fields({ kerf: 1400, scrap: 9155 })).toEqual(['areas.kerf']);
    expect(fields({ openings: 2600, scrap: 9576 })).toEqual(['areas.openings']);
    expect(fields({ openings: 2900, scrap: 9276 })).toEqual(['areas.openings']);
    const { usable } = layout.boards[0];
    const knot = changed(layout, ['boards', 0, 'usable'], { ...usable, openings: [square(130, 60, 10)] });
    expect(verifyLayout(knot).breaches.map(({ where }) => where?.field)).toContain('areas.defects');
    const trimmed = changed(
      layout,
      ['boards', 0, 'usable', 'outline'],
      [
        [0, 0],
        [200, 0],
        [200, 100],
        [0, 99],
      ],
    );
    expect(verifyLayout(trimmed).breaches.map(({ where }) => where?.field)).toContain('areas.trims');
    // 200 x 100 x 19 mm, or none where the board is a sheet.
    const feet = (boardFeet: number, all = boardFeet) => {
      const { figures } = layout;
      const oak = { ...figures.bySpecies.oak, boardFeet };
      return verifyLayout({
        ...layout,
        figures: { ...figures, boardFeet: all, bySpecies: { oak } },
      }).breaches.map(({ where }) => where?.field);
    };
    const whole = (200 * 100 * 19) / (144 * 25.4 ** 3);
    expect([0, whole].map((each) => feet(each))).toEqual([[], []]);
    expect(feet(whole * 1.01)).toEqual(['figures.bySpecies.oak.boardFeet']);
    expect(feet(whole / 2)).toEqual(['figures.bySpecies.oak.boardFeet']);
    expect(feet(whole, 0)).toEqual(['figures.boardFeet']);
  });

  it('finds a usable board that is more than the board', () => {
    const layout = layoutOf(GOOD);
    const [board] = layout.boards;
    const corner: Ring = [
      [0, 0],
      [200, 0],
      [200, 100],
      [0, 100],
    ];
    const within = (outline: Ring) => kinds(layoutOf(GOOD, { boards: [{ ...board, outline }] }));
    const raised = (by: number) => corner.map(([x, y]) => [x, y === 0 ? by : y] as const);
    expect(within(corner)).toEqual([]);
    expect(within(raised(-5))).toEqual([]);
    expect(within(raised(0.009))).toEqual([]);
    expect(within(raised(0.02))).toEqual(['usable-beyond-board']);
    expect(within(square(0, 0, 100))).toEqual(['usable-beyond-board']);
    // A notch in the lower edge, between two corners that both have.
    expect(within([...corner.slice(0, 3), [102, 100], [100, 90], [98, 100], corner[3]])).toEqual([
      'usable-beyond-board',
    ]);
  });

  it('takes an opening whose corner lies on a slanted outline for valid, and two pieces that meet in a point for none', () => {
    const faults = (outline: Ring, openings: Ring[]) =>
      verifyLayout(
        changed(fullLayout(), ['boards', 0, 'placements', 0, 'region'], { outline, openings }),
      ).breaches.filter(({ kind }) => kind === 'invalid-region').length;
    // The corner is half way between two corners of the outline, and off it by the last digit of its numbers.
    const slanted: Ring = [
      [74.7542, 192.9844],
      [21.2248, 214.1992],
      [0.01, 160.6698],
      [53.5394, 139.455],
    ];
    const touching = (y: number): Ring => [
      [26.6762, 181.0701],
      [47.9895, y],
      [48.088, 172.5842],
    ];
    expect(faults(slanted, [touching(203.5918)])).toBe(0);
    expect(faults(slanted, [touching(203.7)])).toBe(1);
    const joined: Ring = [
      [0, 0],
      [20, 20],
      [40, 0],
      [40, 40],
      [20, 20],
      [0, 40],
    ];
    expect(faults(joined, [])).toBe(1);
  });

  it('takes a keeper whose outline crosses itself by a hair for what it is, and finds it over a part all the same', () => {
    // The part ends at x = 140, the blade at 141. The left side of the keeper runs 2.6 micrometres too far, back, and off at a slant.
    const hair = (left: number): Ring => [
      [left, 0],
      [190, 0],
      [190, 50],
      [left, 50],
      [left, 1.9956],
      [left, 1.9982],
      [left + 0.52, 1.9952],
    ];
    const keeper = (outline: Ring) => ({
      ...REMAINS.offcuts[0],
      region: { outline, openings: [] },
      rectangle: { minX: 150, minY: 10, maxX: 180, maxY: 40 },
      lines: [
        [
          [191, 0],
          [191, 100],
        ],
        [
          [140, 51],
          [190, 51],
        ],
      ] as Line[],
    });
    const broken = (outline: Ring) =>
      kinds(changed(fullLayout(), ['boards', 0, 'offcuts', 0], keeper(outline))).filter(
        (kind) => kind === 'keeper-not-left',
      );
    expect(broken(hair(141))).toEqual([]);
    expect(broken(hair(140.9))).toContain('keeper-not-left');
    // One lobe of an eight runs the other way round: nothing is left out for that.
    const eight: Ring = [
      [139, 45],
      [139, 0],
      [190, 50],
      [190, 5],
    ];
    expect(broken(eight)).not.toEqual([]);
  });

  it('finds a straight cut through a part or through the keeper it frees, a keeper over a knot, and trims too large', () => {
    const broken = (way: Way, value: unknown) => kinds(changed(fullLayout(), ['boards', 0, ...way], value));
    const [first] = REMAINS.offcuts;
    const withCut = (x: number) =>
      broken(
        ['offcuts', 0, 'lines'],
        [
          ...first.lines,
          [
            [x, 0],
            [x, 100],
          ],
        ],
      );
    expect([142, 129].map(withCut)).toEqual([[], []]);
    // A cut of 2 mm takes 1 mm on either side of its middle: of a part beside it too, however far the part runs on past its end.
    expect(withCut(141)).toEqual([]);
    for (const x of [140.9, 140, 129.1]) expect(withCut(x)).toContain('keeper-not-left');
    const beside = (from: number, to: number) =>
      broken(
        ['offcuts', 0, 'lines'],
        [
          ...first.lines,
          [
            [from, 63.5],
            [to, 63.5],
          ],
        ],
      );
    expect(beside(70, 120)).toContain('keeper-not-left');
    expect(beside(126, 149)).toEqual([]);
    // Of the wood of the keeper, and through a part; through the opening of a frame it goes through the frame too.
    for (const x of [149.5, 150.02, 139, 90]) expect(withCut(x)).toContain('keeper-not-left');
    // What a cut for one keeper runs through may be another one.
    const second = (x: number) => ({
      ...first,
      id: 'B-1 keeper 2',
      region: {
        outline: [
          [150, 52],
          [200, 52],
          [200, 100],
          [150, 100],
        ],
        openings: [],
      },
      rectangle: { minX: 150, minY: 52, maxX: 200, maxY: 100 },
      area: 2400,
      lines: [
        ...first.lines,
        [
          [x, 0],
          [x, 50],
        ],
      ] as Line[],
    });
    const throughFirst = (x: number) => broken(['offcuts'], [first, second(x)]).includes('keeper-not-left');
    expect([149, 149.5, 175].map(throughFirst)).toEqual([false, true, true]);
    const sections = (line: number) => [
      { number: 1, from: 0, to: line },
      { number: 2, from: line + 2, to: 200 },
    ];
    expect(broken(['sections'], sections(145))).toEqual([]);
    expect(broken(['sections'], sections(148))).toContain('keeper-not-left');
    expect(broken(['sections'], sections(175))).toContain('keeper-not-left');
    expect(broken(['usable', 'openings'], [square(170, 10, 5)])).toContain('keeper-not-left');
    expect(broken(['areas'], { ...REMAINS.areas, trims: 9, scrap: 9422 })).toEqual(['figure-wrong']);
    const notched: Ring = [
      [0, 0],
      [200, 0],
      [200, 20],
      [190, 21],
      [200, 22],
      [200, 100],
      [0, 100],
    ];
    const layout = changed(fullLayout(), ['boards', 0, 'usable', 'outline'], notched);
    expect(kinds(changed(layout, ['boards', 0, 'outline'], notched))).toContain('keeper-not-left');
  });

  it('finds a keeper that is all knot, with an edge of its own or that of the knot', () => {
    const keeper = {
      ...REMAINS.offcuts[0],
      region: { outline: square(152, 22, 40), openings: [] },
      rectangle: { minX: 152, minY: 22, maxX: 192, maxY: 62 },
      area: 1600,
      lines: [],
    };
    const beside = changed(fullLayout(), ['boards', 0, 'offcuts'], [keeper]);
    const over = (knot: Ring) => changed(beside, ['boards', 0, 'usable', 'openings'], [knot]);
    for (const knot of [square(150, 20, 44), square(152, 22, 40)]) {
      const { breaches } = verifyLayout(over(knot));
      expect(breaches.map(({ message }) => message)).toContain(
        'the keeper "B-1 keeper 1" lies over a defect',
      );
    }
  });

  it('finds the rectangle of a keeper that lies over a knot in it, or over a notch between its corners', () => {
    const [keeper] = REMAINS.offcuts;
    const knot = square(170, 20, 5);
    const notched: Ring = [
      [150, 0],
      [200, 0],
      [200, 50],
      [180, 50],
      [175, 40],
      [170, 50],
      [150, 50],
    ];
    const whole = { minX: 150, minY: 0, maxX: 200, maxY: 50 };
    const found = (region: Region, rectangle: typeof whole) => {
      const layout = changed(fullLayout(), ['boards', 0, 'offcuts', 0], { ...keeper, region, rectangle });
      return verifyLayout(changed(layout, ['boards', 0, 'usable', 'openings'], region.openings))
        .breaches.map(({ message }) => message)
        .filter((message) => /rectangle/.test(message)).length;
    };
    const knotty = { outline: keeper.region.outline, openings: [knot] };
    expect(found(knotty, whole)).toBe(1);
    expect(found(knotty, { ...whole, maxX: 170 })).toBe(0);
    expect(found({ outline: notched, openings: [] }, whole)).toBe(1);
    expect(found({ outline: notched, openings: [] }, { ...whole, maxY: 40 })).toBe(0);
  });

  it('finds sets that do not exist or have too much, and what another set is then short of', () => {
    for (const set of [99, 0, 1])
      expect(kinds(layoutOf([...GOOD.slice(0, 3), { ...GOOD[3], set }]))).toEqual([
        'copies-missing',
        'set-miscounted',
      ]);
  });

  it('finds a copy that is both placed and listed as without a place', () => {
    const unplaced = (set: number) => [{ part: 'small', layer: 'L', set, why: 'no room' }];
    const [found, ...others] = verifyLayout(layoutOf(GOOD, { unplaced: unplaced(2) })).breaches;
    expect(others).toEqual([]);
    expect(found).toMatchObject({
      kind: 'set-miscounted',
      where: { layer: 'L', part: 'small, set 2' },
      received: '1 placed and 1 unplaced in set 2',
    });
    expect(kinds(layoutOf(GOOD, { unplaced: unplaced(3) }))).toEqual(['set-miscounted']);
  });

  it('compares every placement with the part as drawn, when the layout holds it', () => {
    const { setContents } = layoutOf(GOOD);
    const region = { outline: square(0, 0, 60), openings: [square(10, 10, 40)] };
    const contents = [{ ...setContents[0], region }, setContents[1]];
    expect(kinds(layoutOf(GOOD, { setContents: contents }))).toEqual([]);
    const turned = { ...region, outline: square(0, 0, 59) };
    expect(
      kinds(layoutOf(GOOD, { setContents: [{ ...contents[0], region: turned }, setContents[1]] })),
    ).toEqual(['shape-changed', 'shape-changed']);
    const closed = { ...GOOD[1], region: { ...GOOD[1].region, openings: [] } };
    expect(kinds(layoutOf([GOOD[0], closed, ...GOOD.slice(2)]))).toContain('shape-changed');
  });

  it('finds a copy whose veins are not those of the first, moved as it is', () => {
    const vein = (x: number): Line[] => [
      [
        [x, 5],
        [x, 9],
      ],
    ];
    const moved = (other: readonly Line[]) => {
      const [first, second] = [placed('small', 1, 130, 3, 10), placed('small', 2, 150, 3, 10)];
      const copies = [
        { ...first, x: 130, y: 3, veins: vein(132) },
        { ...second, x: 150, y: 3, veins: other },
      ];
      return kinds(layoutOf([...GOOD.slice(0, 2), ...copies])).filter((kind) => kind === 'shape-changed')
        .length;
    };
    expect(moved(vein(152))).toBe(0);
    expect([moved(vein(153)), moved([]), moved([...vein(152), ...vein(155)])]).toEqual([1, 1, 1]);
  });

  it('finds two keepers of one name, boards of one entry that are of two woods, and knots that are left out of what may be used', () => {
    const layout = fullLayout();
    const [board] = layout.boards;
    const [keeper] = REMAINS.offcuts;
    const told = (boards: LaidBoard[]) =>
      verifyLayout({ ...layout, boards })
        .breaches.filter(({ kind }) => kind === 'setting-invalid')
        .map(({ where }) => where?.field ?? where?.board);
    const spare: LaidBoard = { ...board, id: 'B-2', pieces: ['B-2'], placements: [], offcuts: [] };
    expect(told([board, spare])).toEqual([]);
    expect(told([board, { ...spare, species: 'Oak' }])).toEqual([]);
    expect(told([board, { ...spare, species: 'elm' }])).toEqual(['B-2']);
    expect(told([board, { ...spare, thickness: 18.5 }])).toEqual(['B-2']);
    expect(told([board, { ...spare, offcuts: [keeper] }])).toEqual(['boards[1].offcuts[0].id']);
    const knotted = { ...REMAINS.areas, defects: 25, scrap: 9406 };
    const areas = changed(layout, ['boards', 0, 'areas'], knotted);
    expect(kinds(areas)).toEqual(['figure-wrong']);
  });

  it('finds a vein outside its part', () => {
    const stray = {
      ...GOOD[3],
      veins: [
        [
          [131, 4],
          [900, 900],
        ],
      ] as Placement['veins'],
    };
    expect(kinds(layoutOf([...GOOD.slice(0, 3), stray]))).toContain('vein-outside');
    const none = {
      ...GOOD[3],
      veins: [
        [
          [Number.NaN, 4],
          [132, 5],
        ],
      ] as Placement['veins'],
    };
    expect(kinds(layoutOf([...GOOD.slice(0, 3), none]))).toContain('vein-outside');
  });

  it('finds a vein that runs across an opening, though its ends lie in the wood', () => {
    const found = (...vein: Line) => {
      const placements = [{ ...GOOD[0], veins: [vein] }, ...GOOD.slice(1)];
      return verifyLayout(layoutOf(placements)).breaches.filter(({ kind }) => kind === 'vein-outside');
    };
    // The opening of the first frame is from 13 to 53 both ways.
    expect(found([5, 30], [60, 30])).toMatchObject([{ where: { part: 'frame, set 1', at: [33, 30] } }]);
    expect(found([5, 5], [5, 60], [60, 60], [50, 5])).toHaveLength(1);
    // Across a corner of the opening, by more than a hair and by less.
    expect(found([5, 21.2], [21.2, 5])).toHaveLength(1);
    expect(found([5, 21.05], [21.05, 5])).toEqual([]);
    // Along the edges of the opening, the outline and past a corner of both.
    expect(found([13, 13], [53, 13], [53, 53], [13, 53], [13, 13])).toEqual([]);
    expect(found([12.98, 3], [13.02, 63])).toEqual([]);
    expect(found([3, 3], [63, 3], [63, 63], [3, 63], [3, 3])).toEqual([]);
    expect(found([3, 2.9], [63, 2.9])).toHaveLength(1);
    expect(found([5, 5], [5, 5])).toEqual([]);
    expect(found([30, 30], [30, 30])).toHaveLength(1);
  });

  it('wants a part with a rest edge on the straight edge of the board', () => {
    const { setContents } = layoutOf(GOOD);
    const resting = [setContents[0], { ...setContents[1], restEdge: true }];
    const standing = [...GOOD.slice(0, 2), placed('small', 1, 130, 90, 10), placed('small', 2, 150, 90, 10)];
    expect(kinds(layoutOf(standing, { setContents: resting }))).toEqual([]);
    expect(kinds(layoutOf([...standing.slice(0, 3), GOOD[3]], { setContents: resting }))).toEqual([
      'rest-edge',
    ]);
    const lifted = (by: number) => [...standing.slice(0, 3), placed('small', 2, 150, 90 - by, 10)];
    expect(kinds(layoutOf(lifted(0.009), { setContents: resting }))).toEqual([]);
    expect(kinds(layoutOf(lifted(0.012), { setContents: resting }))).toEqual(['rest-edge']);
    // Of a board that was drawn turned, the ends of an edge are level but for the last digit.
    const { boards } = layoutOf(standing);
    const outline = boards[0].usable.outline.map(([x, y]) => [x, x === 0 && y > 0 ? y - 1e-7 : y] as const);
    const nearly = [{ ...boards[0], usable: { outline, openings: [] } }];
    expect(kinds(layoutOf(standing, { setContents: resting, boards: nearly }))).toEqual([]);
    // Sunk below the edge it is over the edge of the board as well.
    expect(kinds(layoutOf(lifted(-0.012), { setContents: resting }))).toContain('rest-edge');
  });

  it('lets it stand head down on the top edge of a board that is straight there too', () => {
    const { setContents, boards } = layoutOf(GOOD);
    const resting = [setContents[0], { ...setContents[1], restEdge: true }];
    const headDown = (y: number): Placement => {
      const lying = placed('small', 2, 150, y, 10);
      const outline = lying.region.outline.map(([u, v]) => [310 - u, 2 * y + 10 - v] as const);
      return { ...lying, x: 160, y: y + 10, rotation: 180, region: { outline, openings: [] } };
    };
    const hanging = (y: number) => [...GOOD.slice(0, 2), placed('small', 1, 130, 90, 10), headDown(y)];
    const found = (y: number, straightTopEdge?: boolean) => {
      const placements = hanging(y);
      const [board] = boards;
      const top = straightTopEdge === undefined ? {} : { straightTopEdge };
      return kinds(
        layoutOf(placements, { setContents: resting, boards: [{ ...board, ...top, placements }] }),
      );
    };
    expect(found(0, true)).toEqual([]);
    expect(found(0.012, true)).toEqual(['rest-edge']);
    expect(found(0)).toContain('rest-edge');
    expect(found(0, false)).toContain('rest-edge');
  });

  it.each([
    // By hand, from its nearer corner to the edge: 2.3 mm and 3.2 mm, for a margin of 3 mm.
    ['narrower below', 220, 180, 167.5, 1],
    ['narrower above', 180, 220, 202.5, 0],
  ])('measures what stands on a board that is %s to its slanting edge', (_, top, bottom, at, near) => {
    const { setContents, boards } = layoutOf(GOOD);
    const placements = [...GOOD.slice(0, 2), placed('small', 1, 130, 90, 10), placed('small', 2, at, 90, 10)];
    const outline: Ring = [
      [0, 0],
      [top, 0],
      [bottom, 100],
      [0, 100],
    ];
    const found = kinds(
      layoutOf(placements, {
        setContents: [setContents[0], { ...setContents[1], restEdge: true }],
        boards: [{ ...boards[0], placements, usable: { outline, openings: [] } }],
      }),
    );
    expect(found.filter((kind) => kind === 'outside-usable-board')).toHaveLength(near);
  });

  it('asks no distance of parts in different sections but that of each to the cut', () => {
    // 0.7 mm from one another, for a kerf of 1 mm.
    const near = [...GOOD.slice(0, 2), placed('small', 1, 129.9, 40, 10), placed('small', 2, 140.6, 40, 10)];
    const sections = [
      { number: 1, from: 0, to: 140 },
      { number: 2, from: 140.5, to: 200 },
    ];
    const whole = layoutOf(near, { edgeMargin: 0 });
    const cut = { ...whole, boards: [{ ...whole.boards[0], sections }] };
    expect(kinds(whole)).toEqual(['parts-too-close']);
    expect(kinds(cut)).toEqual([]);
  });

  it('finds a part across the line between two sections', () => {
    const { boards } = layoutOf(GOOD);
    const sections = (line: number) => [
      { number: 1, from: 0, to: line },
      { number: 2, from: line + 3, to: 200 },
    ];
    const cut = (line: number) => layoutOf(GOOD, { boards: [{ ...boards[0], sections: sections(line) }] });
    expect(kinds(cut(150))).toEqual([]);
    expect(kinds(cut(132))).toEqual(['across-sections']);
  });

  it('finds sections that overlap or leave the board, names for another number of boards, and wood thicker than it is', () => {
    const [first] = layoutOf(GOOD).boards;
    const told = (change: Partial<LaidBoard>) =>
      verifyLayout(layoutOf(GOOD, { boards: [{ ...first, ...change }] }))
        .breaches.filter(({ kind }) => kind === 'setting-invalid')
        .map(({ where }) => where?.field?.replace('boards[0].', ''));
    const cut = (...ends: [from: number, to: number][]) =>
      told({ sections: ends.map(([from, to], i) => ({ number: i + 1, from, to })) });
    const none = { topEdge: 0, straightEdge: 0, leftEnd: 0, rightEnd: 0 };
    const beyond = first.usable.outline.map(([x, y]) => [x < 100 ? x - 12 : x, y] as const);
    const trimmed = (sides: Partial<typeof none>, outline?: Ring) =>
      told({ trimmed: { ...none, ...sides }, ...(outline === undefined ? {} : { outline }) });
    expect(trimmed({ leftEnd: 12 }, beyond)).toEqual([]);
    expect(trimmed({ leftEnd: 13 }, beyond)).toEqual(['trimmed.leftEnd']);
    expect(trimmed({ rightEnd: 1, topEdge: 1, straightEdge: 1 }, beyond)).toHaveLength(3);
    expect(trimmed({ leftEnd: 1 })).toEqual(['trimmed.leftEnd']);
    expect(cut([0, 126], [127, 200])).toEqual([]);
    expect(cut([0, 126], [120, 200])).toEqual(['sections[1].from']);
    expect(cut([127, 200], [0, 126])).toEqual(['sections[1].from']);
    expect(cut([-5, 126], [127, 200])).toEqual(['sections[0].from']);
    expect(cut([0, 126], [127, 5200])).toEqual(['sections[1].to']);
    expect(cut([0, 126], [127, 127])).toEqual(['sections[1].to']);
    expect(told({ pieces: ['B-1'] })).toEqual([]);
    expect(told({ pieces: ['B-1', 'B-2'] })).toEqual(['pieces']);
    expect(told({ pieces: [] })).toEqual(['pieces']);
    expect(told({ pieces: ['B-7'] })).toEqual(['pieces[0]']);
    expect(told({ stock: 'C' })).toEqual(['id']);
    expect(told({ id: 'B-1a' })).toEqual(['id']);
    expect(told({ id: 'B-1', copies: 2, pieces: ['B-1', 'B-x'] })).toEqual(['pieces[1]']);
    expect(told({ id: 'B-1', copies: 2, pieces: ['B-2', 'B-3'] })).toEqual(['pieces[0]']);
    expect(told({ planeTo: 19 })).toEqual([]);
    expect(told({ planeTo: 20 })).toEqual(['planeTo']);
    expect(told({ id: 'B-1a', planeTo: 9, slices: 2 })).toEqual([]);
    expect(told({ id: 'B-1a', planeTo: 10, slices: 2 })).toEqual(['planeTo']);
  });

  it('counts a stack for each of its boards, every copy for as many sets from its own on', () => {
    const layout = layoutOf(GOOD);
    const twice = (totals: Layout['figures']['bySpecies'][string]) => ({
      ...totals,
      boards: 2,
      parts: 2 * totals.parts,
      partArea: 2 * totals.partArea,
      boardArea: 2 * totals.boardArea,
      cutLength: 2 * totals.cutLength,
      openings: 2 * totals.openings,
    });
    const figures = {
      ...twice(layout.figures),
      completeSets: 4,
      bySpecies: { oak: twice(layout.figures.bySpecies.oak) },
    };
    /** Two boards on each other, the second copy of each part of this set on. */
    const stack = (second: number, change: Partial<Layout> = {}) =>
      layoutOf(GOOD, {
        sets: 4,
        figures,
        boards: layout.boards.map((board) => ({
          ...board,
          copies: 2,
          placements: GOOD.map((copy) => ({ ...copy, set: copy.set === 1 ? 1 : second })),
        })),
        ...change,
      });
    expect(kinds(stack(3))).toEqual([]);
    expect(kinds(stack(3, { figures: layout.figures }))).toContain('figure-wrong');
    // Of sets 1 and 2 each twice, and of 3 and 4 none.
    const { breaches } = verifyLayout(stack(1));
    expect(breaches.filter(({ where }) => where?.part?.startsWith('small'))).toMatchObject([
      { kind: 'copies-missing', received: 'fewer in sets 3, 4' },
      { kind: 'set-miscounted', received: '2 placed and 0 unplaced in set 1' },
      { kind: 'set-miscounted', received: '2 placed and 0 unplaced in set 2' },
    ]);
    expect(new Set(kinds(stack(4)))).toEqual(new Set(['copies-missing']));
    // The lowest board of three sets in stacks of two is to spare.
    expect(kinds(stack(3, { sets: 3, figures: { ...figures, completeSets: 3 } }))).toEqual([]);
  });

  it('finds sets taken apart, also in layers that share a board with one another', () => {
    const [first] = layoutOf(GOOD).boards;
    const apart = (...boards: [layer: string, set: number, copies?: number][][]) => {
      const laid = boards.map(
        (copies, i): LaidBoard => ({
          ...first,
          id: `B-${i + 1}`,
          copies: copies[0][2] ?? 1,
          placements: copies.map(([layer, set]) => ({ ...GOOD[3], layer, set })),
        }),
      );
      return verifyLayout(layoutOf(GOOD, { boards: laid, sets: 4, setsTogether: true }))
        .breaches.filter(({ kind }) => kind === 'set-apart')
        .map(({ message }) => message.replace(/\D+/g, ''));
    };
    expect(
      apart(
        [
          ['hill', 1],
          ['hill', 1],
        ],
        [['hill', 2]],
      ),
    ).toEqual([]);
    expect(apart([['hill', 1]], [['hill', 1]])).toEqual(['1']);
    // Layers that are never on one board may be of other thicknesses.
    expect(apart([['hill', 1]], [['fish', 1]])).toEqual([]);
    expect(
      apart(
        [
          ['hill', 1],
          ['fish', 1],
          ['hill', 2],
        ],
        [['fish', 2]],
      ),
    ).toEqual(['2']);
    // By way of a third.
    expect(
      apart(
        [
          ['hill', 1],
          ['fish', 2],
        ],
        [
          ['fish', 3],
          ['bank', 1],
        ],
      ),
    ).toEqual(['1']);
    // In a stack sets 1 and 2, and 2 and 3.
    expect(apart([['hill', 1, 2]], [['hill', 3, 2]])).toEqual([]);
    expect(apart([['hill', 1, 2]], [['hill', 2, 2]])).toEqual(['2']);
  });

  it('does not crash on rings without points', () => {
    const empty = { ...GOOD[3], region: { outline: [], openings: [] } };
    expect(kinds(layoutOf([...GOOD.slice(0, 3), empty]))).toContain('invalid-region');
    const { boards } = layoutOf(GOOD);
    expect(
      kinds(layoutOf(GOOD, { boards: [{ ...boards[0], usable: { outline: [], openings: [] } }] })),
    ).toContain('invalid-region');
  });

  describe('single boards of the stock', () => {
    const used = (...uses: Partial<LaidBoard>[]) => {
      const { boards } = layoutOf(GOOD);
      const layout = layoutOf(GOOD, {
        boards: uses.map((use) => ({ ...boards[0], placements: [], ...use })),
      });
      return verifyLayout(layout).breaches.filter(({ kind }) => kind === 'board-used-twice');
    };
    const whole = { id: 'B-1' };
    const slice = (letter: string, slices = 2) => ({ id: `B-1${letter}`, slices });
    const strip = (letter: string, strips = 2) => ({ id: `B-1${letter}`, strips });

    it.each([
      ['whole and in slices', [whole, slice('b')], 'whole as "B-1", in 2 slices as "B-1b"'],
      [
        'in two numbers of slices',
        [slice('a'), slice('c', 3)],
        'in 2 slices as "B-1a", in 3 slices as "B-1c"',
      ],
      [
        'in two numbers of strips',
        [strip('a'), strip('c', 3)],
        'in 2 strips as "B-1a", in 3 strips as "B-1c"',
      ],
      [
        'in strips, and in lengths',
        [strip('a'), { id: 'B-1b', lengths: 3 }],
        'in 2 strips as "B-1a", in 3 lengths as "B-1b"',
      ],
      [
        'in strips, and in lengths of those',
        [strip('a'), { id: 'B-1b', strips: 2, lengths: 3 }],
        'in 2 strips as "B-1a", in 2 strips in 3 lengths as "B-1b"',
      ],
      ['whole and in strips', [strip('b'), whole], 'in 2 strips as "B-1b", whole as "B-1"'],
      [
        'with a strip whole and in slices',
        [strip('a'), { id: 'B-1ab', strips: 2, slices: 2 }],
        'whole as "B-1a", in 2 slices as "B-1ab"',
      ],
      [
        'in two stacks',
        [
          { id: 'B-1', copies: 2, pieces: ['B-1', 'B-2'] },
          { id: 'B-3', copies: 2, pieces: ['B-3', 'B-2'] },
        ],
        'on "B-1" and "B-3"',
      ],
    ])('finds one used %s', (_, uses, received) => {
      expect(used(...uses).map((issue) => issue.received)).toEqual([received]);
    });

    it.each([
      [{ id: 'B-1d', lengths: 3 }, 'such as B-1a to B-1c'],
      [{ id: 'B-1g', strips: 2, lengths: 3 }, 'such as B-1a to B-1f'],
      [{ id: 'B-1ac', strips: 2, slices: 2 }, 'such as B-1aa to B-1bb'],
      [{ id: 'B-1s31', strips: 5, lengths: 6 }, 'such as B-1a to B-1s30'],
      // The fifth has one name, or it could be used twice.
      [{ id: 'B-1s5', strips: 5, lengths: 6 }, 'such as B-1a to B-1s30'],
      [{ id: 'B-1s027', strips: 5, lengths: 6 }, 'such as B-1a to B-1s30'],
    ])('finds one that there is not: %o', (use: Partial<LaidBoard>, expected) => {
      const { boards } = layoutOf(GOOD);
      const named = (change: Partial<LaidBoard>) =>
        verifyLayout(layoutOf(GOOD, { boards: [{ ...boards[0], placements: [], ...change }] }))
          .breaches.filter(({ kind, where }) => kind === 'setting-invalid' && where?.field === 'boards[0].id')
          .map((issue) => issue.expected);
      expect(named(use)).toEqual([expect.stringContaining(expected)]);
      expect(named({ ...use, id: `B-1a${use.slices === undefined ? '' : 'b'}` })).toEqual([]);
    });

    it('passes strips and slices that are used once each, and a surplus resawn off', () => {
      expect(used(strip('a'), strip('b'), { id: 'B-2', slices: 1 })).toEqual([]);
      expect(used(slice('a'), { id: 'B-1b', slices: 2 }, { id: 'B-12' })).toEqual([]);
      expect(
        used(
          { id: 'B-1aa', strips: 30, slices: 2 },
          { id: 'B-1s27a', strips: 30, slices: 2 },
          strip('b', 30),
        ),
      ).toEqual([]);
    });
  });
});

describe('sawnAreas', () => {
  it('measures the path of the blade, and gives no number where the library fails at it', () => {
    const board = referenceRegion({ outline: square(0, 0, 50), openings: [] });
    const ring = { outline: square(0, 0, 20), openings: [square(5, 5, 10)] };
    const sawn = sawnAreas([ring], 1);
    // By hand: 4 sides and the quarters of a circle around the outline, of which the board has 2 sides and one quarter.
    expect(sawn.openings).toBeCloseTo(8 * 8, 9);
    expect(sawn.parts + sawn.openings).toBeCloseTo(400 + 80 + Math.PI, 1);
    expect(sawn.partsOn(board) + sawn.openings).toBeCloseTo(400 + 40 + Math.PI / 4, 1);
    // Nor are wide corners told narrower: those of 40 mm are within 0.01 mm of the circle along its length.
    const corners = sawnAreas([{ outline: square(0, 0, 20), openings: [] }], 40).parts - 400 - 4 * 20 * 40;
    expect(corners).toBeLessThanOrEqual(Math.PI * 40 ** 2);
    expect(corners).toBeGreaterThan(Math.PI * 40 ** 2 - 0.01 * 2 * Math.PI * 40);
    const failed = sawnAreas([{ outline: ring.outline.slice(0, 2), openings: [] }], 1);
    expect([failed.parts, failed.partsOn(board), failed.openings]).toEqual(Array(3).fill(Number.NaN));
  });
});
