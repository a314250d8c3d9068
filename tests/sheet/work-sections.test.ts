import { describe, expect, it } from 'vitest';
import { estimate } from '../../src/costing/estimate.ts';
import { boardsToTake } from '../../src/model/boards-to-take.ts';
import type { LaidBoard } from '../../src/model/layout.ts';
import type { Pattern } from '../../src/model/pattern.ts';
import { planAssembly } from '../../src/sawing/assembly/plan-assembly.ts';
import { planCuts } from '../../src/sawing/plan-cuts.ts';
import { amountsOf, workTime } from '../../src/sawing/time/work-time.ts';
import { textWidth } from '../../src/sheet/marks/text-width.ts';
import { batchChart } from '../../src/sheet/report/batch-chart.ts';
import { drawReport } from '../../src/sheet/report/report.ts';
import { type ReportWork, workSections } from '../../src/sheet/report/work-sections.ts';
import { writeElement } from '../../src/svg/write.ts';
import { fullBoard, layoutOf, rectangle } from '../sawing/boards.ts';

const region = (x: number, y: number, width: number, height: number) => ({
  outline: rectangle(x, y, width, height),
  openings: [],
});
const layer = (name: string, ...regions: readonly ReturnType<typeof region>[]) => ({
  name,
  parts: regions.map((each, i) => ({ layer: name, name: `part ${i + 1}`, region: each, veins: [] })),
});

/** A back 100 mm wide, a front that misses the plane by half a millimetre, and a sign that hangs. */
const PATTERN = {
  layers: [
    layer('Back', region(0, 0, 100, 60)),
    layer('Front', region(20, 39.5, 40, 20), region(70, 5, 20, 20)),
  ],
} as unknown as Pattern;

const layout = layoutOf(fullBoard());

function workOf(tab?: number, species = 'black walnut'): ReportWork {
  const cutPlan = planCuts(layout, tab === undefined ? {} : { tab });
  const wood = { species, thickness: 19.05, grain: 'along' } as const;
  const assembly = planAssembly(PATTERN, { layers: { Back: wood, Front: { ...wood, thickness: 6.35 } } });
  const time = workTime(amountsOf(cutPlan, assembly, 1));
  const costs = estimate({ layout, stock: [], plan: cutPlan, assembly, time });
  const size = { how: 'this batch', boards: 1, wood: 0, piece: costs.piece, minutes: time.total } as const;
  const batchSizes = [
    { ...size, sets: 1 },
    { ...size, sets: 20, how: 'repeated' as const },
  ];
  return { pattern: PATTERN, cutPlan, assembly, estimate: costs, batchSizes };
}

function sections(unit: 'mm' | 'in', tab?: number): string {
  return workSections(workOf(tab), unit)
    .map(({ markup }) => markup)
    .join('\n');
}

/** The words a reader sees, without the drawings. */
function words(markup: string): string {
  return markup
    .replace(/<svg.*?<\/svg>/gs, ' ')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');
}

it('edges of veins are not sanded: they have none', () => {
  const { cutPlan, estimate: costs } = workOf();
  const [{ cuts, cutLength }] = cutPlan.boards;
  const veins = cuts.filter(({ kind }) => kind === 'vein').reduce((sum, { length }) => sum + length, 0);
  expect(veins).toBeGreaterThan(0);
  const sanded = costs.time.lines.find(({ constant }) => constant === 'edgeSanding');
  expect(sanded?.amount).toBeCloseTo((cutLength - veins) / 1000, 9);
});

