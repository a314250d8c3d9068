import type { Issue } from '../issues/issue.ts';
import { MONEY } from '../model/stock-checks.ts';
import { boardFromEntry } from './board-from-entry.ts';
import type { JobBoard } from './board-schema.ts';
import { entryField } from './entry-field.ts';

/**
 * An error for every board whose price, by its size, comes to more than is counted. The amount alone may pass: only with the
 * outline is it known of how many feet it is.
 *
 * @param entries boards with outlines in place of drawings; those whose drawing could not be read are passed over
 * @param field name of the list in messages
 */
export function priceIssues(entries: readonly JobBoard[], file: string, field: string): Issue[] {
  return entries.flatMap((entry, i): Issue[] => {
    if (entry.drawing !== undefined || typeof entry.price !== 'object') return [];
    const { price = 0 } = boardFromEntry(entry);
    if (price <= MONEY.most) return [];
    return [
      {
        kind: 'price-too-high',
        severity: 'error',
        message: `at this price per ${entry.price.per} the board costs more than is counted`,
        expected: `at most ${MONEY.most} for one board`,
        received: price.toFixed(2),
        remedy: 'Look at the amount and at what it is for.',
        where: { file, field: `${entryField(field, entries, i)}.price.amount`, board: entry.id },
      },
    ];
  });
}
