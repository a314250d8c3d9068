import { describe, expect, it } from 'vitest';
import { lineLength } from '../../src/geometry/ring.ts';
import type { Line, Ring } from '../../src/geometry/shapes.ts';
import type { Blade, Cut, CutPlan, SawnPart } from '../../src/model/cut-plan.ts';
import type { LaidBoard, Offcut, Placement } from '../../src/model/layout.ts';
import { planCuts } from '../../src/sawing/plan-cuts.ts';
import { leaveTab } from '../../src/sawing/tab.ts';
import { board, disc, fullBoard, layoutOf, part, rectangle } from './boards.ts';
import { replay } from './replay.ts';

const layout = layoutOf(fullBoard());
const facts = (name: string, fields: Partial<SawnPart>): SawnPart => ({
  layer: 'Front',
  part: name,
  sharpTurns: 0,
  thinnestNeck: undefined,
  neckAt: undefined,
  tightestBends: [],
  ...fields,
});

describe('what is known of the parts', () => {
  const parts = [
    facts('arch', { tightestBends: [undefined, undefined] }),
    facts('medal', { tightestBends: [0.1] }),
  ];

  it('may have been JSON, in which a bend that is none is null', () => {
    expect(planCuts(layout, { parts: JSON.parse(JSON.stringify(parts)) })).toEqual(
      planCuts(layout, { parts }),
    );
  });

  it.each<[string, object]>([
    ['neckAt', { neckAt: 'x' }],
    ['tightestBends[0]', { tightestBends: ['x'] }],
  ])('is refused by its field: %s', (field, wrong) => {
    expect(() => planCuts(layout, { parts: [{ ...parts[0], ...wrong } as SawnPart] })).toThrow(
      expect.objectContaining({
        issues: [expect.objectContaining({ where: { field: `options.parts[0].${field}` } })],
      }),
    );
  });
});

describe('the blades of a plan', () => {
  const common = { teethPerInch: 15, kerfMeasured: true, upTo: 30 };
  const fine: Blade = { ...common, name: 'Fine', width: 0.6, thickness: 0.3, hole: 1, kerf: 0.3 };
  const coarse: Blade = { ...common, name: 'Coarse', width: 1.2, thickness: 0.5, hole: 2, kerf: 0.5 };
  /** A plate, and one with an opening for which the hole of the coarse blade is too wide. */
  const solid = board([part('plate', rectangle(100, 40, 100, 60))]);
  const pierced = (id: string) =>
    board([part('mask', { outline: rectangle(100, 40, 100, 60), openings: [rectangle(140, 60, 20, 1.5)] })], {
      id,
    });
  // The finest that is meant for such thick wood saws it: fine blades reach to 12 mm, and twice that slowly.
  const blades = [{ ...fine, upTo: 12 }, coarse];
  const used = (plan: CutPlan) => plan.boards.map(({ cuts }) => cuts.map(({ blade }) => blade));

  it('are fitted once each for one wood, whichever board comes first', () => {
    const [first, second] = [pierced('B-1'), pierced('C-1')];
    const plan = planCuts(layoutOf(solid, first, second), { blades });
    expect(used(plan)).toEqual([['Coarse'], ['Fine', 'Coarse'], ['Fine', 'Coarse']]);
    // Board by board: coarse, fine, coarse, fine, coarse. All openings first, then all outlines: fine, coarse.
    expect([plan.bladeChanges, plan.bladeChangesGrouped]).toEqual([5, 2]);
    const other = planCuts(layoutOf(first, solid, second), { blades });
    expect([other.bladeChanges, other.bladeChangesGrouped]).toEqual([4, 2]);
    // Of another wood after it: the coarse blade is in the saw, and is fitted again after the fine one.
    const cherry = { ...pierced('D-1'), species: 'black cherry' };
    const two = planCuts(layoutOf(solid, first, cherry), { blades });
    expect([two.bladeChanges, two.bladeChangesGrouped]).toEqual([5, 4]);
  });

  it('saw openings with the finest first, whichever is drawn first', () => {
    const wide = rectangle(110, 50, 20, 40);
    const slit = rectangle(140, 60, 20, 1.5);
    for (const openings of [
      [wide, slit],
      [slit, wide],
    ]) {
      const mask = board([part('mask', { outline: rectangle(100, 40, 100, 60), openings })]);
      const [{ cuts }] = planCuts(layoutOf(mask), { blades }).boards;
      expect(cuts.map(({ kind, blade, length }) => [kind, blade, length])).toEqual([
        ['opening', 'Fine', 43],
        ['opening', 'Coarse', 120],
        ['outline', 'Coarse', 320],
      ]);
    }
  });

  it('are told with the reason each was taken for, of the woods alone that it saws', () => {
    const cherry = { ...solid, id: 'D-1', species: 'black cherry' };
    const reasons = planCuts(layoutOf(cherry, pierced('B-1')), { blades }).blades.map(({ blade, why }) => [
      blade.name,
      why,
    ]);
    expect(reasons).toEqual([
      [
        'Fine',
        'finer than the Coarse the thickness asks for: an opening takes a hole of 1.50 mm at most; feed slowly',
      ],
      ['Coarse', 'for the thickness and hardness of this wood'],
    ]);
    const [only] = planCuts(layoutOf(solid), { blades: [coarse] }).blades;
    expect(only.why).toBe('the one blade there is');
  });

  it('may be handed in in any order', () => {
    const layout = layoutOf(solid, pierced('B-1'));
    expect(planCuts(layout, { blades: [...blades].reverse() })).toEqual(planCuts(layout, { blades }));
  });

  it('are held against the kerf of the layout by the widest that saws', () => {
    const told = (...boards: readonly LaidBoard[]) =>
      planCuts({ ...layoutOf(...boards), kerf: 0.9 }, { blades }).issues.map(({ kind, message }) => [
        kind,
        message,
      ]);
    const farther = 'Coarse saws 0.50 mm (measured): parts lie 0.40 mm farther apart than they need';
    const made = 'the layout is made for a kerf of 0.90 mm, but';
    expect(told(solid)).toEqual([['kerf-above-blade', `${made} the blade ${farther}`]]);
    expect(told(pierced('B-1'))).toEqual([
      ['kerf-above-blade', `${made} the widest blade of the plan, ${farther}`],
    ]);
  });
});

