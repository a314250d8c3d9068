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
  ])('reads %s', (text, expected) => {
    expect(mm(text)).toBeCloseTo(expected, 9);
  });

  it.each(['', 'long', '3/0 in', '5 furlongs', '1//2 in', '3 4 5 mm', 'mm', 'NaN', '1-1/2-1/4 in'])(
    'refuses %s in words',
    (text) => {
      expect(mm(text)).toMatch(/is not a (length|unit)/);
    },
  );

  it('says that decimals have a point', () => {
    expect(mm('12,5 mm')).toBe('"12,5 mm" is not a length: decimals have a point, not a comma');
    expect(mm('1,200 mm')).toMatch(/is not a length/);
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
