import { describe, expect, it } from 'vitest';
import type { Batch } from '../../src/model/batch.ts';
import { layOut } from '../../src/nesting/lay-out.ts';
import { verifyLayout } from '../../src/nesting/verify.ts';
import { rectangle } from '../rectangle.ts';

describe('a batch of which every copy is pinned', () => {
  it('is laid out where it is pinned, with nothing left to search for', async () => {
    const batch: Batch = {
      sets: 1,
      demands: [
        {
          part: 'bank',
          layer: 'Shore',
          region: { outline: rectangle(60, 40), openings: [] },
          veins: [],
          copiesPerSet: 1,
          species: 'oak',
          thickness: 19,
          rules: { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false },
        },
      ],
      boards: [
        {
          id: 'Oak',
          species: 'oak',
          thickness: 19,
          outline: rectangle(300, 120),
          defects: [],
          quantity: 1,
          price: 12,
        },
      ],
      pins: [
        {
          layer: 'Shore',
          part: 'bank',
          board: 'Oak',
          number: 1,
          x: 100,
          y: 50,
          rotation: 0,
          turnedOver: false,
        },
      ],
      kerf: 1,
      clearance: 0,
      edgeMargin: 3,
      thicknessTolerance: 0.5,
      outlineTolerance: 0,
    };
    const { layout } = await layOut(batch, { effort: 1 });
    expect(verifyLayout(layout).breaches).toEqual([]);
    expect(layout.boards).toMatchObject([{ id: 'Oak-1', placements: [{ x: 100, y: 50 }] }]);
  });
});
