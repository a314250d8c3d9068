import { expect, test } from 'vitest';
import type { Mark } from '../../src/sheet/marks/marks.ts';
import { ruleAcross, ruleDown } from '../../src/sheet/paper/rule.ts';

function ticks(marks: readonly Mark[], axis: 0 | 1): number[] {
  return marks.flatMap((mark) => (mark.kind === 'line' ? [mark.points[0][axis]] : []));
}

function numbers(marks: readonly Mark[]): string[] {
  return marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
}

test('in millimetres a tick stands at every millimetre, a number at every ten', () => {
  const rule = ruleAcross(20, 30, 200, 'mm');
  expect(ticks(rule, 0)).toEqual(Array.from({ length: 201 }, (_, i) => 20 + i));
  expect(numbers(rule).slice(0, 4)).toEqual(['0', '10', '20', '30']);
});

test('in inches a tick stands at every eighth, a number at every inch', () => {
  const rule = ruleDown(20, 30, 254, 'in');
  const places = ticks(rule, 1);
  expect(places.length).toBe(81);
  expect(places[80] - places[0]).toBeCloseTo(254, 9);
  expect(numbers(rule)).toEqual(['0', '1', '2', '3', '4', '5', '6', '7', '8', '9']);
});

test('no tick stands beyond the length', () => {
  expect(Math.max(...ticks(ruleAcross(0, 0, 100.9, 'mm'), 0))).toBe(100);
});
