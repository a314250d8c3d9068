import type { Range } from '../model/cut-plan.ts';
import type { Estimate, Input } from '../model/estimate.ts';
import { figure } from '../units/figure.ts';
import { formatMoney } from '../units/money.ts';

/**
 * An estimate as lines of text in which every figure is worked out from its inputs, each with where it comes from:
 * `Labour: hours 10.5 h (work time) x rate 25 an hour (costs: labourPerHour) = $262.50`.
 */
export function traceEstimate({ currency, pieces, time, lines, batch, piece, prices }: Estimate): string {
  const money = (cents: number) => formatMoney(cents, currency);
  const span = ({ low, high }: Range) => (low === high ? '' : `, between ${money(low)} and ${money(high)}`);
  return [
    'Time',
    ...time.lines.map(
      ({ name, amount, unit, each, minutes, constant }) =>
        `${name}: ${figure(amount)} x ${figure(each.likely)} min a ${unit} (times: ${constant}) = ${figure(minutes.likely)} min, between ${figure(minutes.low)} and ${figure(minutes.high)}`,
    ),
    `all: ${figure(time.total.likely)} min, between ${figure(time.total.low)} and ${figure(time.total.high)}`,
    '',
    'Costs of the batch',
    ...lines.map(
      ({ name, inputs, cents }) =>
        `${name}: ${inputs.map(inputText).join(' x ')} = ${money(cents.likely)}${span(cents)}`,
    ),
    `sum of the lines: ${money(batch.likely)}${span(batch)}`,
    `one of ${pieces}, rounded up: ${money(piece.likely)}${span(piece)}`,
    '',
    'Prices',
    '(cost of a piece x (1 + markup) + taken a piece) / (1 - fee), rounded up; fees and profit are what it divides into',
    ...prices.map(
      ({ channel, price, fees, profit, inputs }) =>
        `${channel}: ${inputs.map(inputText).join(', ')}: ${money(price)} = cost ${money(piece.likely)} + fees ${money(fees)} + profit ${money(profit)}`,
    ),
  ].join('\n');
}

function inputText({ name, value, unit, from }: Input): string {
  return `${name} ${figure(value)}${unit === '' ? '' : ` ${unit}`} (${from})`;
}
