import { describe, expect, it } from 'vitest';
import * as fretlay from '../../src/index.ts';
import type { Issue } from '../../src/issues/issue.ts';
import { handLayout } from '../sheet/hand-layout.ts';

/** What plain JavaScript hands over by mistake: the public functions name the argument, and do not fail within. */

const layout = handLayout();
const [board] = layout.boards;
const title = { job: 'job', unit: 'mm', kerf: 1 } as const;
const SVG =
  '<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="40mm" viewBox="0 0 40 40"><path d="M0 0H40V40H0z"/></svg>';
const { pattern } = fretlay.readPattern(SVG);

const { drawing } = fretlay.readDrawing(SVG);
const drawingOf = (child: unknown) => ({ ...drawing, root: { ...drawing.root, children: [child] } });
const [drawn] = drawing.root.children as fretlay.DrawingShape[];
const [{ segments }] = drawn.curves;
const cornerless = {
  ...drawn.curves[0],
  segments: [segments[0], { kind: 'line', to: [1, Number.NaN] }],
};

const check = fretlay.checkPattern(pattern);
const checkWith = (part: object) => ({ ...check, parts: [{ ...check.parts[0], ...part }] });
const spanless = {
  ...check,
  findings: [
    {
      kind: 'k',
      severity: 'note',
      layer: 'l',
      part: 'p',
      at: [0, 0],
      span: null,
      size: 1,
      limit: 2,
      message: 'm',
      advice: 'a',
    },
  ],
};
const sectionTo = (to: number) => ({
  ...layout,
  boards: [{ ...board, sections: [{ number: 1, from: 0, to }] }],
});
const job = fretlay.readJob(
  '{ "pattern": "a.svg", "boards": [{ "id": "W-1", "length": 200, "width": 100 }] }',
);
const { batch } = fretlay.batchFromJob(job, pattern, 'job.json');
const jobWith = (fields: object) => ({ ...job, boards: [{ ...job.boards[0], ...fields }] });
const costing = (rates: object) => ({ ...job, costs: { ...job.costs, ...rates } });

const cutPlan = fretlay.planCuts(layout);
const [planned] = cutPlan.boards;
const cutting = (fields: object) => ({ ...planned, cuts: [{ ...planned.cuts[0], ...fields }] });
const tightHole = {
  ...planned,
  holes: [{ at: [0, 0], diameter: 2, least: 1, room: Number.NaN, cut: 1 }],
};
const lineless = cutting({ line: [] });
const [{ name: layer }] = pattern.layers;
const wood = { species: 'walnut', thickness: 6, grain: 'along' } as const;
const assembly = fretlay.planAssembly(pattern, { layers: { [layer]: wood } });
const time = fretlay.workTime(fretlay.amountsOf(cutPlan, assembly, 1));
const estimate = fretlay.estimate({ layout, stock: [], plan: cutPlan, assembly, time });
const report = (assembly: unknown, own: unknown = pattern) =>
  lib.drawReport(
    { ...layout, setContents: [] },
    { ...title, work: { pattern: own, cutPlan, assembly, estimate, batchSizes: [] } },
  );
const pageOf = (mark: object) => ({
  number: 1,
  name: 'A',
  drawing: { x: 0, y: 0, width: 100, height: 100, marks: [mark] },
});

// The arguments are wrong on purpose.
// biome-ignore lint/suspicious/noExplicitAny: what no compiler has seen is of any type
const lib = fretlay as any;