describe('a cut plan', () => {
  const plan = planCuts(layout);
  const [{ cuts, holes }] = plan.boards;
  const first = (kind: Cut['kind'], name: string) =>
    cuts.findIndex((cut) => cut.kind === kind && cut.part === name);

  it('can be carried out at the saw, cut by cut', () => {
    expect(replay(layout, plan)).toEqual([]);
  });

  it('does not saw rest edges on the edge of the board: two feet of 20 mm and a bar of 100', () => {
    expect(plan.sharedEdges).toBeCloseTo(140, 9);
    expect(plan.cutLength).toBeCloseTo(layout.figures.cutLength - 140, 6);
    // The arch between the feet makes two open cuts of the outline.
    expect(
      cuts.filter((cut) => cut.part === 'arch' && cut.kind === 'outline').map(({ closed }) => closed),
    ).toEqual([false, false]);
  });

  it('does not saw what lies off an edge by the tolerance of outlines, be it of the board or of a section', () => {
    const sections = [
      { number: 1, from: 0, to: 300 },
      { number: 2, from: 303, to: 600 },
    ];
    const shared = (x: number, y: number) =>
      planCuts(layoutOf(board([part('plate', rectangle(x, y, 100, 70))], { sections }))).sharedEdges;
    expect(shared(20, 150 - 70 - 0.0102)).toBeCloseTo(100, 9);
    expect(shared(300 - 100 - 0.0112, 20)).toBeCloseTo(70, 9);
    expect(shared(303.0112, 0.01)).toBeCloseTo(170, 9);
    expect(shared(300 - 100 - 0.05, 20)).toBe(0);
  });

  it('saws parts between another and the edge it stands on before its outline, which parts that wood from the board', () => {
    const gate = (x: number, y: number, width: number): Ring => [
      [x, 150],
      [x, y],
      [x + width, y],
      [x + width, 150],
      [x + width - 20, 150],
      [x + width - 20, y + 20],
      [x + 20, y + 20],
      [x + 20, 150],
    ];
    const standing = layoutOf(
      board([
        part('gate', gate(20, 20, 260)),
        part('low gate', { outline: gate(50, 60, 110), openings: [disc(100, 70, 5)] }),
        part('stone', disc(105, 120, 15)),
        part('block', rectangle(170, 110, 70, 40)),
        part('neighbour', rectangle(290, 60, 100, 90)),
      ]),
    );
    const plan = planCuts(standing);
    expect(replay(standing, plan)).toEqual([]);
    const names = plan.boards[0].cuts.filter(({ kind }) => kind === 'outline').map(({ part: name }) => name);
    const last = (name: string) => names.lastIndexOf(name);
    expect(last('stone')).toBeLessThan(names.indexOf('low gate'));
    expect(Math.max(last('low gate'), last('block'))).toBeLessThan(names.indexOf('gate'));
    expect(plan.holes).toBe(1);
    const reasons = new Map(plan.boards[0].cuts.map(({ part: name, reason }) => [name, reason]));
    expect(reasons.get('stone')).toMatch(/^too small to hold by itself, laid under another part/);
    expect(reasons.get('neighbour')).toMatch(/^strong enough/);
  });

  it('saws a part in an opening before the opening, through the one hole of that opening', () => {
    const host = cuts.findIndex(
      (cut) => cut.kind === 'opening' && cut.part === 'frame' && cut.entry === 'waste',
    );
    expect(first('outline', 'medal')).toBeLessThan(host);
    expect(cuts[first('outline', 'medal')].entry).toBe('hole');
    const hole = holes.find(({ cut }) => cut === first('outline', 'medal') + 1);
    const [x, y] = hole?.at ?? [0, 0];
    // In the waste between the frame and the medal.
    expect(Math.hypot(x - 170, y - 70) - 30).toBeGreaterThan((hole?.diameter ?? 0) / 2);
    expect(Math.min(x - 125, 215 - x, y - 25, 115 - y)).toBeGreaterThan((hole?.diameter ?? 0) / 2);
  });

  it('goes from the hole of an opening to the parts in it that lie nearest, and on to its line from the nearest of all', () => {
    const ring = { outline: rectangle(10, 10, 400, 130), openings: [rectangle(20, 20, 380, 110)] };
    // Two rows at the left end of the opening: the hole is in the waste at the right, the board is entered at the left.
    const inner = [0, 1, 2, 3, 4, 5].flatMap((column) =>
      [45, 105].map((y) => part(`disc ${column}`, disc(45 + 28 * column, y, 12))),
    );
    const laid = layoutOf(board([part('ring', ring), ...inner]));
    const plan = planCuts(laid);
    const [planned] = plan.boards;
    expect(planned.cuts[0].part).toBe('disc 5');
    expect(planned.cuts.every(({ leadInClear }) => leadInClear)).toBe(true);
    const opening = planned.cuts.find(({ kind }) => kind === 'opening');
    // By hand: from a disc at the left end to the corner beside it, 25 mm off its middle both ways.
    expect(lineLength(opening?.leadIn ?? [])).toBeCloseTo(25 * Math.SQRT2 - 12, 0);
    expect(replay(laid, plan)).toEqual([]);
  });

  it('drills openings and veins that no other cut reaches, and saws the others in passing', () => {
    const veins = cuts
      .filter(({ kind }) => kind === 'vein')
      .map(({ part: name, entry }) => `${name}: ${entry}`);
    expect(veins.sort()).toEqual(['arch: hole', 'arch: in passing', 'medal: in passing']);
    // Neither is led to, waits for another blade, or moves the board: the next cut is the line they branch off.
    for (const vein of cuts.filter(({ entry }) => entry === 'in passing')) {
      const next = cuts[vein.number];
      expect(vein.leadIn).toEqual([]);
      expect([next.kind, next.part]).toEqual([vein.part === 'arch' ? 'outline' : 'opening', vein.part]);
    }
    expect(holes).toHaveLength(plan.threadings);
  });

  it('keeps small parts on the section to the last', () => {
    expect(cuts.slice(-2).map(({ part: name }) => name)).toEqual(['small', 'small']);
    expect(cuts[cuts.length - 1].reason).toMatch(/too small to hold/);
  });

  it('keeps fragile parts in the board longer than strong ones, and closes them away from the neck', () => {
    const fragile = planCuts(layout, { parts: [facts('plate', { thinnestNeck: 1, neckAt: [380, 5] })] });
    expect(replay(layout, fragile)).toEqual([]);
    const own = fragile.boards[0].cuts;
    const at = own.findIndex(({ kind, part: name }) => kind === 'outline' && name === 'plate');
    expect(own.slice(at + 1).map(({ part: name }) => name)).toEqual(['small', 'small']);
    const [x, y] = own[at].line[0];
    expect(Math.hypot(x - 380, y - 5)).toBeGreaterThan(80);
  });

  it('starts a part with a thin neck in the half away from that, though the way there is longer', () => {
    // The left end lies 5 mm from the end of the board, the other 395 mm, both sides 65 mm from the edges.
    const bar = board([part('bar', rectangle(5, 65, 200, 20))]);
    const startOf = (fields: Partial<SawnPart>) => {
      const [{ cuts }] = planCuts(layoutOf(bar), { parts: [facts('bar', fields)] }).boards;
      const [x, y] = cuts[0].line[0];
      return [x, y];
    };
    expect(startOf({})[0]).toBe(5);
    expect(startOf({ thinnestNeck: 1.2, neckAt: [15, 75] })[0]).toBe(205);
    expect(startOf({ thinnestNeck: 1.2, neckAt: [195, 75] })[0]).toBe(5);
    // The same at the other end of the board, where the right end of the bar is the near one.
    const far = board([part('bar', rectangle(395, 65, 200, 20))]);
    const startFar = (fields: Partial<SawnPart>) =>
      planCuts(layoutOf(far), { parts: [facts('bar', fields)] }).boards[0].cuts[0].line[0][0];
    expect([startFar({}), startFar({ thinnestNeck: 1.2, neckAt: [585, 75] })]).toEqual([595, 395]);
  });

  it('drills once for two parts in an opening, in the waste between them and the line', () => {
    const frame = { outline: rectangle(100, 10, 240, 130), openings: [rectangle(110, 20, 220, 110)] };
    const centres = [165, 275];
    const inner = centres.map((x) => part('medal', disc(x, 75, 35)));
    const [{ cuts, holes }] = planCuts(layoutOf(board([part('frame', frame), ...inner]))).boards;
    expect(cuts.map(({ kind }) => kind)).toEqual(['outline', 'outline', 'opening', 'outline']);
    const [{ at, diameter }, ...others] = holes;
    expect(others).toEqual([]);
    expect(at[0] > 110 && at[0] < 330 && at[1] > 20 && at[1] < 130).toBe(true);
    for (const x of centres) expect(Math.hypot(at[0] - x, at[1] - 75)).toBeGreaterThan(35 + diameter / 2);
  });

  it('counts what is sawn to get to the lines apart: from the hole, from the edge, from a neighbour', () => {
    const alone = layoutOf(
      board([
        part('plate', { outline: rectangle(100, 30, 100, 100), openings: [rectangle(140, 70, 20, 20)] }),
        part('plate', rectangle(202, 30, 100, 100)),
      ]),
    );
    const { boards, cutLength, leadInLength } = planCuts(alone);
    expect(cutLength).toBeCloseTo(80 + 400 + 400, 9);
    // In a corner, 1.2 mm clear of both lines; then 20 mm from the edge of the board, which a neighbour 2 mm
    // away saves the other plate.
    const byCut = boards[0].cuts.map(({ leadIn }) => lineLength(leadIn));
    expect(byCut[0]).toBeCloseTo(Math.SQRT2 * (0.0625 * 12.7 + 1.2), 3);
    expect(byCut.slice(1)).toEqual([expect.closeTo(20, 9), expect.closeTo(2, 9)]);
    expect(leadInLength).toBeCloseTo(byCut[0] + 22, 9);
  });

  it('leads the blade around what is kept: a way through a keeper would saw it up', () => {
    // 30 mm below the top edge, along which a strip is kept, and 50 mm above the other edge.
    const plate = part('plate', rectangle(280, 30, 100, 70));
    const strip = { minX: 0, minY: 0, maxX: 600, maxY: 26 };
    const keeper = {
      id: 'A-1 keeper 1',
      region: { outline: rectangle(0, 0, 600, 26), openings: [] },
      rectangle: strip,
      area: 600 * 26,
      lines: [
        [
          [0, 27.5],
          [600, 27.5],
        ] as const,
      ],
    };
    const leadIn = (offcuts: readonly Offcut[]) =>
      planCuts(layoutOf(board([plate], { offcuts }))).leadInLength;
    expect(leadIn([])).toBeCloseTo(30, 9);
    expect(leadIn([keeper])).toBeCloseTo(50, 9);
  });

  it.each([303, 300])(
    'leads the blade from no cut in another section, which is parted from this one from %s mm on',
    (from) => {
      const sections = [
        { number: 1, from: 0, to: 300 },
        { number: 2, from, to: 600 },
      ];
      // The stop bars the way straight from the cut between the two, and leaves the one from the corner of the plate on the left.
      const parts = [
        part('left', rectangle(200, 6, 98, 60)),
        part('right', rectangle(320, 70, 80, 40)),
        part('stop', rectangle(310, 69.9, 4, 41.2)),
      ];
      const cutLast = { parts: [facts('stop', { thinnestNeck: 1 })] };
      const { boards } = planCuts(layoutOf(board(parts, { sections })), cutLast);
      const { leadIn } = boards[0].cuts.find((cut) => cut.part === 'right')!;
      for (const [x] of leadIn) expect(x).toBeGreaterThanOrEqual(from);
    },
  );

  it('says so when parts bar every straight way to a part', () => {
    const ring = { outline: disc(300, 75, 60), openings: [] };
    const u: Ring = [
      [200, 10],
      [400, 10],
      [400, 140],
      [398, 140],
      [398, 12],
      [202, 12],
      [202, 140],
      [200, 140],
    ];
    const barred = layoutOf(
      board([part('plate', ring), part('fence', u), part('bar', rectangle(203, 138, 194, 2))]),
    );
    const plan = planCuts(barred, {
      parts: [facts('fence', { thinnestNeck: 1 }), facts('bar', { thinnestNeck: 1 })],
    });
    expect(replay(barred, plan)).toEqual([]);
    expect(plan.boards[0].cuts.map(({ part: name, leadInClear }) => [name, leadInClear])[0]).toEqual([
      'plate',
      false,
    ]);
    expect(plan.issues.map(({ kind }) => kind)).toContain('lead-in-barred');
  });

  it('leaves small parts hanging by a tab where that is asked for, and saws the tabs last', () => {
    const tabbed = planCuts(layout, { tab: 4 });
    expect(replay(layout, tabbed)).toEqual([]);
    expect(tabbed.cutLength).toBeCloseTo(plan.cutLength, 9);
    const own = tabbed.boards[0].cuts;
    expect(own.slice(-2).map(({ kind, part: name, frees }) => [kind, name, frees])).toEqual([
      ['tab', 'small', true],
      ['tab', 'small', true],
    ]);
    // A disc has no side of 4 mm: the tab goes over whole sides of it.
    for (const { length } of own.slice(-2)) expect(length).toBeGreaterThanOrEqual(4);
    const outlines = own.filter(({ kind, part: name }) => kind === 'outline' && name === 'small');
    expect(outlines.every(({ frees, reason }) => !frees && /tab/.test(reason))).toBe(true);
  });

  it('leaves a tab to a small part that stands on the edge of the board, which holds it no more than any other', () => {
    const half = disc(300, 0, 20).filter(([, y]) => y >= -1e-9);
    const arch: Ring = [
      [500, 0],
      [506, 0],
      [506, 8],
      [524, 8],
      [524, 0],
      [530, 0],
      [530, 25],
      [500, 25],
    ];
    const edged = layoutOf(
      board([part('box', rectangle(100, 0, 40, 20)), part('half', half), part('arch', arch)]),
    );
    const hung = planCuts(edged, { tab: 4 });
    expect(replay(edged, hung)).toEqual([]);
    expect(hung.cutLength).toBeCloseTo(planCuts(edged).cutLength, 9);
    const { cuts } = hung.boards[0];
    expect(cuts.slice(-3).every(({ kind, frees, length }) => kind === 'tab' && frees && length >= 4)).toBe(
      true,
    );
    expect(cuts.slice(0, -3).some(({ frees }) => frees)).toBe(false);
    // A tab parts its piece in two, each with a number of its own.
    const pieces = cuts.filter(({ kind, part: name }) => kind === 'outline' && name === 'box');
    expect(pieces.map(({ piece }) => piece).sort()).toEqual([0, 1]);
    // In the middle of the longest side; the other two stop short of it.
    expect(cuts.find(({ kind, part: name }) => kind === 'tab' && name === 'box')?.length).toBeCloseTo(4, 9);
  });

  it('puts a tab of just the width in the middle of the longest straight side', () => {
    const { sawn, tab } = leaveTab(rectangle(0, 0, 40, 20), 4) ?? { sawn: [], tab: [] };
    expect(tab).toEqual([
      [18, 0],
      [22, 0],
    ]);
    expect(lineLength(sawn)).toBeCloseTo(120 - 4, 9);
    expect(leaveTab(rectangle(0, 0, 4, 4), 4)).toBeUndefined();
  });

  it('is the same every time', () => {
    expect(JSON.stringify(planCuts(layout))).toBe(JSON.stringify(plan));
  });

  it('moves the board less than the same stages as listed would, and says both', () => {
    expect(plan.travel).toBeLessThan(plan.travelLeftToRight);
  });

  it('counts boards with the same layout as often as they are there', () => {
    const twice = layoutOf({ ...fullBoard(), copies: 2 });
    const double = planCuts(twice);
    expect(replay(twice, double)).toEqual([]);
    expect(double.cutLength).toBeCloseTo(2 * plan.cutLength, 9);
    expect(double.holes).toBe(2 * plan.holes);
  });
});

