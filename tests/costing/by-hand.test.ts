import { describe, expect, it } from 'vitest';
import { estimate } from '../../src/costing/estimate.ts';
import { priceFor } from '../../src/costing/price.ts';
import { COMMON_RATES, type Rates } from '../../src/costing/rates.ts';
import { traceEstimate } from '../../src/costing/trace.ts';
import { woodCost } from '../../src/costing/wood-cost.ts';
import type { AssemblyPlan } from '../../src/model/assembly.ts';
import type { Blade, CutPlan } from '../../src/model/cut-plan.ts';
import type { WorkTime } from '../../src/model/estimate.ts';
import type { LaidBoard } from '../../src/model/layout.ts';
import type { Board } from '../../src/model/stock.ts';
import { patternArea } from '../../src/sawing/pattern-area.ts';
import { cutInto } from '../../src/stock/ripping.ts';
import { board, layoutOf, part, rectangle } from '../sawing/boards.ts';
import { areas, oak } from './priced-oak.ts';

/** A batch small enough to be costed on paper; every figure below was worked out by hand. */

const plate = part('plate', rectangle(10, 10, 100, 100));
const laid = (fields: Partial<LaidBoard> = {}) => board([plate], { species: 'red oak', areas, ...fields });

const rates: Partial<Rates> = {
  labourPerHour: 20,
  overhead: 0.1,
  perBlade: 0.5,
  patternPerSquareMetre: 4,
  gluePerKilogram: 12,
  finishPerSquareMetre: 3,
  perHole: 0.25,
  keeperCredit: 0.5,
  markup: 1,
  channels: [{ name: 'fair', fee: 0.2, perPiece: 1.5 }],
};

/** Ten to twenty grams of glue and 0.05 m2 of surface a piece. */
const assembly = { glueGrams: [10, 20], surface: 50_000 } as unknown as AssemblyPlan;
const plan = {
  blades: [{ blade: { name: 'No. 5' } as Blade, worn: { low: 1, likely: 2, high: 3 } }],
  holes: 4,
} as unknown as CutPlan;
const time: WorkTime = { lines: [], total: { low: 60, likely: 90, high: 120 } };

function byHand(own: Partial<Rates> = rates) {
  const layout = layoutOf(laid());
  const figures = { ...layout.figures, completeSets: 2 };
  return estimate({ layout: { ...layout, sets: 2, figures }, stock: [oak], plan, assembly, time }, own);
}

