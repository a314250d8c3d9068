import type { Ring } from './shapes.ts';

/** Ends of every edge of the rings, mm, [ax, ay, bx, by] one after the other: flat, for loops over all of them. */
export function edgeEnds(rings: readonly Ring[]): Float64Array {
  const ends = new Float64Array(4 * rings.reduce((sum, ring) => sum + ring.length, 0));
  let at = 0;
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i++) {
      const next = ring[i + 1 < ring.length ? i + 1 : 0];
      ends[at++] = ring[i][0];
      ends[at++] = ring[i][1];
      ends[at++] = next[0];
      ends[at++] = next[1];
    }
  }
  return ends;
}
