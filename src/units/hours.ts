/** From so many minutes on a time is told in hours: figures of three digits are hard to picture. */
const IN_HOURS = 90;

/**
 * A time, a number of minutes, for people: in minutes, or in hours from an hour and a half on.
 *
 * @param longest minutes that decide which of the two it is, so that both ends of a range look alike
 */
export function formatHours(minutes: number, longest = minutes): string {
  return longest < IN_HOURS ? `${minutes.toFixed(0)} min` : `${(minutes / 60).toFixed(1)} h`;
}

/** Both ends of a range, each a number of minutes: `19.2 to 51.7 h`. */
export function formatHoursRange({ low, high }: { readonly low: number; readonly high: number }): string {
  return `${formatHours(low, high).split(' ')[0]} to ${formatHours(high)}`;
}
