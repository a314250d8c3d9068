import { expect, test } from 'vitest';
import { boundsOf } from '../../../src/geometry/shapes.ts';
import type { Batch, Pin } from '../../../src/model/batch.ts';
import { layOut } from '../../../src/nesting/lay-out.ts';
import { endsToTry } from '../../../src/nesting/sections/pinned-stretches.ts';
import { verifyLayout } from '../../../src/nesting/verify.ts';
import { rectangle } from '../../rectangle.ts';
import { PLAIN_GAPS, plainBoard, plainDemand } from '../plain-batch.ts';

/** Frames that lie one to a section: the boards hold six and seven of them when they are cut to the length of a frame. */
function frames(pins: readonly Pin[]): Batch {
  return {
    ...PLAIN_GAPS,
    sets: 12,
    demands: [plainDemand('frame', rectangle(184, 140), { layer: 'Frame' })],
    boards: [
      plainBoard('knotty', 1320, 184, { price: 25 }),
      plainBoard('long', 1524, 200, { price: 34 }),
      plainBoard('short', 914, 216, { quantity: 2, price: 20 }),
    ],
    pins,
    edgeMargin: 3,
    reach: { throat: 406.4, longest: undefined },
    crosscutKerf: 3.175,
  };
}

test('a pin on one board leaves the others filled from the left, and its own on either side of it', async () => {
  const pin: Pin = {
    layer: 'Frame',
    part: 'frame',
    board: 'knotty',
    number: 1,
    x: 431.8,
    y: 10,
    rotation: 0,
    turnedOver: false,
  };
  const batch = frames([pin]);
  const { layout } = await layOut(batch, { effort: 0, seed: 1 });
  expect(verifyLayout(layout, batch).ok).toBe(true);
  expect(layout.figures.completeSets).toBe(12);
  // A third board had been taken: 79 in place of 59.
  expect(layout.boards.map(({ stock }) => stock).sort()).toEqual(['knotty', 'long']);
  const pinned = layout.boards
    .flatMap(({ placements }) => placements)
    .filter(({ x, y }) => x === 431.8 && y === 10);
  expect(pinned.map(({ region }) => boundsOf(region.outline).maxX)).toEqual([431.8 + 184]);
});

test('a section ends before or behind what is pinned, and never in it', () => {
  const region = { outline: rectangle(100, 50).map(([x, y]) => [x + 300, y] as const), openings: [] };
  const pinned = [{ pin: {} as never, demand: {} as never, region, middle: 350 }];
  const around = { pinned, margin: 3, kerf: 2, longest: 250, rightEnd: 800 };
  expect(endsToTry(200, [280, 350], around)).toEqual([280, 294.999, 403.001]);
  // Too long a section otherwise: only before it; a section too short to be of use: only behind it.
  expect(endsToTry(100, [350], around)).toEqual([294.999]);
  expect(endsToTry(260, [350], around)).toEqual([403.001]);
  // A short end is cut off where what is pinned would not turn with it, and taken along where it turns in neither way.
  expect(endsToTry(260, [350], { ...around, longest: 120 })).toEqual([294.999]);
  expect(endsToTry(260, [350], { ...around, longest: 90 })).toEqual([403.001]);
  // What is pinned at the right end of the board reaches beyond it by its margin.
  expect(endsToTry(290, [402], { ...around, rightEnd: 402 })).toEqual([402]);
});
