import { expect, test } from 'vitest';
import type { Batch } from '../../../src/model/batch.ts';
import { stackWays } from '../../../src/nesting/groups/stack-ways.ts';
import { ProblemBuilder } from '../../../src/nesting/problem/problem-spec.ts';
import { Pulse } from '../../../src/nesting/running/pulse.ts';
import { wellParted } from '../../../src/nesting/sections/choose-parting.ts';
import { rectangle } from '../../rectangle.ts';

/** Tiles of three sizes on planks that are cross-cut for a throat of 24 in, deeper than three of the usual ones. */
const batch: Batch = {
  sets: 8,
  demands: [90, 130, 170].map((length, n) => ({
    part: `tile ${n}`,
    layer: 'wood',
    region: { outline: rectangle(length, 60 + 10 * n), openings: [] },
    veins: [],
    copiesPerSet: 1,
    species: 'cherry',
    thickness: 6,
    rules: { grain: 'along', grainTolerance: 0, turnOver: false, restEdge: false },
  })),
  boards: [
    {
      id: 'plank',
      species: 'cherry',
      thickness: 6,
      outline: rectangle(1800, 150),
      defects: [],
      quantity: 3,
      price: undefined,
    },
  ],
  kerf: 1,
  clearance: 0,
  edgeMargin: 2,
  thicknessTolerance: 0.5,
  outlineTolerance: 0,
  reach: { throat: 609.6, longest: undefined },
};

class CountingPulse extends Pulse {
  looks = 0;
  override get due(): boolean {
    this.looks++;
    return super.due;
  }
}

test('where few ways to part boards are enough, all copies find a place for less than half of the work', async () => {
  const [{ ways }] = stackWays(batch);
  const [[group]] = ways;
  const parted = async (brief: boolean) => {
    const pulse = new CountingPulse(undefined);
    const trials = { taken: new Set<string>(), builder: new ProblemBuilder(), pulse, brief };
    const [{ start }] = await wellParted(batch, group, trials);
    expect(start!.container.every((k) => k >= 0)).toBe(true);
    return pulse.looks;
  };
  expect(await parted(true)).toBeLessThan((await parted(false)) / 2);
});
