import type { Issue } from '../issues/issue.ts';
import type { Job } from './job-schema.ts';

/** Shares of the cost up to which nobody asks: six times the cost, and overhead three times it (common practice, no source). */
const LIKELY = { markup: 5, overhead: 3 } as const;

/**
 * A warning for a share that is most likely a percentage: 100 is a hundred times the cost, and the price it makes is nowhere
 * wrong but in being far too high.
 */
export function shareIssues({ costs }: Pick<Job, 'costs'>, file: string): Issue[] {
  return (['markup', 'overhead'] as const).flatMap((name): Issue[] => {
    const share = costs[name];
    if (share <= LIKELY[name]) return [];
    return [
      {
        kind: 'share-unlikely',
        severity: 'warning',
        message: `a share is meant here, and this one is ${share} times the cost`,
        expected: `at most ${LIKELY[name]}`,
        received: `${share}`,
        remedy: `If ${share} % was meant, write ${Number((share / 100).toFixed(4))}.`,
        where: { file, field: `costs.${name}` },
      },
    ];
  });
}
