import { createHash } from 'node:crypto';
import type { Job, Pattern } from '../index.ts';
import { copiesInSet, rulesOf } from '../job/cut-in-batch.ts';

/** Hexadecimal digits of a fingerprint: one in 2^64 that two batches of a day have the same. */
const DIGITS = 16;

/** Steps to which points are taken, of a mm: what no saw follows makes no other batch. */
const STEPS = 100;

/**
 * What is cut in a batch, in few letters: the parts at finished size, their copies and their wood. Boards, paper, prices, kerf
 * and names are left out, for a batch that is planned anew with others is the same batch.
 */
export function batchFingerprint(job: Job, pattern: Pattern): string {
  const cut = pattern.layers.flatMap(({ name, parts }) => {
    const rules = rulesOf(job, name);
    return parts.map((part) => [
      copiesInSet(rules, part.name),
      rules.species,
      rules.thickness,
      [part.region.outline, ...part.region.openings, ...part.veins].map((line) =>
        line.map(([x, y]) => [Math.round(STEPS * x), Math.round(STEPS * y)]),
      ),
    ]);
  });
  return createHash('sha256')
    .update(JSON.stringify([job.sets, cut]))
    .digest('hex')
    .slice(0, DIGITS);
}
