import { describe, expect, it } from 'vitest';
import { formatInches, formatLength, MM_PER_UNIT, namesUnit, parseLength } from '../../src/units/length.ts';
import { outsideCheck } from '../outside-check.ts';

const mm = (text: string | number) => {
  const parsed = parseLength(text);
  return parsed.ok ? parsed.value : parsed.problem;
};

describe('parseLength', () => {
  it.each([
    ['19 mm', 19],
    ['19', 19],
    [19, 19],
    ['2 cm', 20],
    ['0.5 m', 500],
    ['8 in', 203.2],
    ['3/4 in', 19.05],
    ['13/16"', 20.6375],
    ['1-1/2 in', 38.1],
    ['1 1/2 inches', 38.1],
    ['47-1/2"', 1206.5],
    ['6\' 2"', 1879.6],
    ['2 ft', 609.6],
    ['.5in', 12.7],
    ['-3 mm', -3],
    ['1e2 mm', 100],
    ['5½ in', 139.7],
    ['5 ½"', 139.7],
    ['5-½ in', 139.7],
    ['-⅛ in', -3.175],
    ['6′ 2¼″', 1885.95],
    ['1 3⁄4 in', 44.45],
    ['5–1/2 in', 139.7],
    ['5-1/2in.', 139.7],
    ["5-1/2''", 139.7],
    ['6’ 2”', 1879.6],
    ['−3 mm', -3],
    ['9/8 in', 28.575],
    ['6 ft. 2 in.', 1879.6],
    ['2feet 3 inches', 685.8],
    ['24”', 609.6],
    ['1/2-inch', 12.7],
    ['19 millimetres', 19],
  ])('reads %s', (text, expected) => {
    expect(mm(text)).toBeCloseTo(expected, 9);
  });

  it.each(['', 'long', '3/0 in', '5 furlongs', '1//2 in', '3 4 5 mm', 'mm', 'NaN', '1-1/2-1/4 in'])(
    'refuses %s in words',
    (text) => {
      expect(mm(text)).toMatch(/is not a (length|unit)/);
    },
  );

  it('takes a comma for the point of decimals', () => {
    const read = ['1,5 mm', '12,25 in', '0,200 mm', '19,0500 mm'].map(mm);
    expect(read).toEqual([1.5, 311.15, 0.2, 19.05]);
  });

  it.each([
    ['1,200 mm', '"1,200 mm" may be "1200 mm" or "1.2 mm": write the one that is meant'],
    ['1.200 mm', '"1.200 mm" may be "1200 mm" or "1.2 mm": write the one that is meant'],
    ['2.440mm', '"2.440mm" may be "2440 mm" or "2.44 mm": write the one that is meant'],
    [
      '1.200,5 mm',
      '"1.200,5 mm" is not a length: write decimals with one point, and thousands without a mark',
    ],
    ['5 - 1/2 in', '"5 - 1/2 in" may be a sum or a difference: write "5-1/2 in" for the sum'],
    ['5 –1⁄2”', '"5 –1⁄2”" may be a sum or a difference: write "5-1⁄2”" for the sum'],
  ])('does not guess which of two lengths %s is', (text, told) => {
    expect(mm(text)).toBe(told);
  });

  it('takes three decimals for what they are where no board is so long, or the unit is the inch', () => {
    const read = ['3.175 mm', '12.700 mm', '0.200 mm', '1.250 in'].map(mm);
    expect(read).toEqual([3.175, 12.7, 0.2, 31.75]);
  });

  it('reads feet and inches joined by a hyphen, as drawings have them, and none as a sign', () => {
    const inches = (text: string) => {
      const read = parseLength(text);
      return read.ok ? read.value / 25.4 : read.problem;
    };
    for (const text of [`6'-2"`, `6' 2"`, `6’-2”`, `6' - 2"`, '6 ft-2 in', `6'2"`]) {
      expect(inches(text)).toBeCloseTo(74, 9);
    }
    expect(inches(`8'-0"`)).toBeCloseTo(96, 9);
    expect(inches(`6'-2-1/2"`)).toBeCloseTo(74.5, 9);
    expect(inches(`6'--2"`)).toMatch(/not a length/);
  });

  it('does not take the exponent of a number for a unit', () => {
    expect(['1e2', '1E2', '6', '6e0 mm', '1e2 in'].map(namesUnit)).toEqual([false, false, false, true, true]);
  });

  it('refuses a fraction of 1 or more behind a whole number, and a range', () => {
    const why = 'is not a length: the fraction behind a whole number is less than 1';
    expect(mm('5-9/8 in')).toBe(`"5-9/8 in" ${why}`);
    expect(mm('5 8/8"')).toContain(why);
    expect(mm('5–6 in')).toBe('"5–6 in" is not a length');
  });

  it('refuses a text without end at once', () => {
    expect(mm(`1'${' '.repeat(100_000)}x`)).toMatch(/is not a length/);
    expect(mm('3 constructor')).toMatch(/is not a unit/);
  });

  it('refuses a number that is not finite', () => {
    expect(mm(Number.POSITIVE_INFINITY)).toMatch(/finite/);
  });

  // W3C CSS Values and Units Level 3, section 5.2: 1in = 2.54cm = 96px = 72pt = 6pc, 1Q = 1/40 cm.
  it('holds the absolute lengths of CSS', () => {
    const { in: inch, cm, px, pt, pc, q } = MM_PER_UNIT;
    outsideCheck({
      what: 'cm, px, pt, pc and Q in an inch',
      source: 'W3C CSS Values and Units Level 3, section 5.2',
      expected: [2.54, 96, 72, 6, 101.6],
      found: [cm, px, pt, pc, q].map((unit) => inch / unit),
      tolerance: 1e-12,
    });
  });
});

describe('formatLength', () => {
  it.each([
    [7.125, '7-1/8'],
    [0.75, '3/4'],
    [12, '12'],
    [0, '0'],
    [1 / 32, '1/32'],
    [0.99, '1'],
    [-1.5, '-1-1/2'],
    [-0.001, '0'],
  ])('writes %d inches as %s', (inches, text) => {
    expect(formatInches(inches)).toBe(text);
  });

  it('writes millimetres without idle zeros', () => {
    expect(formatLength(19, 'mm')).toBe('19 mm');
    expect(formatLength(19.06, 'mm')).toBe('19.1 mm');
    expect(formatLength(100, 'mm', 0)).toBe('100 mm');
    expect(formatLength(180.975, 'in')).toBe('7-1/8 in');
  });
});
