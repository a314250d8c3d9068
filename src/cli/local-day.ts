/**
 * The day it is where the clock is, such as 2026-03-31: in the evening of America it is tomorrow already by UTC.
 *
 * @param moment milliseconds since 1970, UTC
 * @param behind minutes the clock is behind UTC, as `Date.getTimezoneOffset` tells; negative east of it
 */
export function localDay(moment: number, behind: number): string {
  return new Date(moment - behind * 60_000).toISOString().slice(0, 10);
}
