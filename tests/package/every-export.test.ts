import { beforeAll, describe, expect, it } from 'vitest';
import * as fretlay from '../../src/index.ts';

/**
 * Every function the library exports, each of its arguments replaced by what plain JavaScript hands over by mistake: the
 * answer is a typed error that names the argument, or an issue that does; never an error of the language, never NaN.
 */

const SVG = `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40">
  <g id="Lake"><path id="boat" d="M5 25H55L45 35H15Z"/><path d="M20 30H40"/></g></svg>`;
const JOB = JSON.stringify({
  pattern: 'boat.svg',
  effort: 0,
  boards: [{ id: 'W', species: 'walnut', length: '120 mm', width: '60 mm', thickness: '6 mm', price: 5 }],
  costs: { batchSizes: [] },
});

const WRONG: readonly (readonly [string, unknown])[] = [
  ['null', null],
  ['undefined', undefined],
  ['NaN', Number.NaN],
  ['Infinity', Number.POSITIVE_INFINITY],
  ['-5', -5],
  ['a text', 'x'],
  ['[]', []],
  // biome-ignore lint/suspicious/noSparseArray: a gap in a list is one of the mistakes
  ['a list with a gap', [, 1]],
  ['{}', {}],
  ['a symbol', Symbol('none')],
];

/**
 * What each function is called with: an argument by its name as messages say it, a good value of it, and the wrong values
 * that are good ones here, as no boards are for sale or a text is an id.
 */
type Argument = readonly [field: string, good: unknown, ...fine: string[]];

const TEXT = 'a text';
/** What may be left out, or be empty. */
const OPTIONS = ['undefined', '{}'] as const;