describe('an argument that makes no sense', () => {
  it.each<[string, () => unknown]>([
    ['text', () => lib.readJob(null)],
    ['text', () => lib.readLayout({})],
    ['text', () => lib.readRack(undefined)],
    ['svgText', () => lib.readPattern(null)],
    ['options', () => lib.readPattern(SVG, null)],
    ['pixelsPerInch', () => lib.readPattern(SVG, { pixelsPerInch: 0 })],
    ['drawnSize.width', () => lib.readPattern(SVG, { drawnSize: { width: '5' } })],
    ['scale', () => lib.readPattern(SVG, { scale: Number.NaN })],
    ['scale', () => lib.readPattern(SVG, { scale: '2' })],
    ['finishedSize.side', () => lib.readPattern(SVG, { finishedSize: { side: 'depth', length: 5 } })],
    ['finishedSize.length', () => lib.readPattern(SVG, { finishedSize: { side: 'width', length: '8 in' } })],
    ['finishedSize.length', () => lib.readPattern(SVG, { finishedSize: { side: 'width', length: 1e7 } })],
    [
      'finishedSize.layer',
      () => lib.readPattern(SVG, { finishedSize: { layer: null, side: 'width', length: 5 } }),
    ],
    [
      'finishedSize.part',
      () => lib.readPattern(SVG, { finishedSize: { part: 'mast', side: 'width', length: 5 } }),
    ],
    ['scale', () => lib.readPattern(SVG, { scale: 1e7 })],
    ['file', () => lib.readPattern(SVG, { file: Number.NaN })],
    ['drawing.root.kind', () => lib.patternFromDrawing({ ...drawing, root: {} })],
    ['drawing.root.children[0]', () => lib.patternFromDrawing(drawingOf(null))],
    ['drawing.root.children[0].curves', () => lib.patternFromDrawing(drawingOf({ ...drawn, curves: null }))],
    [
      'drawing.root.children[0].curves[0].segments[1]',
      () => lib.patternFromDrawing(drawingOf({ ...drawn, curves: [cornerless] })),
    ],
    ['innerShapes', () => lib.readPattern(SVG, { innerShapes: 'x' })],
    ['pattern', () => lib.checkPattern(null)],
    ['options.saw.kerf', () => lib.checkPattern(pattern, { saw: { kerf: Number.NaN } })],
    ['options.grain.Shore', () => lib.checkPattern(pattern, { grain: { Shore: 'diagonal' } })],
    ['options.holdSize', () => lib.checkPattern(pattern, { holdSize: Number.POSITIVE_INFINITY })],
    ['layout', () => lib.verifyLayout(null)],
    ['layout.boards[0]', () => lib.verifyLayout({ ...layout, boards: [null] })],
    ['layout.boards', () => lib.withRemains({ ...layout, boards: undefined }, {})],
    ['batch', () => lib.withRemains(layout, null)],
    ['layout.boards[0].stock', () => lib.withRemains(layout, { boards: [], kerf: 1 })],
    ['layout.boards[0].sections[0].to', () => lib.withRemains(sectionTo(1e7), batch)],
    ['check.parts[0].sharpTurns', () => lib.sawnParts(pattern, checkWith({ sharpTurns: Number.NaN }))],
    ['check.findings[0].span', () => lib.drawCheckPicture(pattern, spanless)],
    ['pattern.layers', () => lib.drawCheckPicture({ ...pattern, layers: [] }, check)],
    ['pattern.file', () => lib.drawCheckPicture({ ...pattern, file: undefined }, check)],
    ['job.boards[0].price', () => lib.batchFromJob(jobWith({ price: null }), pattern, 'job.json')],
    [
      'job.boards[0].price.per',
      () => lib.batchFromJob(jobWith({ price: { amount: 5 } }), pattern, 'job.json'),
    ],
    ['job.boards[0].price', () => lib.batchFromJob(jobWith({ price: Number.NaN }), pattern, 'job.json')],
    ['job.boards[0].strips', () => lib.batchFromJob(jobWith({ strips: 'two' }), pattern, 'job.json')],
    ['job.boards[0].keeper', () => lib.batchFromJob(jobWith({ keeper: 'no' }), pattern, 'job.json')],
    ['job.costs.markup', () => lib.batchFromJob(costing({ markup: 'x' }), pattern, 'job.json')],
    ['job.costs.overhead', () => lib.batchFromJob(costing({ overhead: undefined }), pattern, 'job.json')],
    ['issues[0].kind', () => lib.worstFirst([{ severity: 'note', message: 'm', kind: Number.NaN }])],
    ['layout', () => lib.planCuts(undefined)],
    ['options.blades', () => lib.planCuts(layout, { blades: [] })],
    [
      'options.blades[0].width',
      () => lib.planCuts(layout, { blades: [{ ...fretlay.COMMON_BLADES[0], width: -1 }] }),
    ],
    ['options.throat', () => lib.planCuts(layout, { throat: -1 })],
    ['options.tab', () => lib.planCuts(layout, { tab: Number.NaN })],
    ['options.pace.low', () => lib.planCuts(layout, { pace: { low: Number.NaN, likely: 1, high: 2 } })],
    ['layout', () => lib.boardPages(null, title)],
    ['options', () => lib.boardPages(layout)],
    ['options.paper', () => lib.boardPages(layout, { ...title, paper: 'a9' })],
    ['options.unit', () => lib.boardPages(layout, { ...title, unit: 'cm' })],
    ['options.orientation', () => lib.boardPages(layout, { ...title, orientation: 'up' })],
    ['board', () => lib.drawPlacementSheet(null, title)],
    ['options.kerf', () => lib.drawPlacementSheet(board, { ...title, kerf: Number.NaN })],
    ['options.margin', () => lib.boardPages(layout, { ...title, margin: -1 })],
    ['options.plans.get("W-1")', () => lib.boardPages(layout, { ...title, plans: new Map([['W-1', null]]) })],
    // The plan of a board goes into the options of its sheet.
    ['drawer', () => lib.drawPlacementSheet(board, title, {})],
    ['options.line', () => lib.drawPlacementSheets([board], { ...title, line: 'fat' })],
    ['options.numbers', () => lib.boardPages(layout, { ...title, numbers: new Map([['hull', 1]]) })],
    [
      'layout.boards[0].placements[0].turnedOver',
      () =>
        lib.boardPages(
          { ...layout, boards: [{ ...board, placements: [{ ...board.placements[0], turnedOver: null }] }] },
          title,
        ),
    ],
    [
      'options.plan.cuts[0].placement',
      () => lib.drawPlacementSheet({ ...board, placements: [] }, { ...title, plan: planned }),
    ],
    [
      `options.plans.get("${board.id}").cuts[0].placement`,
      () =>
        lib.boardPages(
          { ...layout, boards: [{ ...board, placements: [] }] },
          { ...title, plans: new Map([[board.id, planned]]) },
        ),
    ],
    ['boards', () => lib.drawPlacementSheets(null, title)],
    [
      'job.boards[0].trim.rightEnd',
      () =>
        lib.batchFromJob(
          jobWith({
            trim: { topEdge: 0, straightEdge: 'clean', leftEnd: 0, rightEnd: Number.POSITIVE_INFINITY },
          }),
          pattern,
          'job.json',
        ),
    ],
    [
      'job.boards[0].defects[0].diameter',
      () => lib.batchFromJob(jobWith({ defects: [{ at: [9, 9], diameter: '20 mm' }] }), pattern, 'job.json'),
    ],
    [
      'job.boards[0].defects[0].outline',
      () => lib.batchFromJob(jobWith({ defects: [{ outline: [] }] }), pattern, 'job.json'),
    ],
    [
      'layout.boards[0].sections[0].number',
      () => lib.planCuts({ ...layout, boards: [{ ...board, sections: [{ number: 0, from: 0, to: 100 }] }] }),
    ],
    [
      'layout.boards[0].offcuts[0].rectangle.maxX',
      () =>
        lib.planCuts({
          ...layout,
          boards: [
            {
              ...board,
              offcuts: [
                {
                  id: 'k',
                  region: board.usable,
                  rectangle: { minX: 0, minY: 0, maxX: 1e15, maxY: 9 },
                  area: 9,
                  lines: [],
                },
              ],
            },
          ],
        }),
    ],
    ['options.paper', () => lib.boardPages(layout, { ...title, paper: [] })],
    ['options.paper.width', () => lib.boardPages(layout, { ...title, paper: { width: 1e308, height: 300 } })],
    ['options.paper.roll', () => lib.partPages(layout, { ...title, paper: { roll: '24 in' } })],
    [
      'options.plan.cuts[0].piece',
      () => lib.drawPlacementSheet(board, { ...title, plan: cutting({ kind: 'opening', piece: -1 }) }),
    ],
    [
      'options.plan.cuts[0].placement',
      () => lib.drawPlacementSheet(board, { ...title, plan: cutting({ part: 'mast' }) }),
    ],
    [
      'plan.boards[0].cuts[0].placement',
      () => lib.cutsCsv(layout, { ...cutPlan, boards: [cutting({ part: 'mast' })] }),
    ],
    [
      'plan.boards[0].board',
      () => lib.cutsCsv(layout, { ...cutPlan, boards: [{ ...planned, board: 'W-9' }] }),
    ],
    [
      'plan.boards[0].sections[0].to',
      () => lib.cutsCsv(layout, { ...cutPlan, boards: [{ ...planned, sections: [{ from: 0, to: 1e15 }] }] }),
    ],
    ['plan.boards[0].holes[0].room', () => lib.cutsCsv(layout, { ...cutPlan, boards: [tightHole] })],
    // Copied, these would have lost their fields.
    ['batch.demands', () => lib.woodBounds(Object.create(batch), layout)],
    ['stock[0].outline', () => lib.materialAccount(layout, [Object.create(batch.boards[0])])],
    ['options.plan.cuts[0].line', () => lib.drawPlacementSheet(board, { ...title, plan: lineless })],
    ['page.drawing.marks[0].kind', () => lib.pageToSvg(pageOf({ kind: 'circle' }))],
    ['page.drawing.marks[0].role', () => lib.pageToSvg(pageOf({ kind: 'line', points: [] }))],
    [
      'page.drawing.marks[0].points',
      () => lib.pageToSvg(pageOf({ kind: 'line', role: 'vein', points: [[0, Number.NaN]] })),
    ],
    [
      'page.drawing.marks[0].marks[0].text',
      () => lib.pageToSvg(pageOf({ kind: 'group', id: 'a', title: 'a', marks: [{ kind: 'text' }] })),
    ],
    [
      'page.drawing.marks[0].marks[0].kind',
      () => lib.pageToSvg(pageOf({ kind: 'map', scale: 1, shift: [0, 0], marks: [{ kind: 'text' }] })),
    ],
    ['options.work.pattern', () => report(assembly, { ...pattern, layers: [] })],
    ['options.work.pattern', () => report({ ...assembly, parts: [{ ...assembly.parts[0], part: 'mast' }] })],
    ['options.work.assembly.restPlane', () => report({ ...assembly, restPlane: Number.NaN })],
  ])('is named: %s', (field, run) => {
    let thrown: unknown;
    try {
      run();
    } catch (error) {
      thrown = error;
    }
    expect(thrown).toBeInstanceOf(fretlay.FretlayError);
    expect((thrown as fretlay.FretlayError).issues.map(({ where }) => where?.field)).toContain(field);
  });

  it('is given back by those that do not throw', () => {
    expect(lib.tryReadJob(null)).toMatchObject({ job: undefined, issues: [{ where: { field: 'text' } }] });
    expect(lib.tryReadPattern(null)).toMatchObject({ issues: [{ where: { field: 'svgText' } }] });
    expect(lib.tryPatternFromDrawing(drawingOf({}))).toMatchObject({
      pattern: undefined,
      issues: [{ where: { field: 'drawing.root.children[0].kind' } }],
    });
  });

  it('is told by its place on the board alone where a shape crosses itself', () => {
    const [placed] = board.placements;
    const crossing = {
      outline: [
        [0, 0],
        [9, 9],
        [9, 0],
        [0, 7],
      ],
      openings: [],
    };
    const boards = [{ ...board, placements: [{ ...placed, region: crossing }] }];
    const told = lib.verifyLayout({ ...layout, boards }).breaches.map(({ message }: Issue) => message);
    // Where y = x meets the line from (9, 0) to (0, 7): at 63 / 16.
    expect(told.join()).toMatch(/at or near point \(3\.93[78], 3\.93[78]\)/);
  });

  it('is not what makes sense', () => {
    // What a layout says is no matter of its form: a wrong number is a breach.
    const kinds = lib.verifyLayout({ ...layout, kerf: Number.NaN }).breaches.map(({ kind }: Issue) => kind);
    expect(kinds).toContain('setting-invalid');
    expect(lib.planCuts(layout, { blades: fretlay.COMMON_BLADES, throat: 400, tab: 2 }).boards).toHaveLength(
      layout.boards.length,
    );
    expect(lib.boardPages(layout, { ...title, paper: { roll: 600 } }).length).toBeGreaterThan(0);
  });
});
