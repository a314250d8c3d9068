import { MM_PER_UNIT } from '../units/length.ts';
import { evaluateCalc, isCalc } from './calc.ts';

/**
 * Lengths as SVG and CSS write them, in user units (CSS px). The absolute units are those of CSS Values and Units
 * Level 3, section 5.2; percentages follow SVG 2 section 8.9 "Units": of the viewport's width, height, or its
 * diagonal divided by the square root of two.
 */

/** What relative lengths refer to, all in user units. */
export interface LengthFrame {
  /** Viewport size; undefined when the document states none. */
  readonly width: number | undefined;
  readonly height: number | undefined;
  /** Font size of the element, for em, ex and ch. */
  readonly fontSize: number;
  /** Font size of the root element, for rem (CSS Values and Units Level 3, section 5.1.1). */
  readonly rootFontSize: number;
  /** Millimetres of one CSS px: 25.4 / 96 unless the caller knows an older pixel. */
  readonly mmPerPx: number;
}

/** Which side of the viewport a percentage is of. */
export type LengthAxis = 'x' | 'y' | 'diagonal';

/** A length in user units, or in a few words why it is none. */
export type LengthReading =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly problem: string };

const LENGTH = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?)(%|[a-z]*)$/i;

type AbsoluteUnit = 'mm' | 'cm' | 'in' | 'pt' | 'pc' | 'q';

const ABSOLUTE: ReadonlySet<string> = new Set<AbsoluteUnit>(['mm', 'cm', 'in', 'pt', 'pc', 'q']);

function isAbsolute(unit: string): unit is AbsoluteUnit {
  return ABSOLUTE.has(unit);
}

/** Share of the font size: ex and ch are taken as half an em, which CSS allows where no font is at hand. */
const FONT_SHARE: ReadonlyMap<string, number> = new Map([
  ['em', 1],
  ['ex', 0.5],
  ['ch', 0.5],
]);

/** Reads a length such as `12`, `3mm`, `50%`, `calc(50% - 2mm)`; gives user units, which may be negative. */
export function readLength(text: string, axis: LengthAxis, frame: LengthFrame): LengthReading {
  const reading = isCalc(text) ? calculated(text, axis, frame) : inUserUnits(text, axis, frame);
  if (!reading.ok || Number.isFinite(reading.value)) return reading;
  return { ok: false, problem: 'the number is beyond any drawing' };
}

function calculated(text: string, axis: LengthAxis, frame: LengthFrame): LengthReading {
  const value = evaluateCalc(text, (length) => {
    const reading = inUserUnits(length, axis, frame);
    return reading.ok ? reading.value : undefined;
  });
  return value === undefined ? { ok: false, problem: 'it is not a sum of lengths' } : { ok: true, value };
}

function inUserUnits(text: string, axis: LengthAxis, frame: LengthFrame): LengthReading {
  const match = LENGTH.exec(text.trim());
  if (!match) return { ok: false, problem: 'it is not a length' };
  const number = Number(match[1]);
  const unit = match[2].toLowerCase();
  if (unit === '' || unit === 'px') return { ok: true, value: number };
  if (unit === '%') return percentage(number, axis, frame);
  if (isAbsolute(unit)) {
    // Divided by the pixel of the page: 10 mm stay 10 mm whatever pixel the caller knows.
    return { ok: true, value: (number * MM_PER_UNIT[unit]) / frame.mmPerPx };
  }
  if (unit === 'rem') return { ok: true, value: number * frame.rootFontSize };
  const share = FONT_SHARE.get(unit);
  if (share !== undefined) return { ok: true, value: number * share * frame.fontSize };
  return { ok: false, problem: `the unit "${unit}" is not known here` };
}

function percentage(number: number, axis: LengthAxis, { width, height }: LengthFrame): LengthReading {
  if (axis === 'x' && width !== undefined) return { ok: true, value: (number / 100) * width };
  if (axis === 'y' && height !== undefined) return { ok: true, value: (number / 100) * height };
  if (axis === 'diagonal' && width !== undefined && height !== undefined) {
    return { ok: true, value: (number / 100) * (Math.hypot(width, height) / Math.SQRT2) };
  }
  return { ok: false, problem: 'it is a share of a page that has no size' };
}

/** Millimetres of an absolute length with a unit of its own; undefined for px, bare numbers and shares. */
export function physicalMillimetres(text: string): number | undefined {
  const match = LENGTH.exec(text.trim());
  const unit = match?.[2].toLowerCase() ?? '';
  if (!match || !isAbsolute(unit)) return undefined;
  return Number(match[1]) * MM_PER_UNIT[unit];
}