async function calls(): Promise<Record<string, readonly Argument[]>> {
  const { pattern } = fretlay.readPattern(SVG);
  const { drawing } = fretlay.readDrawing(SVG);
  const job = fretlay.readJob(JOB);
  const rack = JSON.stringify({ boards: JSON.parse(JOB).boards });
  const result = await fretlay.runJob(job, SVG);
  const { layout, batch, check } = result;
  const work = await fretlay.planWork(job, result);
  const title = { job: 'job', unit: 'mm', kerf: 1 } as const;
  const pages = fretlay.boardPages(layout, title);
  const amounts = fretlay.amountsOf(work.cutPlan, work.assembly, 1);
  const time = fretlay.workTime(amounts);
  const batched = { layout, stock: batch.boards, plan: work.cutPlan, assembly: work.assembly, time };
  const issue = result.issues[0] ?? { kind: 'x', severity: 'note', message: 'told' };
  const wood = { Lake: { species: 'walnut', thickness: 6, grain: 'along' } };
  const file: Argument = ['file', 'file', 'undefined', TEXT];
  const unit: Argument = ['unit', 'mm', 'undefined'];
  const text = (field: string, good: string): Argument => [field, good, TEXT];
  return {
    estimate: [
      ['batched', batched],
      ['rates', {}, ...OPTIONS],
    ],
    traceEstimate: [['estimate', work.estimate], unit],
    counted: [['count', 1, '-5'], text('one', 'board'), ['many', undefined, TEXT, 'undefined']],
    formatIssue: [['issue', issue], unit],
    worstFirst: [['issues', [issue], '[]']],
    toldTogether: [['issues', [issue], '[]']],
    plainLine: [text('text', 'lake')],
    lengthsInText: [text('text', '3 mm'), ['unit', 'in']],
    batchFromJob: [['job', job], ['pattern', pattern], text('file', 'job.json')],
    planWork: [
      ['job', job],
      ['laid', result],
    ],
    drawJob: [
      ['job', job],
      ['result', result],
      ['options', {}, ...OPTIONS],
    ],
    runJob: [
      ['job', job],
      ['svgText', SVG, TEXT],
      ['options', {}, ...OPTIONS],
    ],
    checkOptions: [['job', job]],
    drawingsOf: [['entries', job.boards, '[]']],
    jobJsonSchema: [],
    readRack: [['text', rack, TEXT], file],
    rackAfter: [
      ['text', rack, TEXT],
      ['layout', layout],
      ['stock', batch.boards, '[]'],
      ['batch', { design: 'd', sets: 1 }],
    ],
    readJob: [['text', JOB, TEXT], file],
    tryReadJob: [['text', JOB, TEXT], file],
    readLayout: [['text', JSON.stringify(layout), TEXT], file],
    readPattern: [
      ['svgText', SVG, TEXT],
      ['options', {}, ...OPTIONS],
    ],
    tryReadPattern: [
      ['svgText', SVG, TEXT],
      ['options', {}, ...OPTIONS],
    ],
    readDrawing: [
      ['svgText', SVG, TEXT],
      ['options', {}, ...OPTIONS],
    ],
    tryReadDrawing: [
      ['svgText', SVG, TEXT],
      ['options', {}, ...OPTIONS],
    ],
    tryReadDrawingBytes: [
      ['bytes', new TextEncoder().encode(SVG)],
      ['options', {}, ...OPTIONS],
    ],
    textOfBytes: [['bytes', new TextEncoder().encode(SVG)], file],
    patternFromDrawing: [
      ['drawing', drawing],
      ['options', {}, ...OPTIONS],
    ],
    tryPatternFromDrawing: [
      ['drawing', drawing],
      ['options', {}, ...OPTIONS],
    ],
    checkPattern: [
      ['pattern', pattern],
      ['options', {}, ...OPTIONS],
    ],
    findingIssue: [['group', check.groups[0]], text('file', 'boat.svg')],
    drawCheckPicture: [['pattern', pattern], ['check', check], unit],
    measurePart: [['part', pattern.layers[0].parts[0]]],
    measureLayer: [['layer', pattern.layers[0]]],
    measurePattern: [['pattern', pattern]],
    layOut: [
      ['batch', batch],
      ['options', { effort: 0 }, ...OPTIONS],
    ],
    whatToBuy: [
      ['batch', batch],
      ['offers', [], '[]'],
      ['options', { effort: 0 }, ...OPTIONS],
    ],
    verifyLayout: [
      ['layout', layout],
      ['batch', batch, 'undefined'],
    ],
    woodBounds: [
      ['batch', batch],
      ['layout', layout],
    ],
    withRemains: [
      ['layout', layout],
      ['batch', batch],
    ],
    materialAccount: [
      ['layout', layout],
      ['stock', batch.boards, '[]'],
    ],
    boardsToTake: [['layout', layout]],
    isInPieces: [['board', layout.boards[0], '{}']],
    unpricedWood: [['estimate', work.estimate]],
    planCuts: [
      ['layout', layout],
      ['options', {}, ...OPTIONS],
    ],
    planAssembly: [
      ['pattern', pattern],
      ['options', { layers: wood }],
    ],
    amountsOf: [
      ['plan', work.cutPlan],
      ['assembly', work.assembly],
      ['pieces', 1],
    ],
    preparingAmounts: [['layout', layout]],
    workTime: [
      ['amounts', amounts, '{}'],
      ['constants', fretlay.timeConstants(), 'undefined'],
    ],
    timeConstants: [['own', {}, ...OPTIONS]],
    calibrate: [
      ['log', [{ amounts: { sawing: 3 }, minutes: 10 }], '[]'],
      ['start', fretlay.timeConstants(), 'undefined'],
      ['hold', 1, 'undefined'],
    ],
    woodFacts: [text('species', 'walnut')],
    drawPlacementSheet: [
      ['board', layout.boards[0]],
      ['options', title],
      ['drawer', undefined, 'undefined'],
    ],
    drawPlacementSheets: [
      ['boards', layout.boards, '[]'],
      ['options', title],
      ['plans', undefined, 'undefined'],
    ],
    boardPages: [
      ['layout', layout],
      ['options', title],
      ['drawer', undefined, 'undefined'],
    ],
    partPages: [
      ['layout', layout],
      ['options', title],
      ['drawer', undefined, 'undefined'],
    ],
    boardsToPdf: [['layout', layout], ['options', title], text('title', 'job')],
    pagesToPdf: [['pages', pages, '[]'], text('title', 'job')],
    pageToSvg: [['page', pages[0]]],
    drawReport: [
      ['layout', layout],
      ['options', { ...title, work: { ...work, pattern } }],
    ],
    cutsCsv: [['layout', layout], ['plan', work.cutPlan], unit],
    partsCsv: [['layout', layout], unit],
    formatHours: [
      ['minutes', 30],
      ['longest', 100, 'undefined'],
    ],
    formatInches: [['inches', 1, '-5']],
    formatLength: [
      ['mm', 1, '-5'],
      ['unit', 'mm'],
      ['digits', 1, 'undefined'],
    ],
    formatMoney: [['cents', 1, '-5'], text('currency', '$')],
    partKey: [['name', { layer: 'Lake', part: 'boat' }]],
    notInBatch: [
      ['pattern', pattern],
      ['cut', layout.setContents, '[]'],
    ],
    sawnParts: [
      ['pattern', pattern],
      ['check', check],
      ['radius', 5, 'undefined'],
    ],
    namesUnit: [text('text', '3 in')],
    parseLength: [
      ['input', '3 in', TEXT, 'NaN', 'Infinity', '-5'],
      ['defaultUnit', 'mm', 'undefined'],
    ],
    boardFeet: [
      ['area', 100],
      ['thickness', 10],
    ],
    quarterThickness: [text('label', '4/4')],
  };
}

