import { expect, test } from 'vitest';
import { listBelow } from '../../src/sheet/board/label-list.ts';
import { flatMarks } from '../../src/sheet/marks/marks.ts';
import { circle, placed } from './hand-layout.ts';

/** The lines of the list for parts, each by its number on the board, its name and its set. */
function lines(
  ...parts: readonly (readonly [number: number, part: string, set: number, turnedOver?: boolean])[]
) {
  const listed = parts.map(([number, part, set, turnedOver = false]) => ({
    number,
    placement: placed({ part, set, turnedOver, region: { outline: circle(0, 0, 2), openings: [] } }),
  }));
  const { marks, bottom } = listBelow(listed, [], 0, { minX: 0, maxX: 100, top: 10 });
  expect(bottom).toBeGreaterThan(10);
  return [...flatMarks(marks)].flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
}

test('copies of a part share an entry of the list, in which numbers and sets in even steps are told by the first and the last', () => {
  expect(lines([3, 'pebble', 3], [1, 'pebble', 1], [2, 'pebble', 2], [4, 'reed', 1])).toEqual([
    'p1–p3 Front · pebble · 1–3',
    'p4 Front · reed · 1',
  ]);
  // Several for each set; of a stack, the first set of each.
  expect(lines([1, 'pebble', 1], [2, 'pebble', 1], [3, 'pebble', 2], [4, 'pebble', 2])).toEqual([
    'p1–p4 Front · pebble · 1, 2 (2 each)',
  ]);
  expect(lines([1, 'pebble', 1], [2, 'pebble', 1], [3, 'pebble', 1])).toEqual(['p1–p3 Front · pebble · 1']);
  expect(lines([1, 'pebble', 1], [2, 'pebble', 2], [3, 'pebble', 2])).toEqual([
    'p1–p3 Front · pebble · 1, 2',
  ]);
  expect(lines([1, 'pebble', 1], [2, 'pebble', 1], [3, 'pebble', 1], [4, 'pebble', 2])).toEqual([
    'p1–p4 Front · pebble · 1, 2',
  ]);
  expect(lines([7, 'pebble', 1], [8, 'pebble', 4], [9, 'pebble', 7], [10, 'pebble', 10])).toEqual([
    'p7–p10 Front · pebble · 1, 4, … 10',
  ]);
  expect(lines([1, 'pebble', 2], [2, 'pebble', 1])).toEqual(['p1–p2 Front · pebble · 2, 1']);
  expect(lines([1, 'pebble', 1], [3, 'pebble', 2], [4, 'pebble', 3], [5, 'pebble', 4])).toEqual([
    'p1, p3–p5 Front · pebble · 1–4',
  ]);
});

test('kinds whose numbers alternate have one entry each, and so has what lies another way up', () => {
  const shore = Array.from({ length: 10 }, (_, i) => {
    return [i + 1, i % 2 === 0 ? 'pebble' : 'reed', Math.floor(i / 2) + 1] as const;
  });
  expect(lines(...shore)).toEqual(['p1, p3, … p9 Front · pebble · 1–5', 'p2, p4, … p10 Front · reed · 1–5']);
  expect(lines([1, 'pebble', 1], [2, 'pebble', 2, true], [3, 'pebble', 3, true])).toEqual([
    'p1 Front · pebble · 1',
    'p2–p3 Front · pebble · 2, 3 turned over',
  ]);
});

test('a long entry goes on below, a little to the right, and no line is wider than the page', () => {
  const number = (i: number) => i + Math.floor((i * i) / 3);
  const listed = Array.from({ length: 40 }, (_, i) => ({
    number: number(i + 1),
    placement: placed({ part: 'pebble', set: i + 1, region: { outline: circle(0, 0, 2), openings: [] } }),
  }));
  const list = listBelow(listed, [], 25, { minX: 5, maxX: 60, top: 10, page: 80 });
  const texts = flatMarks(list.marks).flatMap((mark) => (mark.kind === 'text' ? [mark] : []));
  expect(texts.length).toBeGreaterThan(4);
  const written = texts.map(({ text }) => text).join(' ');
  for (const each of listed) expect(written).toMatch(new RegExp(`p${each.number}\\b`));
  expect(list.right).toBeLessThan(5 + 80);
  expect(texts.map(({ at }) => at[0]).sort((a, b) => a - b)).toContain(5 + 3);
  expect(list.bottom).toBeCloseTo(10 + 3.4 * texts.length);
});

test('how many parts have no number is said below the list, on a line that makes no column wider', () => {
  const place = { minX: 0, maxX: 100, top: 10 };
  const placement = (part: string) => placed({ part, region: { outline: circle(0, 0, 2), openings: [] } });
  const listed = ['reed', 'boat', 'gull'].map((part, i) => ({ number: i + 1, placement: placement(part) }));
  const texts = [...flatMarks(listBelow(listed, [], 2, place).marks)].flatMap((mark) =>
    mark.kind === 'text' ? [mark] : [],
  );
  expect(texts.map(({ text }) => text.split(' ').slice(0, 2).join(' '))).toEqual([
    'p1 Front',
    'p2 Front',
    'p3 Front',
    '2 small',
  ]);
  expect(texts.map(({ at }) => at[1] - texts[0].at[1])).toEqual([0, 0, 0, expect.closeTo(3.4)]);
  expect(listBelow(listed, [], 2, place).bottom - listBelow(listed, [], 0, place).bottom).toBeCloseTo(3.4);
});
