import type { Range } from '../model/cut-plan.ts';
import type { BatchSize, CostLine, Estimate } from '../model/estimate.ts';
import { formatMoney } from '../units/money.ts';
import { batchChart } from './batch-chart.ts';
import { type Html, html, htmlFromSvg, named, numbers, table, words } from './html.ts';

/** What the batch takes in hours and money, and what a piece has to bring in. Everything is an estimate. */
export function costsSection(estimate: Estimate, sizes: readonly BatchSize[]): Html {
  return html('section', {}, [
    html('h2', {}, ['At the till']),
    html('p', {}, [
      'Estimates. Each figure is the product of those beside it, with where each comes from; no published rates exist for a scroll saw, so times are wide until you log your own.',
    ]),
    timeTable(estimate),
    costTable(estimate),
    priceTable(estimate),
    ...(sizes.length === 0 ? [] : batchSizes(sizes, estimate.currency)),
  ]);
}

function timeTable({ time }: Estimate): Html {
  const rows = time.lines.map(({ name, amount, unit, each, minutes, constant }) => [
    name,
    `${figure(amount)} x ${figure(each.likely)} min a ${unit} (${constant})`,
    hours(minutes.likely),
    `${hours(minutes.low)} to ${hours(minutes.high)}`,
  ]);
  const { low, likely, high } = time.total;
  return table(
    'Working time of the batch',
    [words('Work'), words('From'), numbers('Likely'), numbers('Range')],
    rows,
    ['All', '', hours(likely), `${hours(low)} to ${hours(high)}`],
  );
}

function costTable({ lines, batch, piece, pieces, currency }: Estimate): Html {
  const money = (cents: number) => formatMoney(cents, currency);
  const span = ({ low, high }: Range) => (low === high ? money(low) : `${money(low)} to ${money(high)}`);
  const rows = lines.map((line) => [
    named(line.name),
    inputs(line),
    money(line.cents.likely),
    span(line.cents),
  ]);
  return html('div', {}, [
    table('Costs of the batch', [words('What'), words('From'), numbers('Likely'), numbers('Range')], rows, [
      'All',
      '',
      money(batch.likely),
      span(batch),
    ]),
    html('p', {}, [
      `One of ${pieces}: ${money(piece.likely)}, between ${span(piece).replace(' to ', ' and ')}.`,
    ]),
  ]);
}

function inputs({ inputs: from }: CostLine): string {
  return from
    .map(
      ({ name, value, unit, from: source }) =>
        `${name} ${figure(value)}${unit === '' ? '' : ` ${unit}`} (${source})`,
    )
    .join(' x ');
}

function priceTable({ prices, currency }: Estimate): Html {
  const money = (cents: number) => formatMoney(cents, currency);
  return table(
    'Prices of a piece: cost with the markup, and so much more that it is left when fees are paid',
    [words('Sold'), ...['Price', 'Fees', 'Left above cost'].map(numbers)],
    prices.map(({ channel, price, fees, profit }) => [
      named(channel),
      money(price),
      money(fees),
      money(profit),
    ]),
  );
}

function batchSizes(sizes: readonly BatchSize[], currency: string): Html[] {
  const rows = sizes.map(({ sets, boards, yield: share, piece, wood, minutes }) => [
    `${sets}`,
    `${boards}`,
    `${(100 * share).toFixed(1)} %`,
    formatMoney(wood, currency),
    `${minutes.likely.toFixed(0)} min`,
    formatMoney(piece.likely, currency),
  ]);
  return [
    table(
      'A piece by size of batch; each was laid out quickly, so a long search will do a little better',
      [numbers('Sets'), ...['Boards', 'Yield', 'Wood a piece', 'Time a piece', 'Cost a piece'].map(numbers)],
      rows,
    ),
    html('figure', {}, [
      htmlFromSvg(batchChart(sizes, currency)),
      html('figcaption', {}, ['Cost of a piece; the dark part is wood.']),
    ]),
  ];
}

function figure(value: number): string {
  return String(Number(value.toPrecision(4)));
}

function hours(minutes: number): string {
  return minutes < 90 ? `${minutes.toFixed(0)} min` : `${(minutes / 60).toFixed(1)} h`;
}
