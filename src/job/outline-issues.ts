import { cover, outline } from '../geometry/shape-checks.ts';
import type { Issue } from '../issues/issue.ts';
import { boardFromEntry } from './board-from-entry.ts';
import type { JobBoard } from './board-schema.ts';
import { entryField } from './entry-field.ts';

/**
 * An error for every outline of a board that crosses itself, and every defect that covers nothing. `layOut` would refuse
 * them too, by their places in the batch, which whoever writes a job or a rack has never seen.
 *
 * @param entries boards as they are written; one with a drawing is told by it
 * @param resolved the same with outlines in place of drawings; those whose drawing could not be read are passed over
 * @param field name of the list in messages
 */
export function outlineIssues(
  entries: readonly JobBoard[],
  resolved: readonly JobBoard[],
  file: string,
  field: string,
): Issue[] {
  return resolved.flatMap((entry, i) => {
    if (entry.drawing !== undefined) return [];
    const board = boardFromEntry(entry);
    const place = entryField(field, entries, i);
    const found = [
      ...outline(`${place}.${entries[i].drawing === undefined ? 'outline' : 'drawing'}`, board.outline),
      ...board.defects.flatMap((defect, k) => cover(`${place}.defects[${k}]`, defect)),
    ];
    return found.map((issue) => ({ ...issue, where: { file, ...issue.where, board: entry.id } }));
  });
}
