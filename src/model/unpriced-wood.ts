import { counted } from '../issues/counted.ts';
import type { Estimate } from './estimate.ts';

/** What the costs of an estimate lack, in words, when boards have no price; undefined when all have one. */
export function unpricedWood({ issues }: Pick<Estimate, 'issues'>): string | undefined {
  const entries = issues.filter(({ kind }) => kind === 'board-without-price').length;
  return entries === 0
    ? undefined
    : `without the wood of ${counted(entries, 'entry', 'entries')} of boards without a price`;
}
