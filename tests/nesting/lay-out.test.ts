import { describe, expect, test } from 'vitest';
import { layOut } from '../../src/nesting/lay-out.ts';
import { verifyLayout } from '../../src/nesting/verify.ts';
import { randomBatch } from './random-batch.ts';

describe('layOut on random jobs', () => {
  test('every layout passes the independent verifier', async () => {
    for (let seed = 1; seed <= 30; seed++) {
      const { layout } = await layOut(randomBatch(seed), { effort: 0 });
      expect(verifyLayout(layout).breaches, `seed ${seed}`).toEqual([]);
    }
  });
});
