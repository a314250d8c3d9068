/** True for a day that there is, written such as 2026-03-31. */
export function isCalendarDate(value: unknown): boolean {
  if (typeof value !== 'string' || !/^\d{4}-\d{2}-\d{2}$/.test(value)) return false;
  const date = new Date(`${value}T00:00:00Z`);
  // The platform may take the 31st of a short month for the 1st of the next.
  return !Number.isNaN(date.getTime()) && date.toISOString().startsWith(value);
}
