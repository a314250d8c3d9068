import { expect, test } from 'vitest';
import { touchingPoints } from '../../src/geometry/touching-points.ts';
import { box, rectangle } from '../rectangle.ts';

test('an opening that touches the outline from within does so at its corner, on whichever side', () => {
  // Diamonds of 20 mm, each with one corner on a side of the square of 100 mm.
  const corners = [
    [0, 50],
    [100, 50],
    [50, 0],
    [50, 100],
  ] as const;
  for (const [x, y] of corners) {
    const [midX, midY] = [x + (50 - x) / 5, y + (50 - y) / 5];
    const diamond = [
      [midX - 10, midY],
      [midX, midY - 10],
      [midX + 10, midY],
      [midX, midY + 10],
    ] as const;
    expect(touchingPoints({ outline: rectangle(100, 100), openings: [diamond] })).toEqual([[x, y]]);
  }
  const inTheMiddle = box(45, 45, 55, 55);
  expect(touchingPoints({ outline: rectangle(100, 100), openings: [inTheMiddle] })).toEqual([]);
});
