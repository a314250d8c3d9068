import type { Range } from '../../model/cut-plan.ts';
import type { BatchSize, CostLine, Estimate } from '../../model/estimate.ts';
import { figure } from '../../units/figure.ts';
import { formatHours, formatHoursRange } from '../../units/hours.ts';
import type { DisplayUnit } from '../../units/length.ts';
import { fieldForMaker, forMaker } from '../../units/measure.ts';
import { formatMoney, withCurrency } from '../../units/money.ts';
import { batchChart } from './batch-chart.ts';
import { type Html, html, htmlFromSvg, named, numbers, sentences, table, words } from './html.ts';

/** Significant figures in the tables; workings.txt has all of them. */
const SHOWN = 4;

/**
 * What the batch takes in hours and money, and what a piece has to bring in. Everything is an estimate.
 *
 * @param logged names of the times that are fitted to the maker's log
 */
export function costsSection(
  estimate: Estimate,
  sizes: readonly BatchSize[],
  logged: readonly string[],
  unit: DisplayUnit,
): Html {
  const ranges =
    logged.length === 0
      ? 'so the ranges are wide until you log your own times'
      : 'so the ranges of the times that your log says nothing of are wide';
  return html('section', {}, [
    html('h2', {}, ['At the till']),
    html('p', {}, [
      `What the batch takes in hours and money, and what a piece has to bring in. All are estimates: no published rates exist for a scroll saw, ${ranges}. Every figure is worked out in workings.txt.`,
    ]),
    timeTable(estimate, logged, unit),
    costTable(estimate, unit),
    priceTable(estimate),
    ...(sizes.length === 0 ? [] : batchSizes(sizes, estimate.currency)),
  ]);
}

function timeTable({ time }: Estimate, logged: readonly string[], display: DisplayUnit): Html {
  const byLog = (constant: string) => (logged.includes(constant) ? ', fitted to your log' : '');
  const rows = time.lines.map(({ name, amount, unit, units, each, minutes, constant }) => {
    const many = forMaker({ value: amount, unit: amount === 1 ? unit : units }, display);
    const one = forMaker({ value: each.likely, unit: `a ${unit}` }, display);
    return [
      `${name} (${constant}${byLog(constant)})`,
      figure(many.value, SHOWN),
      many.unit,
      shortTime(one.value),
      formatHours(minutes.likely, minutes.high),
      formatHoursRange(minutes),
    ];
  });
  return table(
    'Working time of the batch: how many there are of what, times the time for one. The word in brackets is its name under "times" in the job, where you set your own',
    [
      sentences('Work'),
      numbers('How many'),
      words('Of what'),
      ...['One takes', 'Likely', 'Range'].map(numbers),
    ],
    rows,
    ['All', '', '', '', formatHours(time.total.likely, time.total.high), formatHoursRange(time.total)],
  );
}

function costTable({ lines, batch, piece, pieces, currency }: Estimate, unit: DisplayUnit): Html {
  const money = (cents: number) => formatMoney(cents, currency);
  const moneySpan = ({ low, high }: Range) => (low === high ? money(low) : `${money(low)} to ${money(high)}`);
  const rows = lines.map((line) => [
    named(line.name),
    inputs(line, unit, currency),
    money(line.cents.likely),
    moneySpan(line.cents),
  ]);
  return html('div', {}, [
    table(
      'Costs of the batch: each is the product of what stands under "From", measures rounded to four figures there, with where that comes from in brackets',
      [words('What'), sentences('From'), numbers('Likely'), numbers('Range')],
      rows,
      ['All', '', money(batch.likely), moneySpan(batch)],
    ),
    html('p', {}, [
      pieces === 1
        ? `One piece: ${moneySpan(piece)}.`
        : `One piece of the ${pieces}: ${money(piece.likely)}, range ${moneySpan(piece)}.`,
    ]),
  ]);
}

/** A rate is money for one of something; other figures are counts, measures and shares. */
const RATE = /^(each|an? .*)$/;

function inputs({ inputs: from }: CostLine, display: DisplayUnit, currency: string): string {
  return from
    .map(({ name, value, unit, from: source }) => {
      const measure = forMaker({ value, unit }, display);
      const shown = RATE.test(measure.unit) ? rate(measure.value, currency) : figure(measure.value, SHOWN);
      const words = measure.unit === '' ? '' : ` ${measure.unit}`;
      return `${name} ${shown}${words} (${fieldForMaker(source, display)})`;
    })
    .join(' x ');
}

/** Decimals of a rate, as far as it has them: with four a price per board foot still comes to the cents of its line. */
const RATE_DECIMALS = 4;

/** Money for one of something, in cents or finer: $32.625, $28.00, $0.3716. */
function rate(value: number, currency: string): string {
  const fine = value < 1 ? figure(value, SHOWN) : String(Number(value.toFixed(RATE_DECIMALS)));
  const whole = /^\d+$/.test(fine) ? `${fine}.00` : fine.replace(/\.\d$/, (tenths) => `${tenths}0`);
  return withCurrency(whole, currency);
}

function priceTable({ prices, currency }: Estimate): Html {
  const money = (cents: number) => formatMoney(cents, currency);
  return table(
    'Price of a piece in each place of sale: the likely cost with your markup, and so much more that this is left when the fees are paid',
    [words('Sold'), ...['Price', 'Fees', 'Left above cost'].map(numbers)],
    prices.map(({ channel, price, fees, profit }) => [
      named(channel),
      money(price),
      money(fees),
      money(profit),
    ]),
  );
}

const HOW_WORDS = {
  'this batch': 'this layout',
  'laid out quickly': 'a quick layout',
  repeated: 'the quick layout of 10, repeated',
  'repeated on fresh boards': 'a quick layout of 10 without keepers, repeated',
  'this batch repeated': 'this batch, repeated',
} as const satisfies Record<BatchSize['how'], string>;

function batchSizes(sizes: readonly BatchSize[], currency: string): Html[] {
  // One unit in the column: what is less than its longest is told in hours where that is.
  const longest = Math.max(...sizes.map(({ minutes }) => minutes.likely));
  const rows = sizes.map(({ sets, how, boards, piece, wood, minutes }) => [
    `${sets}`,
    HOW_WORDS[how],
    `${boards}`,
    wood === undefined ? 'not known' : formatMoney(wood, currency),
    formatHours(minutes.likely, longest),
    formatMoney(piece.likely, currency),
  ]);
  return [
    table(
      'What one piece costs when more or fewer are made at once: work done once for a batch or a board is shared, and boards fill up. The other sizes are laid out coarsely, so a search would do a little better. A keeper is there once; a size that boards like yours do not do for is left out',
      [
        numbers('Sets'),
        words('Wood from'),
        ...['Boards', 'Wood a piece', 'Time a piece', 'Cost a piece'].map(numbers),
      ],
      rows,
    ),
    html('figure', {}, [
      htmlFromSvg(batchChart(sizes, currency)),
      html('figcaption', {}, [`Cost of a piece by the number of sets made at once; ${woodWords(sizes)}.`]),
    ]),
  ];
}

/** What the chart says of the wood: the bars of sizes on boards without a price have no dark part. */
function woodWords(sizes: readonly BatchSize[]): string {
  const known = sizes.filter(({ wood }) => wood !== undefined).length;
  if (known === sizes.length) return 'the dark part is wood';
  return known === 0
    ? 'the wood is not in it where boards have no price'
    : 'the dark part is wood, left out where a board has no price';
}

function shortTime(minutes: number): string {
  return minutes < 1 ? `${figure(60 * minutes, SHOWN)} s` : `${figure(minutes, SHOWN)} min`;
}
