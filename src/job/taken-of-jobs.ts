import { counted } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import type { Board } from '../model/stock.ts';
import { wholeBoard } from '../model/whole-board.ts';
import type { UsedStock } from '../stock/used-boards.ts';
import type { JobBoard } from './board-schema.ts';
import { entryField } from './entry-field.ts';
import type { Rack } from './rack.ts';

/** Boards that stand in jobs: a rack that is settled forgets its own, and remembers of these what was taken. */

/**
 * What batches took of boards that are not of the rack, each id as the last batch that took of it left it. Of boards for
 * sale what the supplier has left is told.
 *
 * @param stock the boards of the batch
 */
export function takenOfJobs(
  { boards, takenOfJobs: before }: Rack,
  used: readonly UsedStock[],
  stock: readonly Board[],
): Rack['takenOfJobs'] {
  const now = used.flatMap(({ stock: id, numbers }) => {
    const board = stock.find((one) => one.id === id);
    if (board === undefined || boards.some((entry) => entry.id === id)) return [];
    return [{ id, boards: numbers.length, left: wholeBoard(board).quantity - numbers.length }];
  });
  return [...before.filter(({ id }) => !now.some((taken) => taken.id === id)), ...now];
}

/** Boards of the job of which more stand in it than an earlier batch left. */
export function usedBeforeIssues(
  entries: readonly JobBoard[],
  taken: Rack['takenOfJobs'],
  file: string,
): Issue[] {
  return entries.flatMap(({ id, quantity }, i): Issue[] => {
    const used = taken.find((entry) => entry.id === id);
    if (used === undefined || quantity <= used.left) return [];
    return [
      {
        kind: 'board-used-before',
        severity: 'warning',
        message: `a batch that the rack was settled for took ${counted(used.boards, 'board')} of this entry, which stands in the job and so is not taken off the rack`,
        expected: `${used.left} left`,
        received: `${quantity} at hand`,
        remedy:
          'If they are sawn, take them out of the job: what was kept of them is in the rack. Give others that are new an id of their own.',
        where: { file, field: entryField('boards', entries, i), board: id },
      },
    ];
  });
}
