/**
 * True when one of a list bars a way. It is put first: what bars one way most likely bars the next, and thousands may be
 * looked at. The order of the list is to mean nothing.
 */
export function anyInTheWay<T>(list: T[], bars: (each: T) => boolean): boolean {
  const at = list.findIndex(bars);
  if (at > 0) [list[0], list[at]] = [list[at], list[0]];
  return at >= 0;
}
