import type { Range } from '../model/cut-plan.ts';
import type { CostLine, Input } from '../model/estimate.ts';
import { toCents } from '../units/money.ts';

/** A figure of which the least and the greatest value are known too. */
export interface RangeInput extends Input {
  readonly range: Range;
}

/**
 * A line of the costs: the product of its inputs, in cents. One of them may be a range; the line then is one.
 * Inputs in whole units of the currency, so that a person multiplies what is written and gets the line.
 */
export function costLine(name: string, inputs: readonly (Input | RangeInput)[]): CostLine {
  const product = (end: keyof Range) =>
    inputs.reduce((all, input) => all * ('range' in input ? input.range[end] : input.value), 1);
  return {
    name,
    cents: {
      low: toCents(product('low')),
      likely: toCents(product('likely')),
      high: toCents(product('high')),
    },
    inputs: inputs.map(({ name: what, value, unit, from }) => ({ name: what, value, unit, from })),
  };
}

/** An input known to a range; its value is the likely one. */
export function rangeInput(name: string, range: Range, unit: string, from: string): RangeInput {
  return { name, value: range.likely, unit, from, range };
}

/** The lines summed, cents. */
export function sumOfLines(lines: readonly CostLine[]): Range {
  const sum = (end: keyof Range) => lines.reduce((all, { cents }) => all + cents[end], 0);
  return { low: sum('low'), likely: sum('likely'), high: sum('high') };
}
