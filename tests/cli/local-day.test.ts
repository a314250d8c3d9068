import { expect, it } from 'vitest';
import { localDay } from '../../src/cli/local-day.ts';

it.each([
  ['evening in New York, UTC-4', '2026-04-01T00:30:00Z', 240, '2026-03-31'],
  ['midnight in New York', '2026-04-01T04:00:00Z', 240, '2026-04-01'],
  ['the last evening of a year in New York, UTC-5', '2027-01-01T04:59:59Z', 300, '2026-12-31'],
  ['morning in India, UTC+5:30', '2026-02-28T18:30:00Z', -330, '2026-03-01'],
  ['Greenwich', '2026-03-31T23:59:59Z', 0, '2026-03-31'],
])('the day of %s is that of the clock', (_, moment, behind, day) => {
  expect(localDay(Date.parse(moment), behind)).toBe(day);
});
