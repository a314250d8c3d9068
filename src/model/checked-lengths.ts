import { displayUnit, number, oneOf, that, words } from '../issues/checks.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import { FINITE } from '../issues/number-issue.ts';
import * as length from '../units/length.ts';

/**
 * Lengths as people read and write them, for who hands in anything. `units/` lies below the issues and can tell none; inside
 * the library the compiler sees to it that only lengths come there.
 */

const UNITS = Object.keys(length.MM_PER_UNIT);

const lengthCheck = number({ ...FINITE, unit: 'mm' }, 'A text is read by `parseLength` first.');
const written = that(
  (value) => typeof value === 'string' || typeof value === 'number',
  'a text such as "3/4 in", or a number',
);

/**
 * Reads a length with its unit and gives millimetres: `19 mm`, `2 cm`, `8 in`, `13/16"`, `1-1/2 in`, `5½ in`, `6' 2"`. What
 * is no length comes back as a problem, in one sentence.
 *
 * @param input the text, or a number taken in `defaultUnit`
 * @param defaultUnit unit of a bare number (default mm)
 * @throws FretlayError for what is neither a text nor a number, and for a unit that there is not
 */
export function parseLength(input: string | number, defaultUnit: length.LengthUnit = 'mm'): length.Parsed {
  throwOnErrors([...written('input', input), ...oneOf(UNITS)('defaultUnit', defaultUnit)]);
  return length.parseLength(input, defaultUnit);
}

/**
 * Writes a length for a person: `19.1 mm`, or inches as a whole number and a fraction to 1/32, `7-1/8 in`.
 *
 * @param mm length in millimetres
 * @param unit unit to write
 * @param digits decimals in millimetres, up to 20 (default 1); inches are always rounded to 1/32
 * @throws FretlayError for what is no number, another unit, or digits that are none
 */
export function formatLength(mm: number, unit: length.DisplayUnit, digits = 1): string {
  throwOnErrors([
    ...lengthCheck('mm', mm),
    ...displayUnit('unit', unit),
    ...number({ least: 0, most: 20, whole: true })('digits', digits),
  ]);
  return length.formatLength(mm, unit, digits);
}

/**
 * Inches as a whole number and a fraction in lowest terms, rounded to 1/32: 7.125 gives `7-1/8`.
 *
 * @throws FretlayError for what is no number
 */
export function formatInches(inches: number): string {
  throwOnErrors(number(FINITE)('inches', inches));
  return length.formatInches(inches);
}

/**
 * True when a text names its unit: a bare `6` may be inches to one person and millimetres to another.
 *
 * @throws FretlayError for what is no text
 */
export function namesUnit(text: string): boolean {
  throwOnErrors(words()('text', text));
  return length.namesUnit(text);
}
