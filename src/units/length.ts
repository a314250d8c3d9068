/**
 * Lengths as people write them, and back. Inside fretlay every length is in millimetres.
 *
 * 1 in = 25.4 mm exactly (international yard and pound agreement of 1959); 1 in = 96 px = 72 pt = 6 pc
 * and 1 Q = 1/4 mm (W3C, CSS Values and Units Level 3, section 5.2 "Absolute lengths").
 */

/** Millimetres in one of each unit a person may write. */
export const MM_PER_UNIT = {
  mm: 1,
  cm: 10,
  m: 1000,
  in: 25.4,
  ft: 304.8,
  px: 25.4 / 96,
  pt: 25.4 / 72,
  pc: 25.4 / 6,
  q: 0.25,
} as const;

/** A length unit by its short name. */
export type LengthUnit = keyof typeof MM_PER_UNIT;

/** The unit a maker reads results in. */
export type DisplayUnit = 'mm' | 'in';

/** Either the value read, or in one sentence what is wrong with the text. */
export type Parsed =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly problem: string };

const UNIT_NAMES: Readonly<Record<string, LengthUnit>> = {
  mm: 'mm',
  millimeter: 'mm',
  millimeters: 'mm',
  millimetre: 'mm',
  millimetres: 'mm',
  cm: 'cm',
  m: 'm',
  in: 'in',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  ft: 'ft',
  foot: 'ft',
  feet: 'ft',
  "'": 'ft',
  px: 'px',
  pt: 'pt',
  pc: 'pc',
  q: 'q',
};

/** The unit that people call so, `inch` or `millimetres`; undefined when it is none. */
export function unitNamed(name: string): LengthUnit | undefined {
  const key = name.trim().toLowerCase();
  return Object.hasOwn(UNIT_NAMES, key) ? UNIT_NAMES[key] : undefined;
}

/** No length takes more characters than this. */
const LONGEST_TEXT = 60;

const NUMBER = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d{1,3})?$/i;
const FRACTION = /^([+-]?)(?:(\d+)(?:\s+|-|\s*\+\s*))?(\d+)\s*\/\s*(\d+)$/;

/**
 * Reads a plain number or a fraction: `19`, `0.75`, `3/4`, `1-1/2`, `1 1/2`.
 * Gives NaN when the text is neither, divides by zero, or has a fraction of 1 or more behind a whole number.
 */
export function parseFraction(text: string): number {
  const trimmed = text.trim();
  if (NUMBER.test(trimmed)) return Number(trimmed);
  const match = FRACTION.exec(trimmed);
  if (!match) return Number.NaN;
  const [, sign, whole, numerator, denominator] = match;
  if (Number(denominator) === 0) return Number.NaN;
  const fraction = Number(numerator) / Number(denominator);
  // `5-9/8` is a slip of the hand, most likely for 5-7/8: no rule shows such a length.
  if (whole !== undefined && fraction >= 1) return Number.NaN;
  return (sign === '-' ? -1 : 1) * (Number(whole ?? 0) + fraction);
}

/** Fractions written as one character, `5½`. */
const ONE_CHARACTER = /(\d?)([\u00bc-\u00be\u2150-\u215e])/g;

/** Signs that word processors and chats put in the place of typed ones, or people for want of the right one. */
const TYPED: readonly (readonly [RegExp, string])[] = [
  [/\u2044/g, '/'],
  [/\u2212/g, '-'],
  // Only between a whole number and its fraction: elsewhere a dash may be a range.
  [/(?<=\d)[\u2010-\u2013](?=\d+\s*\/)/g, '-'],
  [/[\u2018\u2019\u2032]/g, "'"],
  [/[\u201c\u201d\u2033]|''/g, '"'],
  [/(?<=[a-z])\.$/, ''],
  // `1/2-inch`, and the comma of decimals.
  [/(?<=\d)-(?=[a-z])/g, ' '],
  [/(?<=\d),(?=\d)/g, '.'],
];

/** A text with its fractions spelled out in digits, `5½` as `5 1/2`, and in signs as they are typed. */
function asTyped(text: string): string {
  const spelled = text.replace(ONE_CHARACTER, (_, before: string, fraction: string) =>
    [before, fraction.normalize('NFKC')].join(before === '' ? '' : ' '),
  );
  return TYPED.reduce((sofar, [sign, typed]) => sofar.replace(sign, typed), spelled);
}

/**
 * Reads a length with its unit and gives millimetres: `19 mm`, `2 cm`, `8 in`, `13/16"`, `1-1/2 in`, `5½ in`, `6' 2"`.
 *
 * @param input the text, or a number taken in `defaultUnit`
 * @param defaultUnit unit of a bare number (default mm)
 */
