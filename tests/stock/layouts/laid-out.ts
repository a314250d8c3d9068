import type { Batch } from '../../../src/model/batch.ts';
import type { Layout } from '../../../src/model/layout.ts';
import { layOut } from '../../../src/nesting/lay-out.ts';
import { withRemains } from '../../../src/stock/with-offcuts.ts';

/** A first layout of a batch with what is left of its boards. */
export async function laidOut(batch: Batch): Promise<Layout> {
  return withRemains((await layOut(batch, { effort: 0 })).layout, batch);
}
