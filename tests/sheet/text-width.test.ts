import fc from 'fast-check';
import { expect, test } from 'vitest';
import { encodable, isPrintable } from '../../src/sheet/marks/base-font-text.ts';
import { text } from '../../src/sheet/marks/marks.ts';
import { fitted, shortened, textBox, textWidth, wrapped } from '../../src/sheet/marks/text-width.ts';

test('a text is as wide as its letters, in proportion to the size', () => {
  expect(textWidth('', 3)).toBe(0);
  expect(textWidth('mm', 3)).toBeCloseTo(2 * textWidth('m', 3), 9);
  expect(textWidth('heron', 4)).toBeCloseTo(2 * textWidth('heron', 2), 9);
});

test('an emoji is one sign, not its two code units', () => {
  expect(textWidth('\u{1f986}', 1)).toBeCloseTo(1.3 * 1.12, 9);
});

test('Greek and Cyrillic letters take the room of letters, and no less than the Latin ones printed for them', () => {
  const wood = 'Θάλασσα, κύμα, чайка';
  expect(textWidth(wood, 1)).toBeLessThan(1.6 * textWidth(wood.replace(/[^ ,]/g, 'o'), 1));
  const letters = Array.from({ length: 0x460 - 0x370 }, (_, i) => String.fromCodePoint(0x370 + i));
  const printed = letters.filter((each) => /\p{L}/u.test(each) && isPrintable(each));
  expect(printed.length).toBeGreaterThan(150);
  for (const each of printed) {
    const latin = encodable(each)
      .normalize('NFD')
      .replace(/\p{Mn}/gu, '');
    expect(1.12 * textWidth(each, 1), each).toBeGreaterThanOrEqual(textWidth(latin, 1));
  }
  expect(textWidth('re\u0301gate', 1)).toBe(textWidth('regate', 1));
});

test('the box of a text lies as its anchor says', () => {
  for (const [anchor, share] of [
    ['start', 0],
    ['middle', 0.5],
    ['end', 1],
  ] as const) {
    const { minX, maxX, minY, maxY } = textBox(text('label', 'heron', [10, 20], 5, anchor));
    expect((10 - minX) / (maxX - minX)).toBeCloseTo(share, 9);
    expect(maxY - minY).toBeCloseTo(5, 9);
    expect(minY).toBeLessThan(20);
    expect(maxY).toBeGreaterThan(20);
  }
});

test('a shortened text ends in an ellipsis and splits no sign', () => {
  expect(shortened('boathouse', 9)).toBe('boathouse');
  expect(shortened('boathouse', 5)).toBe('boat\u2026');
  expect(shortened('\u{1f986}'.repeat(4), 3)).toBe('\u{1f986}\u{1f986}\u2026');
  expect([...shortened('x'.repeat(10_000), 24)].length).toBe(24);
});

test('a fitted text is no wider than asked for, and whole where it fits', () => {
  fc.assert(
    fc.property(
      fc.string({ maxLength: 80 }),
      fc.double({ min: 5, max: 100, noNaN: true }),
      (words, width) => {
        const short = fitted(words, width, 3);
        // A single sign is kept, however narrow the place.
        if ([...short].length > 1) expect(textWidth(short, 3)).toBeLessThanOrEqual(width);
        if (textWidth(words, 3) <= width) expect(short).toBe(words);
      },
    ),
    { seed: 7, numRuns: 300 },
  );
});

test('wrapped lines hold every word in order, none too wide', () => {
  const words = 'Hold the work down. Leave small parts in the board until the last cut.';
  const lines = wrapped(words, 30, 2.6);
  expect(lines.length).toBeGreaterThan(3);
  expect(lines.join(' ')).toBe(words);
  for (const each of lines) expect(textWidth(each, 2.6)).toBeLessThanOrEqual(30);
  expect(textWidth(wrapped('x'.repeat(99), 30, 2.6)[0], 2.6)).toBeLessThanOrEqual(30);
});

test('a text mark is one line of printable characters', () => {
  expect(text('label', ' a\n\tb\u0000  c\u202e ', [0, 0], 3).text).toBe('a b c');
});