/** The fields that the issues of a call name: thrown, or given back by those that do not throw; none of a result. */
async function fieldsNamed(name: string, args: readonly unknown[]): Promise<readonly (string | undefined)[]> {
  const call = (fretlay as unknown as Record<string, (...args: readonly unknown[]) => unknown>)[name];
  try {
    const result = (await call(...args)) as { readonly issues?: readonly fretlay.Issue[] } | undefined;
    return name.startsWith('try') ? (result?.issues ?? []).map(({ where }) => where?.field) : [];
  } catch (error) {
    // Anything else was met within the library: told by its own name, to be found at once.
    if (!(error instanceof fretlay.FretlayError)) throw new Error(`${name}: ${error}`);
    for (const { expected, received } of error.issues)
      expect([expected, received]).toEqual([expect.any(String), expect.any(String)]);
    return error.issues.map(({ where }) => where?.field);
  }
}

describe('every exported function', () => {
  let table: Record<string, readonly Argument[]>;
  beforeAll(async () => {
    table = await calls();
  });

  it('stands in the table', () => {
    const functions = Object.entries(fretlay).flatMap(([name, value]) =>
      // The error class is what they throw; the drawer is made of nothing and only handed on.
      typeof value === 'function' && name !== 'FretlayError' && name !== 'PartDrawer' ? [name] : [],
    );
    expect(Object.keys(table).sort()).toEqual(functions.sort());
  });

  it('names the argument that makes no sense', async () => {
    const unnamed: string[] = [];
    let tried = 0;
    for (const [name, list] of Object.entries(table))
      for (const [i, [field, , ...fine]] of list.entries())
        for (const [words, wrong] of WRONG) {
          if (fine.includes(words)) continue;
          tried++;
          const args = list.map(([, good], k) => (k === i ? wrong : good));
          const named = await fieldsNamed(name, args);
          // The argument itself, a field in it, or one of its fields told without it as the options of readers are.
          const isNamed = named.some((each) => each !== undefined && each.split(/[.[]/)[0] === field);
          if (!isNamed) unnamed.push(`${name}(${field} = ${words}): ${named.join(', ') || 'no error'}`);
        }
    expect(unnamed).toEqual([]);
    expect(tried).toBeGreaterThan(800);
  });
});
