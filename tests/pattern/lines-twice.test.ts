import { expect, test } from 'vitest';
import type { Line, Point } from '../../src/geometry/shapes.ts';
import { linesOnce } from '../../src/pattern/lines-twice.ts';
import { seeded } from '../seeded.ts';

test('a line drawn again within the touching depth is found wherever it lies, and its neighbours are kept', () => {
  const random = seeded(3);
  const lines = Array.from({ length: 400 }, (): Line => {
    const [x, y] = [100 * random() - 50, 100 * random() - 50];
    return [
      [x, y],
      [x + 20 * random(), y + 20 * random() - 10],
    ];
  });
  // As much as rounding to a hundredth of a millimetre moves a point, less than the touching depth of 0.02 mm.
  const moved = lines.map((line) =>
    line.map(([x, y]): Point => [x + 0.014 * (random() - 0.5), y + 0.014 * (random() - 0.5)]).reverse(),
  );
  // Beside every line another one, farther off than that.
  const beside = lines.map((line) => line.map(([x, y]): Point => [x + 0.03, y - 0.03]));
  const sourced = [...lines, ...moved, ...beside].map((line, source) => ({ line, source }));
  const { kept, twins } = linesOnce(sourced);
  expect(kept).toHaveLength(800);
  expect(twins).toHaveLength(400);
  for (const { twin, of } of twins) expect(Math.abs(twin.source - of.source)).toBe(400);
});
