import { expect, test } from 'vitest';
import { FretlayError } from '../../src/issues/fretlay-error.ts';
import type { Batch } from '../../src/model/batch.ts';
import type { LayOutOptions } from '../../src/model/laying-out.ts';
import { layOut } from '../../src/nesting/lay-out.ts';
import { randomBatch } from './random-batch.ts';

/** What `layOut` says of a batch or options as a caller without a compiler may hand them over. */
async function refused(change: object, options: object = {}): Promise<string> {
  const batch = { ...randomBatch(5), ...change } as Batch;
  const error = await layOut(batch, { effort: 0, ...options } as LayOutOptions).catch((thrown) => thrown);
  expect(error).toBeInstanceOf(FretlayError);
  expect(new Set((error as FretlayError).issues.map(({ kind }) => kind))).toEqual(
    new Set(['option-invalid']),
  );
  return (error as FretlayError).message;
}

test.each([
  [
    { effort: -1 },
    'options.effort: this value makes no sense (expected a number from 0 to 1000000, found -1)',
  ],
  [{ effort: Number.NaN }, 'found NaN'],
  [{ effort: Number.POSITIVE_INFINITY }, 'found Infinity'],
  [{ effort: '60' }, 'found "60"'],
  [{ seed: 1.5 }, 'options.seed: this value makes no sense (expected a whole number from 0 to 2147483648'],
  [{ workers: 0 }, 'options.workers'],
])('an option that makes no sense is refused: %o', async (options, told) => {
  const message = await refused({}, options);
  expect(message).toContain(told);
  expect(message).toContain('Leave it out to have the usual one.');
});

test('a number that a batch lacks is named, and not taken for want of room', async () => {
  expect(await refused({ outlineTolerance: undefined })).toBe(
    'batch.outlineTolerance: this field is missing (expected a number from 0 to 50000 mm, found nothing). Give the batch this number; `batchFromJob` fills in every field.',
  );
  const [demand] = randomBatch(5).demands;
  const [board] = randomBatch(5).boards;
  for (const [change, field] of [
    [{ sets: 0.5 }, 'batch.sets'],
    [{ kerf: null }, 'batch.kerf'],
    [{ keep: { length: 0, width: 10 } }, 'batch.keep.length'],
    [{ keep: { length: 100 } }, 'batch.keep.width: this field is missing'],
    [{ demands: [demand, { ...demand, copiesPerSet: '2' }] }, 'batch.demands[1].copiesPerSet'],
    [{ demands: [{ ...demand, rules: undefined }] }, 'batch.demands[0].rules.grainTolerance'],
    [
      { boards: [{ ...board, thickness: 0 }] },
      'batch.boards[0].thickness: this value makes no sense (expected a number above 0',
    ],
    [{ boards: undefined }, 'batch.boards: this list is missing'],
    [{ pins: [{ number: 1, x: Number.NaN, y: 0, rotation: 0 }] }, 'batch.pins[0].x'],
  ] as const)
    expect(await refused(change)).toMatch(new RegExp(`^${field.replace(/[[\]().]/g, '\\$&')}`));
});

test('every fault is told at once', async () => {
  const message = await refused({ kerf: -1, clearance: undefined }, { effort: -1 });
  expect(message.split('\n')).toHaveLength(3);
});
