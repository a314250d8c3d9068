import { expect, test } from 'vitest';
import type { Box } from '../../src/geometry/shapes.ts';
import { neededWindows } from '../../src/sheet/paper/needed-windows.ts';

/** Three windows of 100 mm side by side, of which neighbours share 20 mm. */
const GRID = { xs: [0, 80, 160], ys: [0], width: 100, height: 100 };
const PLACES = GRID.xs.map((x, column) => ({
  row: 0,
  column,
  window: { minX: x, minY: 0, maxX: x + 100, maxY: 100 },
}));
const from = (minX: number, maxX: number): Box => ({ minX, minY: 40, maxX, maxY: 50 });
const printed = (...content: Box[]) => neededWindows(PLACES, GRID, content).map(({ column }) => column);

test('a window is left out whose content the one beside it shows, and none that shows something alone', () => {
  expect(printed(from(82, 170))).toEqual([1]);
  expect(printed(from(70, 88), from(100, 120), from(172, 190))).toEqual([0, 1, 2]);
});

test('a window that stands in for the one beside it is kept, although its own content is seen elsewhere', () => {
  // The first part is seen in windows 0 and 1 alone, the second in 1 and 2.
  expect(printed(from(82, 88), from(163, 169))).toEqual([1]);
});
