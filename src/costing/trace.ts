import { displayUnit } from '../issues/checks.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import { plainLine } from '../issues/plain-text.ts';
import type { Range } from '../model/cut-plan.ts';
import type { Estimate, Input, TimeLine } from '../model/estimate.ts';
import { estimateCheck } from '../model/plan-checks.ts';
import { figure } from '../units/figure.ts';
import type { DisplayUnit } from '../units/length.ts';
import { fieldForMaker, forMaker } from '../units/measure.ts';
import { formatMoney } from '../units/money.ts';

/**
 * An estimate as lines of text in which every figure is worked out from its inputs, each with where it comes from:
 * `Labour: hours 10.5 h (work time) x rate 25 an hour (costs: labourPerHour) = $262.50`.
 *
 * @param unit what the maker works in: metres, kilograms, or feet, ounces
 * @throws FretlayError for what is no estimate, and for another unit
 */
export function traceEstimate(estimate: Estimate, unit: DisplayUnit = 'mm'): string {
  throwOnErrors([...estimateCheck('estimate', estimate), ...displayUnit('unit', unit)]);
  const { currency, pieces, time, lines, batch, piece, prices } = estimate;
  const inputText = (input: Input) => inputWords(input, unit);
  const money = (cents: number) => formatMoney(cents, currency);
  const span = ({ low, high }: Range) => (low === high ? '' : `, between ${money(low)} and ${money(high)}`);
  return [
    'Time',
    ...time.lines.map((line) => timeText(line, unit)),
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
  ]
    .map(plainLine)
    .join('\n');
}

function timeText({ name, amount, unit, each, minutes, constant }: TimeLine, display: DisplayUnit): string {
  const many = forMaker({ value: amount, unit }, display);
  const one = forMaker({ value: each.likely, unit: `a ${unit}` }, display);
  return `${name}: ${figure(many.value)} x ${figure(one.value)} min ${one.unit} (times: ${constant}) = ${figure(minutes.likely)} min, between ${figure(minutes.low)} and ${figure(minutes.high)}`;
}

function inputWords({ name, value, unit, from }: Input, display: DisplayUnit): string {
  const measure = forMaker({ value, unit }, display);
  return `${name} ${figure(measure.value)}${measure.unit === '' ? '' : ` ${measure.unit}`} (${fieldForMaker(from, display)})`;
}
