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
