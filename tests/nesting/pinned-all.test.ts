import { describe, expect, it } from 'vitest';
import type { Pin } from '../../src/model/batch.ts';
import { rectangle } from '../rectangle.ts';
import { PLAIN_GAPS, plainBoard, plainDemand, soundLayout } from './plain-batch.ts';

describe('a batch of which every copy is pinned', () => {
  it('is laid out where it is pinned, with nothing left to search for', async () => {
    // Not turned over, as it is not said to be.
    const place = { number: 1, x: 100, y: 50, rotation: 0 };
    const pin: Pin = { layer: 'L', part: 'bank', board: 'Oak', ...place };
    const demands = [plainDemand('bank', rectangle(60, 40))];
    const boards = [plainBoard('Oak', 300, 120, { price: 12 })];
    const layout = await soundLayout({ sets: 1, demands, boards, pins: [pin], ...PLAIN_GAPS }, 1);
    expect(layout.boards).toMatchObject([
      { id: 'Oak-1', placements: [{ x: 100, y: 50, turnedOver: false }] },
    ]);
  });
});

describe('a stock too small for all sets, with some copies of a part pinned', () => {
  it.each([false, true])('makes as many sets as lie around them, sets together: %s', async (setsTogether) => {
    // Beside two slats of 100 mm, 190 of 394 mm are left: two tiles of 80 mm make both sets whole, a slat and a tile one.
    const place = { layer: 'L', part: 'slat', board: 'Oak', number: 1, y: 3, rotation: 0 };
    const pins: Pin[] = [3, 105].map((x) => ({ ...place, x }));
    const demands = [plainDemand('slat', rectangle(100, 40)), plainDemand('tile', rectangle(80, 40))];
    const boards = [plainBoard('Oak', 400, 46, { price: 12 })];
    const gaps = { ...PLAIN_GAPS, kerf: 1, clearance: 1, edgeMargin: 3 };
    const layout = await soundLayout({ sets: 4, demands, boards, pins, setsTogether, ...gaps }, 1);
    expect(layout.figures.completeSets).toBe(2);
  });
});
