import { type DisplayUnit, MM_PER_UNIT } from './length.ts';
import { SQUARE_MM_PER_SQUARE_FOOT } from './lumber.ts';

/** A figure with its unit as estimates carry it, metric: `1.27 m2`, `4 a m2`, `75 m of sawn edge`, `12`. */
export interface Measure {
  readonly value: number;
  readonly unit: string;
}

/** Grams in an ounce (avoirdupois, by definition of the pound in the agreement of 1959). */
export const GRAMS_PER_OUNCE = 28.349523125;

/** What a maker of inches uses for each metric unit, and how many go into it. */
export const FOR_INCHES = {
  m: ['ft', MM_PER_UNIT.m / MM_PER_UNIT.ft],
  m2: ['sq ft', 1e6 / SQUARE_MM_PER_SQUARE_FOOT],
  kg: ['oz', 1000 / GRAMS_PER_OUNCE],
} as const;

/** An amount, `m2 of face`, or a rate, `a m2`, taken apart: whatever else stands behind the unit is kept. */
const METRIC = /^(a )?(m2|m|kg)\b(.*)$/;

/** A metric measure in what the maker uses; rates turn the other way, so that their product stays the same. */
export function forMaker({ value, unit }: Measure, display: DisplayUnit): Measure {
  const match = METRIC.exec(unit);
  if (match === null) return { value, unit };
  const [, rate = '', metric, rest] = match;
  if (display === 'mm') return { value, unit: unit.replace('m2', 'm\u00b2') };
  const [name, times] = FOR_INCHES[metric as keyof typeof FOR_INCHES];
  return {
    value: rate === '' ? value * times : value / times,
    unit: `${rate === '' ? '' : name === 'oz' ? 'an ' : 'a '}${name}${forInches(rest)}`,
  };
}

/** The wood that times are stated for is 3/4 in, 19.05 mm, thick. */
function forInches(rest: string): string {
  return rest.replace('19.05 mm', '3/4 in');
}

/** Name of a field of the job as a maker of inches writes it: `finishPerSquareFoot` for `finishPerSquareMetre`. */
export function fieldForMaker(field: string, display: DisplayUnit): string {
  return display === 'mm'
    ? field
    : field.replace('PerSquareMetre', 'PerSquareFoot').replace('PerKilogram', 'PerOunce');
}
