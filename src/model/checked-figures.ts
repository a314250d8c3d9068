import { number, words } from '../issues/checks.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import { FINITE } from '../issues/number-issue.ts';
import * as hours from '../units/hours.ts';
import * as lumber from '../units/lumber.ts';
import * as money from '../units/money.ts';

/** Lumber, hours and money for who hands in anything: see `checked-lengths.ts` beside this. */

const minutesCheck = number({ ...FINITE, least: 0, unit: 'minutes' });

/**
 * A time, a number of minutes, for people: in minutes, or in hours from an hour and a half on.
 *
 * @param longest minutes that decide which of the two it is, so that both ends of a range look alike
 * @throws FretlayError for what is no number of minutes
 */
export function formatHours(minutes: number, longest = minutes): string {
  throwOnErrors([...minutesCheck('minutes', minutes), ...minutesCheck('longest', longest)]);
  return hours.formatHours(minutes, longest);
}

/**
 * Writes cents, rounded to whole ones: `$12.50` when the currency is a sign, `12.50 EUR` when it is a word.
 *
 * @throws FretlayError for what is no number of cents, and a currency that is no text
 */
export function formatMoney(cents: number, currency: string): string {
  throwOnErrors([
    ...number({ ...FINITE, unit: 'cents' })('cents', cents),
    ...words('Give a sign or a word, as "$" or "EUR".')('currency', currency),
  ]);
  return money.formatMoney(cents, currency);
}

/**
 * Board feet, exact by volume (not by the tally rule, which rounds).
 *
 * @param area face area in mm2
 * @param thickness in mm
 * @throws FretlayError for what is no number or below 0
 */
export function boardFeet(area: number, thickness: number): number {
  throwOnErrors([
    ...number({ ...FINITE, least: 0, unit: 'mm2' })('area', area),
    ...number({ ...FINITE, least: 0, unit: 'mm' })('thickness', thickness),
  ]);
  return lumber.boardFeet(area, thickness);
}

/**
 * Surfaced thickness in millimetres of a nominal quarter label such as `4/4`, or undefined when the text is not
 * one. `3/4` is left out on purpose: written alone it is far more often three quarters of an inch.
 *
 * @throws FretlayError for what is no text
 */
export function quarterThickness(label: string): number | undefined {
  throwOnErrors(words('Give a label such as "4/4".')('label', label));
  return lumber.quarterThickness(label);
}
