import { edgeEnds } from '../geometry/edge-ends.ts';
import type { Ring } from '../geometry/shapes.ts';

/**
 * How often the edges of rings cross, estimated before anything is spent on resolving them: a hostile or broken
 * path of n edges can cross itself n^2 times, and every crossing costs time and memory.
 */

/** Pairs of edges looked at, and one more for so many edges: dozens of crossings are met where it matters. */
const LEAST_SAMPLES = 2000;
const EDGES_PER_SAMPLE = 4;

/** Most crossings that are resolved. */
const MOST_CROSSINGS = 300_000;

/**
 * True when resolving the rings would cost out of all proportion. The sample of pairs is always the same.
 *
 * @param most crossings that are not too many
 */
export function tooTangled(rings: readonly Ring[], most = MOST_CROSSINGS): boolean {
  const count = rings.reduce((sum, ring) => sum + ring.length, 0);
  // Not even a crossing of every pair would be too many.
  if ((count * count) / 2 <= most) return false;
  const ends = edgeEnds(rings);
  let crossings = 0;
  let state = 12345;
  const next = () => {
    // Numerical Recipes' quick linear congruential generator, 32 bits.
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return 4 * Math.floor((state / 2 ** 32) * count);
  };
  const samples = LEAST_SAMPLES + Math.ceil(count / EDGES_PER_SAMPLE);
  // A Monte Carlo count: the share of sampled pairs that cross, times the number of all pairs.
  for (let i = 0; i < samples; i++) if (cross(ends, next(), next())) crossings++;
  return (crossings / samples) * ((count * count) / 2) > most;
}

/** True when two edges cross in their insides; touching ends, which all neighbours have, are not counted. */
function cross(e: Float64Array, i: number, j: number): boolean {
  const side = (p: number, x: number, y: number) =>
    (e[p + 2] - e[p]) * (y - e[p + 1]) - (e[p + 3] - e[p + 1]) * (x - e[p]);
  return (
    side(i, e[j], e[j + 1]) * side(i, e[j + 2], e[j + 3]) < 0 &&
    side(j, e[i], e[i + 1]) * side(j, e[i + 2], e[i + 3]) < 0
  );
}
