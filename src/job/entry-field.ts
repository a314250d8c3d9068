import type { JobBoard } from './board-schema.ts';

/**
 * Field of an entry of a list as it stands in the file: an offer by grade is one there, and several boards once it is read.
 *
 * @param list name of the list, such as `forSale`
 * @param i place of the entry in the list as read
 */
export function entryField(list: string, entries: readonly JobBoard[], i: number): string {
  return `${list}[${entries[i].place ?? i}]`;
}
