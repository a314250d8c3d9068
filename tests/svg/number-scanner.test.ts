import fc from 'fast-check';
import { expect, test } from 'vitest';
import { NumberScanner, readNumberList } from '../../src/svg/number-scanner.ts';

test('every number reads as the language itself reads it, to the last bit', () => {
  const written = fc.oneof(
    fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
    fc.tuple(fc.integer(), fc.nat(15)).map(([n, digits]) => (n / 7).toFixed(digits)),
    fc
      .tuple(fc.bigInt({ min: 0n, max: 10n ** 20n }), fc.bigInt({ min: 0n, max: 10n ** 20n }))
      .map((n) => n.join('.')),
    fc
      .tuple(fc.integer({ min: -999, max: 999 }), fc.integer({ min: -330, max: 330 }))
      .map((n) => n.join('e')),
  );
  fc.assert(
    fc.property(written, (text) => {
      const scanner = new NumberScanner(`${text} `);
      const expected = Number(text);
      const value = scanner.number();
      expect(value).toBe(Number.isFinite(expected) ? expected : Number.NaN);
      expect(scanner.at).toBe(Number.isFinite(expected) ? text.length : 0);
    }),
    { seed: 50, numRuns: 2000 },
  );
});

test.each([
  ['1 2,3', [1, 2, 3]],
  [' 1-2+3.5.5 ', [1, -2, 3.5, 0.5]],
  ['1e2-3E-1', [100, -0.3]],
  ['', []],
  ['1,,2', undefined],
  ['1,', undefined],
  ['1px', undefined],
  ['1e', undefined],
  ['.', undefined],
  ['--1', undefined],
])('the list %s', (text, numbers) => {
  expect(readNumberList(text)).toEqual(numbers);
});
