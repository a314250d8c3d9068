import type { Issue } from './issue.ts';
import { wrongValue } from './wrong-value.ts';

/** Between which values a number makes sense. */
export interface NumberLimits {
  readonly least: number;
  readonly most: number;
  /** True when `least` itself is too little. */
  readonly above?: boolean;
  readonly whole?: boolean;
  /** Such as `mm`; none for a count. */
  readonly unit?: string;
}

/** A length: no board, page or pattern of a shop is longer. */
export const LENGTH: NumberLimits = { least: 0, most: 50_000, unit: 'mm' };

/** A length that cannot be 0, as that of a side. */
export const SOME_LENGTH: NumberLimits = { ...LENGTH, above: true };

/** Any number that is one: of either sign, and no larger than whole numbers are told apart. */
export const FINITE: NumberLimits = { least: -Number.MAX_SAFE_INTEGER, most: Number.MAX_SAFE_INTEGER };

/**
 * What is wrong with a number handed to the library, told by its field; undefined when nothing is. Plain JavaScript
 * hands over anything, so a text and a field that is not there are told too, before they come out as a layout.
 */
export function numberIssue(
  field: string,
  value: unknown,
  limits: NumberLimits,
  remedy?: string,
): Issue | undefined {
  if (isWithin(value, limits)) return undefined;
  return wrongValue(field, value, limitWords(limits), remedy);
}

function isWithin(value: unknown, { least, most, above = false, whole = false }: NumberLimits): boolean {
  // Written so that NaN fails too.
  if (typeof value !== 'number' || !(value >= least && value <= most)) return false;
  return !(above && value === least) && !(whole && !Number.isInteger(value));
}

function limitWords({ least, most, above = false, whole = false, unit }: NumberLimits): string {
  const number = whole ? 'a whole number' : 'a number';
  const ofUnit = unit === undefined ? '' : ` ${unit}`;
  // A limit that no one comes near by what they mean says nothing.
  const isOpen = most >= Number.MAX_SAFE_INTEGER;
  if (isOpen && -least >= Number.MAX_SAFE_INTEGER)
    return `${number} that is finite${unit === undefined ? '' : `, in ${unit}`}`;
  const upTo = above ? `above ${least} and up to ${most}` : `from ${least} to ${most}`;
  const from = above ? `above ${least}` : `of ${least} or more`;
  const span = isOpen ? from : upTo;
  return `${number} ${span}${ofUnit}`;
}
