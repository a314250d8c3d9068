import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Batched, estimate } from '../../src/costing/estimate.ts';
import { priceFor } from '../../src/costing/price.ts';
import type { Rates } from '../../src/costing/rates.ts';
import { traceEstimate } from '../../src/costing/trace.ts';
import { FretlayError } from '../../src/issues/fretlay-error.ts';
import type { AssemblyPlan } from '../../src/model/assembly.ts';
import type { LaidBoard } from '../../src/model/layout.ts';
import type { Board } from '../../src/model/stock.ts';
import { planCuts } from '../../src/sawing/plan-cuts.ts';
import { workTime } from '../../src/sawing/time/work-time.ts';
import { formatMoney, toCents } from '../../src/units/money.ts';
import { outsideCheck } from '../outside-check.ts';
import { board, layoutOf, part, rectangle } from '../sawing/boards.ts';
import { areas, oak } from './priced-oak.ts';

const NOTHING: Partial<Rates> = {
  perBlade: 0,
  patternPerSquareMetre: 0,
  perHole: 0,
  gluePerKilogram: 0,
  finishPerSquareMetre: 0,
  overhead: 0,
};
const assembly: AssemblyPlan = {
  parts: [],
  joints: [],
  width: 0,
  height: 0,
  depth: 0,
  restPlane: undefined,
  glueGrams: [10, 20],
  weight: undefined,
  faces: 40_000,
  surface: 50_000,
  issues: [],
};
const plates = (fields: Partial<LaidBoard> = {}) =>
  board([part('plate', rectangle(10, 10, 100, 100)), part('plate', rectangle(120, 10, 100, 100))], {
    species: 'red oak',
    ...fields,
  });

function costed(
  boards: readonly LaidBoard[],
  rates: Partial<Rates> = {},
  sets = 2,
  stock: readonly Board[] = [oak],
) {
  const laid = layoutOf(...boards);
  const layout = { ...laid, sets, figures: { ...laid.figures, completeSets: sets } };
  const hour = { sawing: 1 };
  const constants = { sawing: { low: 120, likely: 180, high: 240 } };
  const time = workTime(hour, { ...constants } as Parameters<typeof workTime>[1]);
  return estimate({ layout, stock, plan: planCuts(layout), assembly, time }, rates);
}

/** What is costed, with another first board in its layout. */
const onBoard = (given: Batched, fields: object) => ({
  ...given,
  layout: { ...given.layout, boards: [{ ...given.layout.boards[0], ...fields }] },
});