describe('the sections on the work', () => {
  it('are in the unit of the job throughout: no metres, no grams for a maker of inches', () => {
    const inches = words(sections('in'));
    expect(inches).not.toMatch(/\d (mm|cm|m|m2|m²|g|kg)\b/);
    expect(inches).not.toMatch(/\ba (m2?|kg)\b|Metre|Kilogram/);
    expect(inches).toContain('0.02 in above');
    expect(words(sections('mm'))).not.toMatch(/\d (in|ft|oz)\b(?! (of|all|a)\b)/);
  });

  it('tell no movement of a wood that is not in the table', () => {
    const joints = (species?: string) =>
      words(
        workSections(workOf(undefined, species), 'in')
          .map(({ markup }) => markup)
          .join(''),
      );
    expect(joints('bog oak')).toContain('sq in unknown unknown: a species is not in the table');
    expect(joints()).toMatch(/sq in 0\.00\d in coefficient|sq in 0 in coefficient/);
  });

  it('write a range of glue that its decimals make one number as that number', () => {
    const amounts = (glueGrams: readonly [number, number]) => {
      const work = workOf();
      const [, glueUp] = workSections({ ...work, assembly: { ...work.assembly, glueGrams } }, 'mm');
      return words(glueUp.markup).match(/[\d.]+(?: to [\d.]+)? g of glue/)?.[0];
    };
    expect([amounts([0.08, 0.11]), amounts([1.2, 1.7])]).toEqual(['0.1 g of glue', '1.2 to 1.7 g of glue']);
  });

  it('cut names of parts and boards that are too long to be read, as the table of parts does', () => {
    const work = workOf();
    const long = 'reed '.repeat(200);
    const lengthened = <T extends { layer: string }>(each: T) => ({ ...each, layer: `${long}${each.layer}` });
    const layers = PATTERN.layers.map(({ name, parts }) => ({
      name: `${long}${name}`,
      parts: parts.map(lengthened),
    }));
    const named: ReportWork = {
      ...work,
      pattern: { ...PATTERN, layers },
      assembly: { ...work.assembly, parts: work.assembly.parts.map(lengthened) },
      cutPlan: { ...work.cutPlan, boards: work.cutPlan.boards.map((each) => ({ ...each, board: long })) },
    };
    const [saw, glueUp] = workSections(named, 'mm');
    for (const { markup } of [saw, glueUp]) {
      expect(words(markup)).toContain('reed reed');
      expect(words(markup)).not.toContain('reed '.repeat(25));
    }
  });

  it('speak of no glue and no joints where no part touches another', () => {
    const work = workOf();
    const [, glueUp] = workSections(
      { ...work, assembly: { ...work.assembly, joints: [], glueGrams: [0, 0] } },
      'mm',
    );
    expect(words(glueUp.markup)).toContain('No part touches another: nothing is glued.');
    expect(words(glueUp.markup)).not.toMatch(/g of glue|Joints/);
  });

  it('say how often a joint of several copies is glued', () => {
    const work = workOf();
    const joints = work.assembly.joints.map((joint) => ({ ...joint, copies: 3 }));
    const [, once] = workSections(work, 'mm');
    const [, often] = workSections({ ...work, assembly: { ...work.assembly, joints } }, 'mm');
    expect(words(once.markup)).not.toContain('times');
    expect(words(often.markup)).toContain('2 on 1, 3 times');
  });

  it('count in words that fit the number', () => {
    const text = words(sections('in'));
    expect(text).toMatch(/\d{2} cuts /);
    expect(text).toMatch(/ 1 batch /);
    expect(text).not.toMatch(/(?<!\d)(?!1 )[\d.]+ (blade|hole|cut|board|part|joint|threading|sharp corner) /);
  });

  it('say of every table what it is for', () => {
    const captions = [...sections('mm').matchAll(/<caption>(.*?)<\/caption>/g)].map(([, text]) => text);
    expect(captions.length).toBe(8);
    for (const caption of captions) expect(caption.length).toBeGreaterThan(25);
  });

  it('tell the lead-ins, the saving and what it is compared with, and what holds the small parts', () => {
    const last = words(sections('mm'));
    expect(last).toMatch(/Besides, 0\.\d\d m of lead-ins through waste/);
    expect(last).toMatch(/\d+ % less than the \d\.\d\d m of the same stages, each sawn from left to right/);
    expect(last).toContain('Small parts are the last cuts of each section');
    expect(words(sections('mm', 4))).toContain('Small parts hang in the board by a tab of 4 mm');
  });

  it('say of each board how many are sawn at once, how often, and in how many sections, where it is not one', () => {
    const work = workOf();
    const [board] = work.cutPlan.boards;
    const captionOf = (fields: Partial<typeof board>) => {
      const cutPlan = { ...work.cutPlan, boards: [{ ...board, ...fields }] };
      const [saw] = workSections({ ...work, cutPlan }, 'mm');
      return /Cuts in order: [^<"]*/.exec(saw.markup)?.[0];
    };
    const plain = 'Cuts in order: 19.05 mm of black walnut under the blade';
    const holes = `${board.holes.length} holes to drill first`;
    expect(captionOf({})).toBe(`${plain}, ${holes}`);
    const sections = [
      { number: 1, from: 0, to: 300 },
      { number: 2, from: 303, to: 600 },
    ];
    expect(captionOf({ stack: 3, copies: 2, sections })).toBe(
      `${plain}, 3 boards in a stack, to do twice, 2 sections, one after the other, ${holes}`,
    );
    expect(captionOf({ copies: 4, holes: [] })).toBe(`${plain}, to do 4 times, no holes`);
  });

  it('say what is saved in travel as a share of the way from left to right, where anything is', () => {
    const told = (travel: number, travelLeftToRight: number) => {
      const work = workOf();
      const [saw] = workSections({ ...work, cutPlan: { ...work.cutPlan, travel, travelLeftToRight } }, 'mm');
      return /Between cuts the boards move [^<]*/.exec(saw.markup)?.[0];
    };
    expect(told(2500, 10_000)).toMatch(
      / 2\.50? m under the blade: 75 % less than the 10\.0?0? m of the same stages/,
    );
    expect(told(2500, 2500)).toMatch(/^Between cuts the boards move 2\.50? m under the blade\.$/);
  });

  it('speak of tabs only where there are some', () => {
    const work = workOf(4);
    const cuts = work.cutPlan.boards[0].cuts.filter(({ kind }) => kind !== 'tab');
    const without = { ...work.cutPlan, boards: [{ ...work.cutPlan.boards[0], cuts }] };
    const [saw] = workSections({ ...work, cutPlan: without }, 'mm');
    expect(words(saw.markup)).not.toContain('hang in the board by a tab');
    expect(words(sections('mm'))).not.toContain('hang in the board by a tab');
  });

  it('name a wood that is written in two ways once among those a blade saws', () => {
    const two = layoutOf(fullBoard(), { ...fullBoard(), id: 'B-1', species: 'Black-Walnut' });
    const page = words(
      workSections({ ...workOf(), cutPlan: planCuts(two) }, 'mm')
        .map(({ markup }) => markup)
        .join('\n'),
    );
    const blades = page.slice(page.indexOf('Blades to have at hand'), page.indexOf('Cuts in order'));
    expect(blades).toContain('black walnut 19.05 mm');
    expect(blades).not.toContain('Black-Walnut');
  });

  it('put veins sawn in passing in the row of the line they branch off', () => {
    expect(words(sections('mm'))).toMatch(
      /\d to \d+ .{1,40}1.vein in passing .*turn into each vein where the line meets it/,
    );
  });

  it('name the drills: fractions of an inch with their decimals, or tenths of a millimetre', () => {
    expect(words(sections('in'))).toMatch(/holes to drill(, |: \d+ with )\d\/\d+ in \(0\.\d+\)/);
    expect(words(sections('mm'))).toMatch(/drill \d\.\d.mm/);
  });

  it('show what misses the plane, what hangs, and the sizes of batch with their chart', () => {
    const text = words(sections('mm'));
    expect(text).toContain('0.5 mm above');
    expect(text).toContain('hangs 35 mm above');
    expect(text).toContain('the quick layout of 10, repeated');
    expect(sections('mm')).toContain('Cost of a piece by size of batch. 1 set:');
  });
});

it('a log that is there is not asked for, and the times fitted to it are told from the common ones', () => {
  const text = (work: ReportWork) =>
    words(
      workSections(work, 'mm')
        .map(({ markup }) => markup)
        .join(''),
    );
  const without = text(workOf());
  expect(without).toContain('until you log your own times');
  expect(without).not.toContain('fitted to your log');
  const logged = text({ ...workOf(), calibration: { fitted: ['drilling'] } });
  expect(logged).not.toContain('until you log');
  expect(logged).toContain('(drilling, fitted to your log)');
  expect(logged).toContain('(sawing)');
});

it('prices of a board are told so finely that they come to what the board costs', () => {
  const work = workOf();
  const [line] = work.estimate.lines;
  const priced = (value: number, cents: number) => {
    const price = { name: 'price of one', value, unit: 'a board', from: 'boards: A' };
    const cost = { low: cents, likely: cents, high: cents };
    const estimate = { ...work.estimate, lines: [{ ...line, inputs: [price], cents: cost }] };
    return words(
      workSections({ ...work, estimate }, 'in')
        .map(({ markup }) => markup)
        .join('\n'),
    );
  };
  expect(priced(32.62499999999999, 3263)).toContain('price of one $32.625 a board (boards: A) $32.63');
  expect(priced(1234.56, 123456)).toContain('price of one $1234.56 a board (boards: A) $1234.56');
  expect(priced(16.4, 1640)).toContain('price of one $16.40 a board');
  expect(priced(9, 900)).toContain('price of one $9.00 a board');
  expect(priced(0.371612, 37)).toContain('price of one $0.3716 a board');
});

describe('the sizes of a batch', () => {
  const shown = (wood: number | undefined) => {
    const work = workOf();
    const batchSizes = work.batchSizes.map((size) => ({ ...size, wood }));
    return words(
      workSections({ ...work, batchSizes }, 'mm')
        .map(({ markup }) => markup)
        .join(''),
    );
  };

  it('do not have wood for nothing where boards have no price', () => {
    expect(shown(undefined)).toMatch(/20 the quick layout of 10, repeated 1 not known /);
    expect(shown(undefined)).toContain('the wood is not in it');
    expect(shown(0)).toMatch(/20 the quick layout of 10, repeated 1 \$0\.00 /);
    expect(shown(0)).toContain('the dark part is wood.');
  });

  it.each(['$', 'dollars', 'kroner'])(
    'have sums in %s above their bars that do not run together',
    (currency) => {
      const [size] = workOf().batchSizes;
      const likely = 12_345;
      const sizes = [1, 10, 20, 50].map((sets) => ({
        ...size,
        sets,
        piece: { low: likely, likely, high: likely },
      }));
      const chart = writeElement(batchChart(sizes, currency));
      const sums = [...chart.matchAll(/<text x="([\d.]+)" y="[\d.]+">([^<]*\.45[^<]*)</g)];
      const middles = sums.map(([, x]) => Number(x));
      const half = textWidth(sums[0][2], 11) / 2;
      const [, right] = chart.match(/viewBox="0 0 ([\d.]+) /) ?? [];
      expect(middles.length).toBe(4);
      for (let i = 1; i < middles.length; i++)
        expect(middles[i] - half).toBeGreaterThan(middles[i - 1] + half);
      expect(middles[0]).toBeGreaterThan(half);
      expect(middles[3] + half).toBeLessThan(Number(right));
    },
  );

  it('tell all times in one unit', () => {
    const work = workOf();
    const [first] = work.batchSizes;
    const batchSizes = [174, 91, 89].map((minutes) => ({
      ...first,
      minutes: { likely: minutes, low: minutes, high: minutes },
    }));
    const shownHours = words(
      workSections({ ...work, batchSizes }, 'mm')
        .map(({ markup }) => markup)
        .join(''),
    );
    for (const time of ['2.9 h', '1.5 h']) expect(shownHours).toContain(time);
    expect(shownHours).not.toContain('89 min');
  });
});

describe('the top of the report', () => {
  const report = (fields: Partial<Parameters<typeof drawReport>[1]> = {}) =>
    drawReport(layout, { job: 'job.json', unit: 'mm', work: workOf(), ...fields });
  const top = (page: string) => words(page.slice(page.indexOf('<body>'), page.indexOf('To look at')));

  it('is price, cost, hours and boards, before anything else', () => {
    const text = top(report());
    const { prices, piece, time } = workOf().estimate;
    expect(text).toContain(`Price of a piece $${(prices[0].price / 100).toFixed(2)} direct`);
    expect(text).toContain(`Cost of a piece $${(piece.likely / 100).toFixed(2)} estimate`);
    expect(text).toContain(`Work on the batch ${(time.total.likely / 60).toFixed(1)} h`);
    expect(text).toContain('Boards to take: black walnut 19.05 mm: A-1.');
    expect(text).toContain('Boards to buy: nothing');
    expect(text).toMatch(/Blades that wear out: about \d of No\. \d/);
  });

  it('counts boards of one entry where they are many', () => {
    const boards = (count: number) =>
      Array.from({ length: count }, (_, i): LaidBoard => ({ ...fullBoard(), id: `A-${i + 1}`, stock: 'A' }));
    const shown = (count: number) =>
      top(drawReport(layoutOf(...boards(count)), { job: 'job.json', unit: 'mm' }));
    expect(shown(3)).toContain('19.05 mm: A-1, A-2, A-3.');
    expect(shown(4)).toContain('19.05 mm: 4 of A (A-1, A-2, A-3, A-4).');
  });

  it('says how many whole boards are taken of what is laid out in pieces, and what their letters mean', () => {
    const plain = fullBoard();
    const piece = (id: string, stock: string, more: object) => ({ ...plain, id, stock, ...more });
    const strips = ['Sheet-1a', 'Sheet-1b', 'Sheet-2a'].map((id) => piece(id, 'Sheet', { strips: 2 }));
    const both = ['Beam-1aa', 'Beam-1ab'].map((id) =>
      piece(id, 'Beam', { strips: 2, slices: 2, planeTo: 6, thickness: 26 }),
    );
    const shown = (boards: readonly LaidBoard[]) =>
      top(drawReport(layoutOf(...boards), { job: 'job.json', unit: 'mm' }));
    expect(shown(strips)).toContain(
      'Boards to take: black walnut 19.05 mm: 2 of Sheet (strips Sheet-1a, Sheet-1b, Sheet-2a).',
    );
    expect(shown([...strips, ...both])).toMatch(
      /26 mm: 1 of Beam \(strips and slices Beam-1aa, Beam-1ab\)\. .*the first is the strip.*the second the slice: rip first/,
    );
    const lengths = ['Plank-1a', 'Plank-1b'].map((id) => piece(id, 'Plank', { lengths: 2 }));
    expect(shown(lengths)).toContain(
      '1 of Plank (lengths Plank-1a, Plank-1b). Lengths are lettered from the left end',
    );
    const resawn = { lengths: 2, slices: 2, planeTo: 6, thickness: 26 };
    expect(shown([piece('Beam-1ab', 'Beam', resawn)])).toMatch(
      /\(length and slice Beam-1ab\)\. Lengths .*the first is the blank and the second the slice: rip and cross-cut/,
    );
    // A stack of two boards, and one layout for three boards.
    const stack = { ...plain, id: 'A-1', stock: 'A', pieces: ['A-1', 'A-4'], copies: 2 };
    const alike = { ...plain, id: 'B-1', stock: 'B', copies: 3 };
    expect(boardsToTake(layoutOf(stack, alike)).map(({ boards }) => boards)).toEqual([2, 3]);
  });

  it('says what to buy, and whether that completes the batch', () => {
    const item = { id: 'Oak at the mill', species: 'red oak', boards: 2, boardFeet: 5.5, price: 40 };
    const purchase = { items: [item], total: 40, completes: false, layout, issues: [], ruleOfThumb: [] };
    expect(top(report({ purchase }))).toContain(
      'Boards to buy: 2 of Oak at the mill (5.50 board feet) for $40.00. Even this does not complete the batch.',
    );
    const less = { ...item, id: 'Thick', boards: 1, price: 25 };
    const cheaper = [
      {
        species: 'red oak',
        thickness: 6,
        paid: 40,
        items: [less],
        total: 25,
        without: ['Oak at the mill'],
        work: 'resaw' as const,
      },
    ];
    expect(top(report({ purchase: { ...purchase, completes: true, cheaper } }))).toContain(
      'for $40.00. Cheaper with more work: red oak 6 mm is bought for $40.00; 1 of Thick would do for $25.00, by a quick layout, but would have to be resawn and planed, the time for which is in neither sum.',
    );
    // Those of the layout that are bought are told from those on the shelf.
    const bought = { ...fullBoard(), id: 'Mill-1', stock: 'Mill' };
    const shown = drawReport(layoutOf(fullBoard(), bought), {
      job: 'job.json',
      unit: 'mm',
      purchase: { ...purchase, items: [{ ...item, id: 'Mill' }] },
    });
    expect(top(shown)).toContain('Boards to take: black walnut 19.05 mm: A-1, to buy Mill-1.');
  });

  it('names each share of the wood by its own words, once', () => {
    const heads = [...report().matchAll(/<th scope="col"[^>]*>(.*?)<\/th>/g)].map(([, head]) => head);
    expect(heads.filter((head) => /yield/i.test(head))).toEqual(['Yield']);
  });
});