describe('sections and stacks', () => {
  const row = [0, 210, 420].map((x) =>
    part('plate', { outline: rectangle(x + 5, 5, 200, 130), openings: [disc(x + 100, 70, 20)] }),
  );

  it('finishes one section before the next', () => {
    const sections = [
      { number: 1, from: 0, to: 207 },
      { number: 2, from: 210, to: 600 },
    ];
    const parted = layoutOf(board(row, { sections }));
    const plan = planCuts(parted, { throat: 508 });
    expect(replay(parted, plan)).toEqual([]);
    const [{ cuts }] = plan.boards;
    expect(cuts.map(({ placement }) => (placement === 0 ? 1 : 2))).toEqual([1, 1, 2, 2, 2, 2]);
  });

  it('frees strong parts before their openings where the section does not turn in the throat, and says why', () => {
    const long = layoutOf(board(row));
    const plan = planCuts(long, { throat: 406 });
    expect(replay(long, plan)).toEqual([]);
    const last = plan.boards[0].cuts.slice(-3);
    expect(
      last.every(({ kind, partFree, reason }) => kind === 'opening' && partFree && /free part/.test(reason)),
    ).toBe(true);
  });

  it('saws a stack once, through all of its wood', () => {
    const one = board(row, { thickness: 6.35 });
    const single = planCuts(layoutOf(one));
    const plan = planCuts(layoutOf({ ...one, copies: 3, pieces: ['A-1', 'A-2', 'A-3'] }));
    expect(plan.boards[0]).toMatchObject({ stack: 3, copies: 1, thickness: 3 * 6.35 });
    expect(plan.cutLength).toBeCloseTo(single.cutLength, 9);
    expect(plan.blades[0].blade.width).toBeGreaterThan(single.blades[0].blade.width);
  });
});

