/** What lies in each of a row of cells: the members of cell k are `members` from `first[k]` to `first[k + 1]`. */
export interface InCells {
  readonly first: Int32Array;
  readonly members: Int32Array;
}

/**
 * Puts what is numbered into cells, in the order in which it is visited. Counted first and filled after: the members of all
 * cells lie in one array without a gap.
 *
 * @param cells their number
 * @param forEach visits each cell of each member; it is asked twice and has to visit the same
 */
export function inCells(
  cells: number,
  forEach: (visit: (cell: number, member: number) => void) => void,
): InCells {
  const first = new Int32Array(cells + 1);
  forEach((cell) => first[cell + 1]++);
  for (let k = 0; k < cells; k++) first[k + 1] += first[k];
  const members = new Int32Array(first[cells]);
  const next = first.slice();
  forEach((cell, member) => {
    members[next[cell]++] = member;
  });
  return { first, members };
}