export function parseLength(input: string | number, defaultUnit: LengthUnit = 'mm'): Parsed {
  if (typeof input === 'number') {
    return Number.isFinite(input)
      ? { ok: true, value: input * MM_PER_UNIT[defaultUnit] }
      : { ok: false, problem: `${input} is not a finite number` };
  }
  if (input.length > LONGEST_TEXT)
    return { ok: false, problem: `a text of ${input.length} characters is not a length` };
  const doubt = doubtful(input);
  if (doubt !== undefined) return { ok: false, problem: `"${input}" ${doubt}` };
  const text = asTyped(input.trim().toLowerCase()).replace(/\s+/g, ' ');
  // The hyphen in 6'-2" joins, as on a drawing: it is no sign.
  const feetAndInches = /^(\d+)\s*(?:feet|foot|ft\.?|')\s*(?:-\s*)?([\d.].*?)\s*(?:inches|inch|in|")$/.exec(
    text,
  );
  if (feetAndInches) {
    const value =
      Number(feetAndInches[1]) * MM_PER_UNIT.ft + parseFraction(feetAndInches[2]) * MM_PER_UNIT.in;
    return finite(value, input);
  }
  const match = /^(.*?[\d.])\s*([a-z]+|["'])?$/.exec(text);
  if (!match) return notALength(input);
  const unit = match[2] === undefined ? defaultUnit : unitNamed(match[2]);
  if (unit === undefined) return { ok: false, problem: `"${match[2]}" is not a unit of length` };
  return finite(parseFraction(match[1]) * MM_PER_UNIT[unit], input);
}

function finite(value: number, input: string): Parsed {
  return Number.isFinite(value) ? { ok: true, value } : notALength(input);
}

/** True for a length that is written in inches or feet. */
export function isInInches(text: string): boolean {
  const unit = /([a-z]+|["'])$/.exec(asTyped(text.trim().toLowerCase()))?.[1] ?? '';
  return ['in', 'ft'].includes(unitNamed(unit) ?? '') && parseLength(text).ok;
}

/** A hyphen or dash with a space on one side at least, between a whole number and a fraction. */
const SPACED_HYPHEN = /(?<=\d)(?:\s+[-\u2010-\u2013]\s*|[-\u2010-\u2013]\s+)(?=\d+\s*[/\u2044]\s*\d)/;

/**
 * Three digits behind a mark that parts thousands for some and decimals for others. A point is taken for that of decimals, save
 * where both readings are lengths of a board: a round number of mm below ten metres.
 */
const THOUSANDS = /^[+-]?(?:([1-9]\d{0,2}),(\d{3})|([1-9])\.(\d\d0)(?=\s*mm))(?![\d.,])\s*(.*)$/i;

/** Why a text that could be read in two ways is not read, and what to write; undefined when there is one way. */
function doubtful(input: string): string | undefined {
  const text = input.trim();
  const [, whole, digits, wholeOfPoint, digitsOfPoint, unit] = THOUSANDS.exec(text) ?? [];
  if (unit !== undefined) {
    const [before, behind] = [whole ?? wholeOfPoint, digits ?? digitsOfPoint];
    const [large, small] = [`${before}${behind} ${unit}`, `${Number(`${before}.${behind}`)} ${unit}`];
    return `may be "${large.trim()}" or "${small.trim()}": write the one that is meant`;
  }
  if (/\d[.,]\d+[.,]\d/.test(text))
    return 'is not a length: write decimals with one point, and thousands without a mark';
  if (SPACED_HYPHEN.test(text) && !hasLargeFraction(asTyped(text)))
    return `may be a sum or a difference: write "${text.replace(SPACED_HYPHEN, '-')}" for the sum`;
  return undefined;
}

function notALength(input: string): Parsed {
  const why = hasLargeFraction(asTyped(input)) ? ': the fraction behind a whole number is less than 1' : '';
  return { ok: false, problem: `"${input}" is not a length${why}` };
}

function hasLargeFraction(text: string): boolean {
  const [, numerator, denominator] = /\d[\s+-]+(\d+)\s*\/\s*(\d+)/.exec(text) ?? [];
  return numerator !== undefined && Number(denominator) > 0 && Number(numerator) >= Number(denominator);
}

/** True when a text names its unit: a bare `6` may be inches to one person and millimetres to another. */
export function namesUnit(text: string): boolean {
  // The e of 1e2 is no unit.
  return !NUMBER.test(text.trim()) && /[a-z"']/i.test(asTyped(text));
}

/**
 * Writes a length for a person: `19.1 mm`, or inches as a whole number and a fraction to 1/32, `7-1/8 in`.
 *
 * @param mm length in millimetres
 * @param unit unit to write
 * @param digits decimals in millimetres (default 1); inches are always rounded to 1/32
 */
export function formatLength(mm: number, unit: DisplayUnit, digits = 1): string {
  return unit === 'mm'
    ? `${trimZeros(mm.toFixed(digits)).replace(/^-0$/, '0')} mm`
    : `${formatInches(mm / MM_PER_UNIT.in)} in`;
}

/** Inches as a whole number and a fraction in lowest terms, rounded to 1/32: 7.125 gives `7-1/8`. */
export function formatInches(inches: number): string {
  const thirtySeconds = Math.round(Math.abs(inches) * 32);
  const sign = inches < 0 && thirtySeconds > 0 ? '-' : '';
  const whole = Math.floor(thirtySeconds / 32);
  let numerator = thirtySeconds % 32;
  let denominator = 32;
  while (numerator > 0 && numerator % 2 === 0) {
    numerator /= 2;
    denominator /= 2;
  }
  if (numerator === 0) return `${sign}${whole}`;
  return whole === 0 ? `${sign}${numerator}/${denominator}` : `${sign}${whole}-${numerator}/${denominator}`;
}

function trimZeros(text: string): string {
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}
