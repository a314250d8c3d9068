import { listOf, record, words } from '../issues/checks.ts';
import { counted } from '../issues/counted.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Estimate } from './estimate.ts';

const estimateCheck = record(
  { issues: listOf(record({ kind: words() })) },
  'Hand in the estimate of `estimate`.',
);

/**
 * What the costs of an estimate lack, in words, when boards have no price; undefined when all have one.
 *
 * @throws FretlayError for what is no estimate
 */
export function unpricedWood(estimate: Pick<Estimate, 'issues'>): string | undefined {
  throwOnErrors(estimateCheck('estimate', estimate));
  const { issues } = estimate;
  const entries = issues.filter(({ kind }) => kind === 'board-without-price').length;
  return entries === 0
    ? undefined
    : `without the wood of ${counted(entries, 'entry', 'entries')} of boards without a price`;
}