it('a slice of a thick board is sawn as thin as it is planed', () => {
  const row = [part('plate', { outline: rectangle(5, 5, 200, 130), openings: [] })];
  const thin = planCuts(layoutOf(board(row, { thickness: 6.35 })));
  const slice = planCuts(layoutOf(board(row, { thickness: 44.45, slices: 4, planeTo: 6.35 })));
  expect(slice.boards[0].thickness).toBe(6.35);
  expect(slice.blades.map(({ blade }) => blade.name)).toEqual(thin.blades.map(({ blade }) => blade.name));
});

it('tells why a blade is taken wood by wood where the reasons differ', () => {
  const slotted = { outline: rectangle(10, 10, 100, 60), openings: [rectangle(30, 30, 40, 1.3)] };
  const thick = board([part('a', slotted)]);
  const cherry = { id: 'C-1', stock: 'C', species: 'black cherry', thickness: 12.7 };
  const thin = board([part('b', rectangle(10, 10, 100, 60))], cherry);
  const whyOf = (...boards: (typeof thick)[]) =>
    planCuts(layoutOf(...boards)).blades.find(({ blade }) => blade.name === 'No. 3')?.why ?? '';
  expect(whyOf(thick, thin)).toBe(
    'black walnut: finer than the No. 7 the thickness asks for: an opening takes a hole of 1.30 mm at most; feed slowly. black cherry: for the thickness and hardness of this wood',
  );
  expect(whyOf(thin)).toBe('for the thickness and hardness of this wood');
  const thinner = board([part('c', rectangle(10, 10, 100, 60))], { id: 'D-1', stock: 'D', thickness: 11 });
  expect(whyOf(thick, thinner)).toMatch(/^black walnut of 19.05 mm: finer .*\. black walnut of 11.00 mm: /);
});