describe('an estimate worked out by hand', () => {
  it('has these lines, in whole cents', () => {
    const { lines, batch, piece, woodInParts, issues } = byHand();
    expect(lines.map(({ name, cents }) => [name, cents.low, cents.likely, cents.high])).toEqual([
      ['Board A, red oak', 1000, 1000, 1000],
      ['Offcuts kept of A', -250, -250, -250],
      ['Blades No. 5', 50, 100, 150],
      // The plate with 3 mm around: 106 x 106 mm.
      ['Paper, adhesive, tape', 4, 4, 4],
      ['Drills', 100, 100, 100],
      ['Glue', 24, 36, 48],
      ['Finish', 30, 30, 30],
      ['Labour', 2000, 3000, 4000],
      ['Overhead', 296, 402, 508],
    ]);
    expect(batch).toEqual({ low: 3254, likely: 4422, high: 5590 });
    expect(piece).toEqual({ low: 1627, likely: 2211, high: 2795 });
    expect(woodInParts).toBe(222);
    expect(issues).toEqual([]);
  });

  it('has no line that costs nothing', () => {
    const { lines } = byHand({ ...rates, perBlade: 0, perHole: 0, overhead: 0, labourPerHour: 0 });
    expect(lines.map(({ name }) => name)).toEqual([
      ...['Board A, red oak', 'Offcuts kept of A', 'Paper, adhesive, tape', 'Glue', 'Finish'],
    ]);
  });

  it('warns when sets are missing', () => {
    const layout = layoutOf(laid());
    const whole = { ...layout.figures, completeSets: 2 };
    const priced = (sets: number) =>
      estimate({ layout: { ...layout, sets, figures: whole }, stock: [oak], plan, assembly, time }, rates);
    expect(priced(2).issues).toEqual([]);
    expect(priced(3).issues).toEqual([
      {
        kind: 'batch-incomplete',
        severity: 'warning',
        message:
          'the costs are those of an incomplete batch: 1 part cut beyond the complete sets is charged to them',
        expected: '3 sets',
        received: '2 complete',
        remedy: 'Add stock, or ask for 2 sets to cut no more than they need.',
      },
    ]);
    expect(byHand().lines[6].inputs).toEqual([
      { name: 'surface of a piece', value: 0.05, unit: 'm2', from: 'assembly' },
      { name: 'pieces', value: 2, unit: '', from: 'layout' },
      { name: 'rate', value: 3, unit: 'a m2', from: 'costs: finishPerSquareMetre' },
    ]);
  });

  it('reads so', () => {
    expect(traceEstimate(byHand())).toMatchInlineSnapshot(`
      "Time
      all: 90 min, between 60 and 120

      Costs of the batch
      Board A, red oak: boards 1 (layout) x price of one 10 a board (boards: A) = $10.00
      Offcuts kept of A: boards kept 0.5 (layout: offcuts by area) x price of one 10 a board (boards: A) x credit -0.5 of the price (costs: keeperCredit) = -$2.50
      Blades No. 5: blades worn 2 (cut plan) x price 0.5 each (costs: perBlade) = $1.00, between $0.50 and $1.50
      Paper, adhesive, tape: area of the patterns 0.011236 m² (layout) x rate 4 a m² (costs: patternPerSquareMetre) = $0.04
      Drills: holes 4 (cut plan) x price 0.25 each (costs: perHole) = $1.00
      Glue: glue for a piece 0.015 kg (assembly) x pieces 2 (layout) x rate 12 a kg (costs: gluePerKilogram) = $0.36, between $0.24 and $0.48
      Finish: surface of a piece 0.05 m² (assembly) x pieces 2 (layout) x rate 3 a m² (costs: finishPerSquareMetre) = $0.30
      Labour: hours 1.5 h (work time) x rate 20 an hour (costs: labourPerHour) = $30.00, between $20.00 and $40.00
      Overhead: all lines above 40.2 (estimate) x share 0.1 (costs: overhead) = $4.02, between $2.96 and $5.08
      sum of the lines: $44.22, between $32.54 and $55.90
      one of 2, rounded up: $22.11, between $16.27 and $27.95

      Prices
      (cost of a piece x (1 + markup) + taken a piece) / (1 - fee), rounded up; fees and profit are what it divides into
      fair: cost of a piece 22.11 (estimate), markup 1 of the cost (costs: markup), fee 0.2 of the price (costs: channels), taken a piece 1.5 (costs: channels): $57.15 = cost $22.11 + fees $12.93 + profit $22.11"
    `);
  });
});

describe('the patterns', () => {
  const area = (...boards: readonly LaidBoard[]) => patternArea(boards);

  it('are the boxes of the parts with 3 mm around, whatever the board', () => {
    expect(area(laid())).toBeCloseTo(106 * 106, 6);
    const sheet = { outline: rectangle(0, 0, 1524, 1524), openings: [] };
    expect(area(laid({ usable: sheet }))).toBeCloseTo(106 * 106, 6);
    expect(area(board([]))).toBe(0);
  });

  it('count paper that two parts share once: one in the other takes none of its own', () => {
    const inner = part('medal', rectangle(40, 40, 20, 20));
    const beside = part('beside', rectangle(112, 10, 100, 100));
    expect(area(board([plate, inner]))).toBeCloseTo(106 * 106, 6);
    // The two boxes of 106 x 106 overlap by 4 mm.
    expect(area(board([plate, beside]))).toBeCloseTo((2 * 106 - 4) * 106, 6);
  });

  it('lie on the topmost board of a stack alone, and on each of the boards that are sawn alike', () => {
    expect(area(laid({ copies: 3, pieces: ['A-1', 'A-2', 'A-3'] }))).toBeCloseTo(106 * 106, 6);
    expect(area(laid({ copies: 3 }))).toBeCloseTo(3 * 106 * 106, 6);
  });
});

