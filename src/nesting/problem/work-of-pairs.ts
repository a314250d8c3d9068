/** What a field costs beside its no-fit polygon, in products of vertex numbers, as measured. */
export const PER_FIELD = 400;

/** What all pairs of a problem together may cost in the same products: some ten seconds, as measured. */
export const AFFORDABLE = 5e7;

/** What takes its part in a no-fit polygon. */
export interface PairMember {
  readonly vertices: number;
  /** In how many ways it may lie. */
  readonly turns: number;
}

/**
 * Roughly what the no-fit polygons of all pairs of shapes and their fields cost, in products of vertex numbers.
 *
 * @param perField what a field costs beside its polygon
 */
export function workOfPairs(members: readonly PairMember[], perField: number): number {
  let work = 0;
  for (const [i, a] of members.entries()) {
    for (let j = i; j < members.length; j++) {
      const b = members[j];
      work += Math.max(a.turns, b.turns) * (perField + a.vertices * b.vertices);
    }
  }
  return work;
}