describe('a vein that ends close to an edge of its part', () => {
  const ends = (x: number, y: number): Line[] => [
    [
      [x, y],
      [250, 100],
    ],
  ];
  const holeOf = (placement: Placement) => {
    const laid = layoutOf(board([placement]));
    const plan = planCuts(laid);
    expect(replay(laid, plan)).toEqual([]);
    return plan.boards[0].holes.find(({ at }) =>
      placement.veins.flat().some(([x, y]) => at[0] === x && at[1] === y),
    )?.at;
  };
  const plate = rectangle(200, 40, 100, 110);

  it('has its hole at the other end, where the drill does not break out', () => {
    // The lower left corner, from which the round of the drill begins, is nearer to the first end.
    expect(holeOf(part('plate', plate, ends(210, 149.3)))).toEqual([250, 100]);
    expect(holeOf(part('plate', plate, ends(210, 140)))).toEqual([210, 140]);
    const opening = rectangle(205, 142, 20, 5);
    expect(holeOf(part('plate', { outline: plate, openings: [opening] }, ends(215, 140.8)))).toEqual([
      250, 100,
    ]);
  });

  it('keeps to either where neither has room', () => {
    const bar = rectangle(200, 146, 100, 4);
    const along: Line[] = [
      [
        [210, 149.3],
        [280, 149.3],
      ],
    ];
    expect(holeOf(part('bar', bar, along))).toBeDefined();
  });

  it('has its hole at the end with more wood where neither has enough', () => {
    const bar = rectangle(200, 146, 100, 4);
    const slanting = (from: number, to: number): Line[] => [
      [
        [210, from],
        [280, to],
      ],
    ];
    expect(holeOf(part('bar', bar, slanting(149.3, 148.8)))).toEqual([280, 148.8]);
    expect(holeOf(part('bar', bar, slanting(148.8, 149.3)))).toEqual([210, 148.8]);
  });

  it('is warned of where neither has room, once for a kind of part with the number of its veins', () => {
    const told = (...placements: Placement[]) =>
      planCuts(layoutOf(board(placements))).issues.filter(({ kind }) => kind === 'vein-hole-near-edge');
    const bar = (x: number, from = 149.3) =>
      part('bar', rectangle(x, 146, 100, 4), [
        [
          [x + 10, from],
          [x + 80, 149.3],
        ],
        [
          [x + 10, 146.7],
          [x + 80, 146.7],
        ],
      ]);
    const [issue, ...others] = told(bar(20), bar(150), part('plate', plate, ends(210, 149.3)));
    expect(others).toEqual([]);
    expect(issue.where).toMatchObject({ part: 'bar' });
    expect(issue.message).toMatch(/^2 veins end so near to an edge/);
    // One end in the middle of 4 mm has room for a hole of up to 2 mm.
    expect(told(bar(20, 148))[0].message).toMatch(/^1 vein ends /);
  });
});

