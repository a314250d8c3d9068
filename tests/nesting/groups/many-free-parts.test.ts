import { expect, test } from 'vitest';
import type { Point, Ring } from '../../../src/geometry/shapes.ts';
import type { Board } from '../../../src/model/stock.ts';
import { PLAIN_GAPS, plainBoard, plainDemand, soundLayout } from '../plain-batch.ts';

/** An ellipse in so many vertices that few angles are listed of a hundred. */
function ellipse(length: number, width: number): Ring {
  return Array.from({ length: 28 }, (_, i): Point => {
    const angle = (2 * Math.PI * i) / 28;
    return [(length / 2) * Math.cos(angle), (width / 2) * Math.sin(angle)];
  });
}

/** Sticks of so many lengths, whose grain is free, and how many of them find no place. */
async function leftOut(count: number, [length, width]: readonly number[], boards: readonly Board[]) {
  const rules = { grain: 'free', grainTolerance: 0, turnOver: false, restEdge: false } as const;
  const demands = Array.from({ length: count }, (_, i) =>
    plainDemand(`stick ${i}`, ellipse(length - i / 100, width - i / 100), { rules }),
  );
  return (await soundLayout({ sets: 1, demands, boards, ...PLAIN_GAPS })).unplaced.length;
}

test('sticks too many for more than the two angles they are drawn at are laid along boards too narrow for those', async () => {
  const boards = [plainBoard('wide', 200, 200), plainBoard('narrow', 700, 100, { quantity: 20 })];
  expect(await leftOut(145, [12, 150], boards)).toBe(0);
});

test('and aslant on boards that hold them so alone, where quarter turns are listed for as many', async () => {
  // By its diagonal a stick of 150 x 6 mm lies in a square of 106.2 mm, the root of (150^2 + 6^2) / 2.
  const squares = ['A', 'B'].map((id) => plainBoard(id, 120, 120, { quantity: 55 }));
  const boards = [plainBoard('long', 200, 20), ...squares];
  expect(await leftOut(110, [150, 6], boards)).toBe(0);
});
