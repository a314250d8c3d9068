import { expect, test } from 'vitest';
import { linesWithoutOpening } from '../../src/pattern/inner-lines.ts';
import { box, rectangle } from '../rectangle.ts';

test('a line in a shape that makes no opening in it is counted, a speck is not', () => {
  const bird = rectangle(40, 20);
  const inside = (side: number) => box(10, 10, 10 + side, 10 + side);
  const kept = [{ region: { outline: bird, openings: [] } }] as unknown as Parameters<
    typeof linesWithoutOpening
  >[1];
  expect(linesWithoutOpening([bird, inside(2)], kept)).toBe(1);
  // 0.000064 mm2, less than a hundredth of a millimetre square.
  expect(linesWithoutOpening([bird, inside(0.008)], kept)).toBe(0);
});