describe('a vein that starts on the outline of its part', () => {
  // A hand's breadth from every edge of the board: a lead-in of its own would be longer than the vein.
  const plate = part('plate', rectangle(200, 40, 100, 70), [
    [
      [300, 75],
      [270, 75],
    ],
    [
      [240, 75],
      [200, 75],
    ],
  ]);
  const alone = layoutOf(board([plate]));
  const plan = planCuts(alone);

  it('is sawn in passing: no lead-in, no travel, two turns of the blade', () => {
    expect(replay(alone, plan)).toEqual([]);
    const [{ cuts, holes, sharpTurns }] = plan.boards;
    expect(cuts.map(({ kind, entry }) => [kind, entry])).toEqual([
      ['vein', 'in passing'],
      ['vein', 'in passing'],
      ['outline', 'waste'],
    ]);
    // Each from its end on the outline, whichever way it was drawn.
    expect(cuts.slice(0, 2).map(({ line }) => line[0])).toEqual([
      [300, 75],
      [200, 75],
    ]);
    expect(holes).toEqual([]);
    expect(sharpTurns).toBe(4);
    // From the lower edge of the board, 40 mm off, to the first corner, then all of the lines.
    expect(plan.leadInLength).toBeCloseTo(40, 9);
    expect(plan.cutLength).toBeCloseTo(340 + 30 + 40, 9);
    const bare = planCuts(layoutOf(board([{ ...plate, veins: [] }])));
    expect(plan.travel).toBeCloseTo(bare.travel, 9);
  });

  it('begins on the edge of the board where the part lies on it', () => {
    const low = part('bar', rectangle(200, 80, 100, 70), [
      [
        [250, 150],
        [250, 110],
      ],
    ]);
    const stands = layoutOf(board([low]));
    const own = planCuts(stands);
    expect(replay(stands, own)).toEqual([]);
    expect(own.boards[0].cuts[0]).toMatchObject({ kind: 'vein', entry: 'waste', leadIn: [] });
  });

  it('begins there whichever way it is drawn, and wherever its other end lies', () => {
    for (const inner of [
      [205, 85],
      [250, 110],
      [295, 85],
    ] as const)
      for (const x of [210, 250, 290]) {
        const vein: Line = [[x, 150], inner];
        for (const line of [vein, [...vein].reverse()]) {
          const low = part('bar', rectangle(200, 80, 100, 70), [line]);
          const [first] = planCuts(layoutOf(board([low]))).boards[0].cuts;
          expect(first).toMatchObject({ kind: 'vein', entry: 'waste', leadIn: [], leadInClear: true });
          expect(first.line[0]).toEqual([x, 150]);
        }
      }
  });

  it('belongs to the tab where it begins on that, and stays with the board when a part is freed first', () => {
    const small = part('small', rectangle(200, 40, 30, 20), [
      [
        [215, 40],
        [215, 50],
      ],
    ]);
    const hung = layoutOf(board([small]));
    const tabbed = planCuts(hung, { tab: 4 });
    expect(replay(hung, tabbed)).toEqual([]);
    expect(tabbed.boards[0].cuts.map(({ kind }) => kind)).toEqual(['outline', 'vein', 'tab']);
    const large = [0, 300].map((x) =>
      part('plate', { outline: rectangle(x + 5, 5, 200, 130), openings: [disc(x + 100, 70, 20)] }, [
        [
          [x + 5, 70],
          [x + 40, 70],
        ],
      ]),
    );
    const long = layoutOf(board(large));
    const freed = planCuts(long, { throat: 406 });
    expect(replay(long, freed)).toEqual([]);
    expect(freed.boards[0].cuts.map(({ kind, partFree }) => `${kind}${partFree ? ' free' : ''}`)).toEqual([
      ...['vein', 'outline', 'vein', 'outline', 'opening free', 'opening free'],
    ]);
  });
});

