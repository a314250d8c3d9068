import { counted } from '../issues/counted.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import type { AssemblyPlan } from '../model/assembly.ts';
import type { CutPlan, Range } from '../model/cut-plan.ts';
import type { CostLine, Estimate, WorkTime } from '../model/estimate.ts';
import { incompleteBatch } from '../model/incomplete-batch.ts';
import type { Layout } from '../model/layout.ts';
import { type SomeOf, stated } from '../model/stated.ts';
import type { Board } from '../model/stock.ts';
import { patternArea } from '../sawing/pattern-area.ts';
import { costLine, rangeInput, sumOfLines } from './cost-line.ts';
import { priceFor } from './price.ts';
import { batchedCheck, rateCheck } from './rate-checks.ts';
import { COMMON_RATES, type Rates } from './rates.ts';
import { woodCost } from './wood-cost.ts';

/** What a batch is costed from. */
export interface Batched {
  readonly layout: Layout;
  readonly stock: readonly Board[];
  readonly plan: CutPlan;
  readonly assembly: AssemblyPlan;
  readonly time: WorkTime;
}

/**
 * Costs of a batch and prices of a piece. Every line is the product of its inputs, in whole cents, and the batch is
 * the sum of its lines, so that each figure can be worked out again by hand.
 *
 * @param rates in whole units of the currency; {@link COMMON_RATES} for those left out
 * @throws FretlayError when a rate, or what the batch is costed from, is missing or makes no sense
 */
export function estimate(batched: Batched, rates: SomeOf<Rates> = {}): Estimate {
  throwOnErrors([...batchedCheck('batched', batched), ...rateCheck('rates', rates)]);
  const all: Rates = { ...COMMON_RATES, ...stated(rates) };
  const { layout, time } = batched;
  // A batch without a complete set is costed as if it were for one piece: its costs are spent all the same, and an
  // issue says so.
  const pieces = Math.max(1, layout.figures.completeSets);
  const wood = woodCost(layout, batched.stock, all);
  const direct = [...wood.lines, ...consumables(batched, all, pieces), labour(time, all)];
  // What costs nothing is no line: no holes in the pattern, no drills to pay.
  const lines = [...direct, overhead(direct, all)].filter(({ cents }) => cents.high !== 0 || cents.low !== 0);
  const batch = sumOfLines(lines);
  const piece = eachOf(batch, pieces);
  return {
    currency: all.currency,
    pieces,
    time,
    lines,
    batch,
    woodInParts: wood.inParts,
    piece,
    prices: all.channels.map((channel) => priceFor(piece.likely, all.markup, channel)),
    issues: [...wood.issues, ...incomplete(layout)],
  };
}

/** Blades, pattern paper, drills, glue and finish; each names the field of the job that sets its rate. */
function consumables({ layout, plan, assembly }: Batched, rates: Rates, pieces: number): CostLine[] {
  const [least, most] = assembly.glueGrams;
  const glue: Range = { low: least / 1000, likely: (least + most) / 2000, high: most / 1000 };
  const rate = (name: keyof Rates & string, value: number, unit: string) => ({
    name: unit === 'each' ? 'price' : 'rate',
    value,
    unit,
    from: `costs: ${name}`,
  });
  const count = { name: 'pieces', value: pieces, unit: '', from: 'layout' };
  return [
    ...plan.blades.map(({ blade, worn }) =>
      costLine(`Blades ${blade.name}`, [
        rangeInput('blades worn', worn, '', 'cut plan'),
        rate('perBlade', rates.perBlade, 'each'),
      ]),
    ),
    costLine('Paper, adhesive, tape', [
      { name: 'area of the patterns', value: patternArea(layout.boards) / 1e6, unit: 'm2', from: 'layout' },
      rate('patternPerSquareMetre', rates.patternPerSquareMetre, 'a m2'),
    ]),
    costLine('Drills', [
      { name: 'holes', value: plan.holes, unit: '', from: 'cut plan' },
      rate('perHole', rates.perHole, 'each'),
    ]),
    costLine('Glue', [
      rangeInput('glue for a piece', glue, 'kg', 'assembly'),
      count,
      rate('gluePerKilogram', rates.gluePerKilogram, 'a kg'),
    ]),
    costLine('Finish', [
      { name: 'surface of a piece', value: assembly.surface / 1e6, unit: 'm2', from: 'assembly' },
      count,
      rate('finishPerSquareMetre', rates.finishPerSquareMetre, 'a m2'),
    ]),
  ];
}

/** Minutes of all work, as hours at one rate: sawing is not told from gluing. */
function labour({ total }: WorkTime, { labourPerHour }: Rates): CostLine {
  const hours: Range = { low: total.low / 60, likely: total.likely / 60, high: total.high / 60 };
  return costLine('Labour', [
    rangeInput('hours', hours, 'h', 'work time'),
    { name: 'rate', value: labourPerHour, unit: 'an hour', from: 'costs: labourPerHour' },
  ]);
}

/** A share of every line before it, so it comes last; on itself it is not charged. */
function overhead(direct: readonly CostLine[], rates: Rates): CostLine {
  const { low, likely, high } = sumOfLines(direct);
  return costLine('Overhead', [
    rangeInput('all lines above', { low: low / 100, likely: likely / 100, high: high / 100 }, '', 'estimate'),
    { name: 'share', value: rates.overhead, unit: '', from: 'costs: overhead' },
  ]);
}

/** Of one piece, rounded up, so that the pieces together never cost less than the batch. */
function eachOf({ low, likely, high }: Range, pieces: number): Range {
  return { low: Math.ceil(low / pieces), likely: Math.ceil(likely / pieces), high: Math.ceil(high / pieces) };
}

function incomplete(layout: Layout): Issue[] {
  const batch = incompleteBatch(layout);
  if (batch === undefined) return [];
  const { complete, sets, partsBeyond } = batch;
  const beyond =
    complete === 0 || partsBeyond === 0
      ? ''
      : `: ${counted(partsBeyond, 'part')} cut beyond the complete sets ${partsBeyond === 1 ? 'is' : 'are'} charged to them`;
  return [
    {
      kind: 'batch-incomplete',
      severity: 'warning',
      message: `the costs are those of an incomplete batch${beyond}`,
      expected: counted(sets, 'set'),
      received: `${complete} complete`,
      remedy:
        complete === 0
          ? 'Add stock or ask for fewer sets before pricing.'
          : `Add stock, or ask for ${counted(complete, 'set')} to cut no more than they need.`,
    },
  ];
}
