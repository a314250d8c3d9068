import { describe, expect, test } from 'vitest';
import { physicalMillimetres, readLength } from '../../src/svg/units.ts';
import { outsideCheck } from '../outside-check.ts';

const frame = { width: 200, height: 100, fontSize: 10, rootFontSize: 16, mmPerPx: 25.4 / 96 };

describe('CSS Values and Units Level 3, section 5.2: one inch in every absolute unit', () => {
  test.each(['1in', '2.54cm', '25.4mm', '101.6Q', '72pt', '6pc', '96px', '96', ' 1IN ', '.1e1in', '+1in'])(
    '%s',
    (text) => {
      const reading = readLength(text, 'x', frame);
      outsideCheck({
        what: `"${text.trim()}" as a length of SVG, px`,
        source: 'W3C CSS Values and Units Level 3, section 5.2',
        expected: 96,
        found: reading.ok ? reading.value : 'refused',
        tolerance: 1e-9,
      });
    },
  );
});

test('shares are of the width, the height, or the diagonal over the square root of two (SVG 2, 8.9)', () => {
  expect(readLength('10%', 'x', frame)).toEqual({ ok: true, value: 20 });
  expect(readLength('10%', 'y', frame)).toEqual({ ok: true, value: 10 });
  const diagonal = readLength('10%', 'diagonal', frame);
  outsideCheck({
    what: '10 % of the diagonal of a viewport of 200 x 100, px',
    source: 'W3C SVG 2, section 8.9: the diagonal over the square root of two',
    expected: Math.sqrt((200 ** 2 + 100 ** 2) / 2) / 10,
    found: diagonal.ok ? diagonal.value : 'refused',
    tolerance: 1e-12,
  });
  expect(readLength('10%', 'x', { ...frame, width: undefined }).ok).toBe(false);
});

test('font sizes', () => {
  expect(readLength('2em', 'x', frame)).toEqual({ ok: true, value: 20 });
  expect(readLength('2ex', 'x', frame)).toEqual({ ok: true, value: 10 });
  expect(readLength('2rem', 'x', frame)).toEqual({ ok: true, value: 32 });
});

test.each([
  '',
  'x',
  '1 2',
  '1furlong',
  'auto',
  'NaN',
  'Infinity',
  '1e999',
  '1e308in',
  '--1',
  '1,5',
  'calc(1px + 1)',
  'calc(1px+1px)',
  'calc(2)',
  'calc(1px * 1px)',
  'calc(1px / 1px)',
  'calc((1px)',
  'calc(1px) 2',
  `calc(${'('.repeat(100_000)}`,
  'min(1px, 2px)',
  '10vw',
])('"%s" is no length', (text) => {
  expect(readLength(text, 'x', frame).ok).toBe(false);
});

test('only units of the physical world have a size of their own', () => {
  expect(physicalMillimetres('2.5in')).toBeCloseTo(63.5, 12);
  expect(['12', '12px', '12%', '2em', 'auto'].map(physicalMillimetres)).toEqual(Array(5).fill(undefined));
});

test.each<[string, number]>([
  ['calc(1px + 1in)', 97],
  ['calc(10px - 2px * 3)', 4],
  ['calc(2 * (1px + 3px))', 8],
  ['calc(1in / 4 + calc(4px))', 28],
  ['CALC(-1px - -3px)', 2],
])('the sum %s', (text, value) => {
  expect(readLength(text, 'x', frame)).toEqual({ ok: true, value: expect.closeTo(value, 9) });
});
