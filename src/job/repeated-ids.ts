import type { Issue } from '../issues/issue.ts';
import type { JobBoard } from './board-schema.ts';
import { entryField } from './entry-field.ts';
import type { Job } from './job-schema.ts';

/** An error for every entry of a job, at hand or for sale, that has the id of one before it. */
export function repeatedIdIssues(
  { boards, forSale }: Pick<Job, 'boards' | 'forSale'>,
  file: string,
): Issue[] {
  const offered = new Set<string>();
  const own = new Set<string>();
  const issues: Issue[] = [];
  const look = (list: 'boards' | 'forSale', entries: readonly JobBoard[], known: Set<string>) => {
    const told = new Set<string>();
    for (const [i, { id }] of entries.entries()) {
      const field = `${entryField(list, entries, i)}.id`;
      const isAlike = known.has(id);
      // All lengths of an offer by grade have been written in one entry.
      if ((isAlike || own.has(id)) && !told.has(field)) {
        told.add(field);
        issues.push({
          kind: 'board-id-repeated',
          severity: 'error',
          message: 'two board entries have the same id',
          expected: 'a different id for each',
          received: `"${id}"`,
          remedy: isAlike
            ? 'Use "quantity" for several boards of one size.'
            : 'Give the board for sale an id of its own: what is bought is told from what is at hand by it.',
          where: { file, field },
        });
      }
      known.add(id);
    }
  };
  look('boards', boards, own);
  look('forSale', forSale, offered);
  return issues;
}
