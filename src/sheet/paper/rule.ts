import { type DisplayUnit, MM_PER_UNIT } from '../../units/length.ts';
import { line, type Mark, text } from '../marks/marks.ts';

const TEXT_SIZE = 1.9;

/** A rule's divisions: step in mm, how many steps make a longer tick, how many a numbered one. */
const DIVISIONS = {
  mm: { step: 1, longer: 5, numbered: 10, value: 10 },
  in: { step: MM_PER_UNIT.in / 8, longer: 4, numbered: 8, value: 1 },
} as const;

/**
 * A rule along the upper side of a window, ticks pointing up, zero at its left end: a check of the printer's
 * scale on every page.
 *
 * @param y of the window's upper side; `length` in mm
 */
export function ruleAcross(x: number, y: number, length: number, unit: DisplayUnit): Mark[] {
  return ruleTicks(length, unit).flatMap(({ at, height, label }): Mark[] => [
    line('rule', [x + at, y], [x + at, y - height]),
    ...(label === '' ? [] : [text('caption', label, [x + at + 0.4, y - 1.9], TEXT_SIZE)]),
  ]);
}

/** The same along the left side of a window, in mm from its upper left corner: ticks point left, zero is at the top. */
export function ruleDown(x: number, y: number, length: number, unit: DisplayUnit): Mark[] {
  return ruleTicks(length, unit).flatMap(({ at, height, label }): Mark[] => [
    line('rule', [x, y + at], [x - height, y + at]),
    ...(label === '' ? [] : [text('caption', label, [x - 1.9, y + at + 2], TEXT_SIZE, 'end')]),
  ]);
}

function ruleTicks(length: number, unit: DisplayUnit): { at: number; height: number; label: string }[] {
  const { step, longer, numbered, value } = DIVISIONS[unit];
  const count = Math.floor(length / step + 1e-9);
  return Array.from({ length: count + 1 }, (_, i) => ({
    at: i * step,
    height: i % numbered === 0 ? 3 : i % longer === 0 ? 2 : 1.2,
    label: i % numbered === 0 && i * step + 6 < length ? `${(i / numbered) * value}` : '',
  }));
}
