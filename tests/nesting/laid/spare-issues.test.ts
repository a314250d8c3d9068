import { expect, test } from 'vitest';
import type { Batch } from '../../../src/model/batch.ts';
import { layOut } from '../../../src/nesting/lay-out.ts';
import { rectangle } from '../../rectangle.ts';
import { PLAIN_GAPS, plainBoard, plainDemand } from '../plain-batch.ts';

test('what stacks give to spare is told once for all parts of a layer', async () => {
  const small = (part: string, layer: string) => plainDemand(part, rectangle(20, 20), { layer, stack: 3 });
  const batch: Batch = {
    ...PLAIN_GAPS,
    sets: 5,
    demands: [small('cap', 'Caps'), small('gill', 'Caps'), small('stem', 'Stems')],
    boards: [plainBoard('A', 200, 100, { quantity: 3 })],
  };
  const { issues } = await layOut(batch, { effort: 0 });
  expect(issues.map(({ kind, message, where }) => [kind, message, where])).toEqual([
    [
      'copies-to-spare',
      '2 parts, each: the stacks give 1 copy more than the sets need',
      { layer: 'Caps', part: 'cap, gill' },
    ],
    ['copies-to-spare', 'the stacks give 1 copy more than the sets need', { layer: 'Stems', part: 'stem' }],
  ]);
});