describe('the wood', () => {
  const costs = { ...COMMON_RATES, ...rates };

  it('is that of the boards that carry something, each at the price of its own stock', () => {
    const empty = board([], { species: 'red oak', areas });
    const other = laid({ stock: 'B' });
    const ash: Board = { ...oak, id: 'B', species: 'ash', price: 7 };
    const unused: Board = { ...oak, id: 'C', price: undefined };
    const { lines, issues } = woodCost(layoutOf(laid(), laid(), empty, other), [oak, ash, unused], {
      ...costs,
      keeperCredit: 0,
    });
    expect(lines.map(({ name, cents }) => [name, cents.likely])).toEqual([
      ['Board A, red oak', 2000],
      ['Board B, ash', 700],
    ]);
    expect(issues).toEqual([]);
  });

  it('has a strip of a ripped board as its share of the whole one, whose price it names', () => {
    const strips = cutInto({ strips: 3, lengths: 1 }, { ...oak, price: 12.5 }, 3);
    const { lines, inParts } = woodCost(layoutOf(laid({ strips: 3 })), [strips], costs);
    const [bought, kept] = lines;
    expect(bought.inputs.map(({ value }) => value)).toEqual([1 / 3, 12.5]);
    expect([bought.cents.likely, kept.cents.likely]).toEqual([417, -104]);
    // Two ninths of the strip.
    expect(inParts).toBe(Math.round((1250 / 3) * (2 / 9)));
  });

  it('names a board that has no price, and leaves the others in the costs', () => {
    const { lines, inParts, issues } = woodCost(
      layoutOf(laid(), laid({ stock: 'B' })),
      [
        { ...oak, price: undefined },
        { ...oak, id: 'B' },
      ],
      costs,
    );
    expect(lines).toHaveLength(2);
    expect(inParts).toBe(222);
    expect(issues).toEqual([
      {
        kind: 'board-without-price',
        severity: 'note',
        message: 'the board has no price: its wood is missing from the costs',
        remedy: 'Give the board a "price".',
        where: { board: 'A' },
      },
    ]);
  });

  it('is credited only with what is kept', () => {
    const names = (fields: Partial<LaidBoard>) =>
      woodCost(layoutOf(laid(fields)), [oak], costs).lines.map(({ name }) => name);
    expect(names({})).toEqual(['Board A, red oak', 'Offcuts kept of A']);
    expect(names({ areas: { ...areas, keepers: 0 } })).toEqual(['Board A, red oak']);
    expect(names({ areas: undefined })).toEqual(['Board A, red oak']);
  });
});

describe('a price', () => {
  it('says what it was made from', () => {
    // 22.29 doubled is 44.58, with 1.50 taken aside 46.08; 80 % of 57.60 is that.
    expect(priceFor(2229, 1, { name: 'fair', fee: 0.2, perPiece: 1.5 })).toEqual({
      channel: 'fair',
      price: 5760,
      fees: 1302,
      profit: 2229,
      inputs: [
        { name: 'cost of a piece', value: 22.29, unit: '', from: 'estimate' },
        { name: 'markup', value: 1, unit: 'of the cost', from: 'costs: markup' },
        { name: 'fee', value: 0.2, unit: 'of the price', from: 'costs: channels' },
        { name: 'taken a piece', value: 1.5, unit: '', from: 'costs: channels' },
      ],
    });
  });
});
