import fc from 'fast-check';
import { expect, test } from 'vitest';
import { formatNumber } from '../../src/svg/number.ts';

test('numbers have at most three decimals and no trailing zeros', () => {
  expect([0, 1, -1, 0.5, 1.2345, 1.2355, 100, 1200.1].map(formatNumber)).toEqual([
    '0',
    '1',
    '-1',
    '0.5',
    '1.234',
    '1.236',
    '100',
    '1200.1',
  ]);
});

test('there is no -0 and no exponent', () => {
  expect([-0, -0.0004, 1e-12, 1e15, -1e15].map(formatNumber)).toEqual([
    '0',
    '0',
    '0',
    '1000000000000000',
    '-1000000000000000',
  ]);
});

test('what is not a finite number is refused with its value', () => {
  for (const value of [Number.NaN, Number.POSITIVE_INFINITY, 1e16]) {
    expect(() => formatNumber(value)).toThrow(`found ${value}`);
  }
});

test('the text reads back within half a thousandth and writes the same again', () => {
  fc.assert(
    fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (value) => {
      const text = formatNumber(value);
      expect(text).toMatch(/^(0|-?(0\.\d{1,3}|[1-9]\d*(\.\d{1,3})?))$/);
      expect(Math.abs(Number(text) - value)).toBeLessThanOrEqual(0.000501);
      expect(formatNumber(Number(text))).toBe(text);
    }),
    { seed: 1, numRuns: 500 },
  );
});
