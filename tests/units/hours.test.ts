import { describe, expect, it } from 'vitest';
import { formatHours, formatHoursRange } from '../../src/units/hours.ts';

describe('formatHours', () => {
  it.each([
    [0.4, '0 min'],
    [89, '89 min'],
    [90, '1.5 h'],
    [162, '2.7 h'],
  ])('writes %d minutes as %s', (minutes, words) => {
    expect(formatHours(minutes)).toBe(words);
  });

  it('writes both ends of a range in the unit of the longer', () => {
    expect(formatHoursRange({ low: 60, high: 120 })).toBe('1.0 to 2.0 h');
    expect(formatHoursRange({ low: 20, high: 45 })).toBe('20 to 45 min');
  });
});