describe('the replay itself', () => {
  const plan = planCuts(layout);
  const [own] = plan.boards;
  const faults = (cuts: readonly Cut[]): string[] => {
    const changed: CutPlan = {
      ...plan,
      boards: [{ ...own, cuts: cuts.map((cut, i) => ({ ...cut, number: i + 1 })) }],
    };
    return replay(layout, changed);
  };

  it('notices a cut left out, a cut made twice, and a part freed before its openings', () => {
    expect(faults(own.cuts.slice(1)).join()).toMatch(/not sawn/);
    expect(faults([...own.cuts, own.cuts[0]]).join()).toMatch(/sawn before/);
    const opening = own.cuts.findIndex(({ kind, part: name }) => kind === 'opening' && name === 'plate');
    expect(faults([...own.cuts.filter((_, i) => i !== opening), own.cuts[opening]]).join()).toMatch(
      /after its part was freed/,
    );
  });

  it('notices a lead-in that begins in the middle of the wood or leads through a part', () => {
    const at = own.cuts.findIndex(({ leadIn, entry }) => entry === 'waste' && leadIn.length > 0);
    const led = (leadIn: Cut['leadIn']) =>
      faults(own.cuts.map((cut, i) => (i === at ? { ...cut, leadIn } : cut))).join();
    const end = own.cuts[at].line[0];
    expect(led([[360, 75], end])).toMatch(/middle of the wood/);
    expect(led([[0, 75], end])).toMatch(/lead-in through a part/);
    expect(led([])).toMatch(/do not add up/);
  });

  it('notices a vein in passing that comes after its outline, or begins elsewhere', () => {
    const at = own.cuts.findIndex(({ entry, part: name }) => entry === 'in passing' && name === 'arch');
    const vein = own.cuts[at];
    expect(faults([...own.cuts.filter((cut) => cut !== vein), vein]).join()).toMatch(/not followed by/);
    const turned = { ...vein, line: [...vein.line].reverse() };
    expect(faults(own.cuts.map((cut) => (cut === vein ? turned : cut))).join()).toMatch(/does not begin on/);
  });

  it('notices a part sawn out of waste that has fallen out', () => {
    const medal = own.cuts.filter(({ part: name }) => name === 'medal');
    expect(faults([...own.cuts.filter((cut) => !medal.includes(cut)), ...medal]).join()).toMatch(
      /fallen out/,
    );
  });
});
