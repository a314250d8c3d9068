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

test('copies of a part with numbers in a row and sets in even steps share a line of the list', () => {
  expect(lines([3, 'pebble', 3], [1, 'pebble', 1], [2, 'pebble', 2], [4, 'reed', 1])).toEqual([
    'p1–p3 Front · pebble · 1–3',
    'p4 Front · reed · 1',
  ]);
  // Several for each set; of a stack, the first set of each.
  expect(lines([1, 'pebble', 1], [2, 'pebble', 1], [3, 'pebble', 2], [4, 'pebble', 2])).toEqual([
    'p1–p2 Front · pebble · 1',
    'p3–p4 Front · pebble · 2',
  ]);
  expect(lines([7, 'pebble', 1], [8, 'pebble', 4], [9, 'pebble', 7])).toEqual([
    'p7–p9 Front · pebble · 1, 4, … 7',
  ]);
  expect(lines([7, 'pebble', 1], [8, 'pebble', 4])).toEqual(['p7–p8 Front · pebble · 1, 4']);
});

test('what lies between has a line of its own in the list, and so has what lies another way up', () => {
  expect(lines([1, 'pebble', 1], [3, 'pebble', 3])).toEqual([
    'p1 Front · pebble · 1',
    'p3 Front · pebble · 3',
  ]);
  expect(lines([1, 'pebble', 2], [2, 'pebble', 1])).toEqual([
    'p1 Front · pebble · 2',
    'p2 Front · pebble · 1',
  ]);
  expect(lines([1, 'pebble', 1], [2, 'pebble', 2, true], [3, 'pebble', 3, true])).toEqual([
    'p1 Front · pebble · 1',
    'p2–p3 Front · pebble · 2, 3 turned over',
  ]);
});

test('how many parts have no number is said below the list, on a line that makes no column wider', () => {
  const place = { minX: 0, maxX: 100, top: 10 };
  const placement = placed({ part: 'reed', region: { outline: circle(0, 0, 2), openings: [] } });
  const listed = [1, 3, 5].map((number) => ({ number, placement }));
  const texts = [...flatMarks(listBelow(listed, [], 2, place).marks)].flatMap((mark) =>
    mark.kind === 'text' ? [mark] : [],
  );
  expect(texts.map(({ text }) => text.split(' ').slice(0, 2).join(' '))).toEqual([
    'p1 Front',
    'p3 Front',
    'p5 Front',
    '2 small',
  ]);
  expect(texts.map(({ at }) => at[1] - texts[0].at[1])).toEqual([0, 0, 0, expect.closeTo(3.4)]);
  expect(listBelow(listed, [], 2, place).bottom - listBelow(listed, [], 0, place).bottom).toBeCloseTo(3.4);
});