describe('an estimate', () => {
  it('is that of a craft pricing page: 15 of materials, 3 h at 20, overhead 10 % make 82.50, doubled 165.00', () => {
    const stock = [{ ...oak, price: 15 }];
    const { batch, piece, prices } = costed(
      [plates()],
      { ...NOTHING, labourPerHour: 20, overhead: 0.1, markup: 1 },
      1,
      stock,
    );
    outsideCheck({
      what: 'Cost and price of a piece: 15 of materials, 3 h at 20, overhead 10 %, doubled, cents',
      source: "A craft pricing page's worked example (common practice)",
      expected: [8250, 16500],
      found: [piece.likely, prices[0].price],
    });
    expect(batch.likely).toBe(8250);
    expect(prices).toMatchObject([{ channel: 'direct', price: 16500, fees: 0, profit: 8250 }]);
  });

  it('adds up to the cent, and every line is the product of its inputs', () => {
    const result = costed([plates()], { labourPerHour: 23.37, overhead: 0.137 }, 7);
    for (const end of ['low', 'likely', 'high'] as const)
      expect(result.lines.reduce((sum, { cents }) => sum + cents[end], 0)).toBe(result.batch[end]);
    for (const { cents, inputs } of result.lines) {
      expect(Number.isInteger(cents.likely)).toBe(true);
      expect(inputs.every(({ from }) => from.length > 3)).toBe(true);
      expect(
        Math.abs(cents.likely - 100 * inputs.reduce((all, { value }) => all * value, 1)),
      ).toBeLessThanOrEqual(0.5 + 1e-9);
      expect(cents.low).toBeLessThanOrEqual(cents.likely);
      expect(cents.likely).toBeLessThanOrEqual(cents.high);
    }
    const over = result.piece.likely * 7 - result.batch.likely;
    expect(over).toBeGreaterThanOrEqual(0);
    expect(over).toBeLessThan(7);
    for (const { price, fees, profit } of result.prices)
      expect(fees + profit + result.piece.likely).toBe(price);
  });

  it('charges whole boards, credits what is kept, and says how much wood went into parts', () => {
    const { lines, woodInParts } = costed([plates({ areas })], { keeperCredit: 0.5 });
    const cents = Object.fromEntries(lines.map(({ name, cents: { likely } }) => [name, likely]));
    expect(cents['Board A, red oak']).toBe(1000);
    // Half of the board is kept, at half of its price.
    expect(cents['Offcuts kept of A']).toBe(-250);
    // Two plates of 100 x 100 of a board of 600 x 150.
    expect(woodInParts).toBe(222);
    const resawn = costed([plates({ slices: 2 })], NOTHING);
    expect(resawn.lines[0].cents.likely).toBe(500);
  });

  it('notes a board without a price and an incomplete batch', () => {
    const result = costed([plates()], {}, 2, [{ ...oak, price: undefined }]);
    expect(result.issues.map(({ kind }) => kind)).toEqual(['board-without-price']);
    const laid = layoutOf(plates());
    const time = workTime({});
    const partly = estimate({
      layout: { ...laid, sets: 3 },
      stock: [oak],
      plan: planCuts(laid),
      assembly,
      time,
    });
    expect(partly.issues.map(({ kind }) => kind)).toEqual(['batch-incomplete']);
  });

  it('can be followed line by line', () => {
    const text = traceEstimate(costed([plates()], { labourPerHour: 20 }));
    expect(text).toContain(
      'Board A, red oak: boards 1 (layout) x price of one 10 a board (boards: A) = $10.00',
    );
    expect(text).toContain('Labour: hours 3 h (work time) x rate 20 an hour (costs: labourPerHour) = $60.00');
    expect(text).toContain('sawing: 1 x 180 min a m in 19.05 mm wood');
  });

  it('is followed in feet and ounces by a maker of inches, the fields of the job named to match', () => {
    const text = traceEstimate(costed([plates()]), 'in');
    expect(text).not.toMatch(/ m2|kg\b|Metre|Kilogram/);
    expect(text).toMatch(/Glue: glue for a piece [\d.]+ oz .* rate [\d.]+ an oz \(costs: gluePerOunce\)/);
    expect(text).toMatch(/Finish: .* sq ft .* a sq ft \(costs: finishPerSquareFoot\)/);
    // 180 min a metre are 54.864 min a foot.
    expect(text).toContain('sawing: 3.2808399 x 54.864 min a ft in 3/4 in wood of 1000 lbf');
  });

  it('comes out the same to the cent when its text is worked out again', () => {
    const result = costed(
      [plates({ areas })],
      { labourPerHour: 23.37, overhead: 0.137, keeperCredit: 0.35 },
      7,
    );
    for (const unit of ['mm', 'in'] as const) {
      const text = traceEstimate(result, unit).split('\n');
      const costs = text.slice(text.indexOf('Costs of the batch') + 1);
      const lines = costs.slice(
        0,
        costs.findIndex((line) => line.startsWith('sum of the lines')),
      );
      expect(lines.length).toBe(result.lines.length);
      let sum = 0;
      for (const line of lines) {
        const [, product, money] = /: (.*) = (-?\$[\d.]+)/.exec(line) ?? [];
        // Each factor is a name, a figure, perhaps a unit, and in brackets where it comes from.
        const figures = product
          .split(' x ')
          .map((factor) => Number(/ (-?[\d.e-]+)(?: |$)/.exec(factor.replace(/\(.*/, ''))?.[1]));
        const cents = toCents(figures.reduce((all, each) => all * each, 1));
        expect([line, cents]).toEqual([line, Math.round(100 * Number(money.replace('$', '')))]);
        sum += cents;
      }
      expect(sum).toBe(result.batch.likely);
    }
  });

  it('adds up to the cent whatever the rates, the price and the number of pieces', () => {
    const money = fc.double({ min: 0, max: 500, noNaN: true });
    const share = fc.double({ min: 0, max: 0.9, noNaN: true });
    fc.assert(
      fc.property(
        fc.record({
          labourPerHour: money,
          perBlade: money,
          gluePerKilogram: money,
          overhead: share,
          markup: share,
          keeperCredit: share,
        }),
        fc.record({ price: money, fee: share, perPiece: money, sets: fc.integer({ min: 1, max: 60 }) }),
        (rates, { price, fee, perPiece, sets }) => {
          const channels = [{ name: 'fair', fee, perPiece }];
          const { lines, batch, piece, prices } = costed([plates()], { ...rates, channels }, sets, [
            { ...oak, price },
          ]);
          for (const end of ['low', 'likely', 'high'] as const) {
            expect(lines.reduce((sum, { cents }) => sum + cents[end], 0)).toBe(batch[end]);
            expect(piece[end] * sets - batch[end]).toBeGreaterThanOrEqual(0);
            expect(piece[end] * sets - batch[end]).toBeLessThan(sets);
          }
          for (const sold of prices) expect(sold.fees + sold.profit + piece.likely).toBe(sold.price);
        },
      ),
      { seed: 5, numRuns: 100 },
    );
  });
});

describe('a price', () => {
  it('leaves the wanted profit after a share of the price: 100 and 30 % of the price are 142.86', () => {
    expect(priceFor(10_000, 0, { name: 'fair', fee: 0.3, perPiece: 0 })).toMatchObject({
      price: 14_286,
      fees: 4286,
      profit: 0,
    });
  });

  it('rounds half a cent up as every other line of the costs does, in what is taken a piece and in a share of the price', () => {
    // 1.005 is below its half in binary, and so is 35 % of 90.
    expect(priceFor(1000, 0, { name: 'post', fee: 0, perPiece: 1.005 })).toMatchObject({
      price: 1101,
      fees: 101,
    });
    expect(0.35 * 90).toBeLessThan(31.5);
    expect(priceFor(58, 0, { name: 'fair', fee: 0.35, perPiece: 0 })).toMatchObject({ price: 90, fees: 32 });
  });

  it('counts what is taken for each piece', () => {
    const { price, fees, profit } = priceFor(2000, 1, { name: 'post', fee: 0.1, perPiece: 5 });
    expect(price).toBe(5000);
    expect(fees).toBe(1000);
    expect(profit).toBe(2000);
  });

  it('is at most a cent short of the wanted profit', () => {
    for (let cost = 1; cost < 400; cost += 7)
      for (const fee of [0, 0.035, 0.065, 0.15, 0.5])
        expect(priceFor(cost, 0.8, { name: '', fee, perPiece: 0.3 }).profit).toBeGreaterThanOrEqual(
          Math.floor(cost * 0.8) - 1,
        );
  });
});

describe('money', () => {
  it('rounds to the nearest cent, halves away from zero', () => {
    expect([1.005, -1.005, 0.1 + 0.2, 2.675].map(toCents)).toEqual([101, -101, 30, 268]);
  });

  it('is written with its currency', () => {
    expect(formatMoney(123456, '$')).toBe('$1234.56');
    expect(formatMoney(-5, '€')).toBe('-€0.05');
    expect(formatMoney(900, 'EUR')).toBe('9.00 EUR');
  });
});

describe('rates and plans that make no sense', () => {
  const told = (run: () => unknown): string[] => {
    try {
      run();
    } catch (error) {
      expect(error).toBeInstanceOf(FretlayError);
      return (error as FretlayError).issues.map(({ where }) => `${where?.field}`);
    }
    return [];
  };

  it.each([
    [{ labourPerHour: Number.NaN }, 'rates.labourPerHour'],
    [{ labourPerHour: -20 }, 'rates.labourPerHour'],
    [{ labourPerHour: '25' }, 'rates.labourPerHour'],
    [{ markup: -2 }, 'rates.markup'],
    [{ keeperCredit: 5 }, 'rates.keeperCredit'],
    [{ currency: '' }, 'rates.currency'],
    [{ channels: [{ name: 'fair', fee: 1, perPiece: 0 }] }, 'rates.channels[0].fee'],
    [{ channels: [{ name: 'fair', fee: 0, perPiece: Number.NaN }] }, 'rates.channels[0].perPiece'],
    [null, 'rates'],
  ])('are refused and named: %o', (rates, field) => {
    expect(told(() => costed([plates()], rates as Partial<Rates>))).toEqual([field]);
  });

  it('are not met where a rate is there but undefined: it is the common one', () => {
    expect(costed([plates()], { labourPerHour: undefined } as unknown as Partial<Rates>)).toEqual(
      costed([plates()]),
    );
  });

  it('are told of the plans too', () => {
    expect(told(() => estimate(null as never))).toEqual(['batched']);
    expect(told(() => estimate({ stock: [] } as never))).toEqual(
      ['layout', 'plan', 'assembly', 'time'].map((field) => `batched.${field}`),
    );
  });

  // Each was a TypeError before, or a price that is none.
  it.each<[field: string, change: (given: Batched) => unknown]>([
    ['layout.boards[0].placements', (g) => onBoard(g, { placements: undefined })],
    ['layout.boards[0].copies', (g) => onBoard(g, { copies: undefined })],
    ['layout.boards[0].pieces', (g) => onBoard(g, { pieces: [] })],
    ['layout.boards[0].areas', (g) => onBoard(g, { areas: null })],
    ['layout.boards[0].areas.parts', (g) => onBoard(g, { areas: { ...areas, parts: Number.NaN } })],
    ['layout.boards[0].areas.board', (g) => onBoard(g, { areas: { ...areas, board: 0 } })],
    ['stock[0].outline', (g) => ({ ...g, stock: [{ ...oak, outline: null, strips: 2 }] })],
    ['stock[0].strips', (g) => ({ ...g, stock: [{ ...oak, strips: 0 }] })],
    ['plan.blades[0].worn', (g) => ({ ...g, plan: { ...g.plan, blades: [{ blade: { name: 'b' } }] } })],
    ['assembly.glueGrams', (g) => ({ ...g, assembly: { ...g.assembly, glueGrams: [] } })],
  ])('are told deep in what a batch is costed from: %s', (field, change) => {
    const layout = layoutOf(plates());
    const time = workTime({ sawing: 1 });
    const given = { layout, stock: [oak], plan: planCuts(layout), assembly, time };
    expect(told(() => estimate(given))).toEqual([]);
    expect(told(() => estimate(change(given) as Batched))).toEqual([`batched.${field}`]);
  });

  it('are no stock without a board of the layout: its wood is told to be missing', () => {
    const { issues } = costed([plates()], {}, 2, []);
    expect(issues).toMatchObject([{ kind: 'board-without-price', severity: 'warning' }]);
    expect(issues[0].message).toContain('no board of this id');
  });
});
