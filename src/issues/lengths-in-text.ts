import { type DisplayUnit, MM_PER_UNIT } from '../units/length.ts';

/**
 * Messages of issues state lengths in mm, `a neck is 1.20 mm wide`; here they are turned to inches for a person who
 * works in them. What stands in quotes is somebody's own words and stays.
 */

/** What lengths in a text are told in: the unit of the reader, or `both` where that is not known. */
export type TextUnit = DisplayUnit | 'both';

/** One or several numbers before their unit: `12.5 mm`, `4 to 5 mm`, `at 3.0, 4.5 mm`, `210 x 297 mm`. */
const LENGTHS = /(?<![\w.])-?\d+(?:\.\d+)?(?:(?:, | x | to | or )-?\d+(?:\.\d+)?)* mm(?!\w)/g;

/** Decimals of inches: a thousandth, finer than any saw line. Fractions to 1/32 would make two lengths that differ alike. */
const DECIMALS = 3;

/** A text that states lengths in mm, with them in the unit asked for: inches are decimal, to a thousandth. */
export function lengthsInText(text: string, unit: TextUnit): string {
  if (unit === 'mm') return text;
  const written = unit === 'in' ? asInches : (lengths: string) => `${lengths} or ${asInches(lengths)}`;
  return text
    .split(/("[^"]*")/)
    .map((piece, i) => (i % 2 === 1 ? piece : piece.replace(LENGTHS, written)))
    .join('');
}

function asInches(lengths: string): string {
  const inches = lengths.replace(/-?\d+(?:\.\d+)?/g, inchesOf).replace(/mm$/, 'in');
  // A range in hundredths of a millimetre may be none in thousandths of an inch.
  return inches.replace(/^(\S+) to \1 in$/, '$1 in');
}

function inchesOf(mm: string): string {
  return (Number(mm) / MM_PER_UNIT.in)
    .toFixed(DECIMALS)
    .replace(/\.?0+$/, '')
    .replace(/^-0$/, '0');
}
