import type { Point } from '../../geometry/shapes.ts';
import type { Stop, Visit } from './stops.ts';

/** Most stops that are ordered by dynamic programming: 2^9 sets of stops. */
export const MOST_EXACT = 9;

/**
 * The shortest order of a few stops, by dynamic programming over the sets of stops already visited (Held, Karp
 * 1962, "A dynamic programming approach to sequencing problems"), each state with the gate taken last. Time grows with
 * 2^stops times the square of the gates: nine stops of six gates are a million and a half steps.
 *
 * @param stops at most {@link MOST_EXACT}, at least one, each with a gate
 * @param start where the blade stands at first, mm
 */
export function orderExactly(stops: readonly Stop[], start: Point): Visit[] {
  const first: number[] = [];
  const gates = stops.flatMap(({ gates }, stop) => {
    first.push(stop === 0 ? 0 : first[stop - 1] + stops[stop - 1].gates.length);
    return gates.map((gate, index) => ({ ...gate, stop, index }));
  });
  const count = gates.length;
  const sets = 1 << stops.length;
  const best = new Float64Array(sets * count).fill(Number.POSITIVE_INFINITY);
  const before = new Int32Array(sets * count).fill(-1);
  gates.forEach(({ from, stop }, g) => {
    best[(1 << stop) * count + g] = Math.hypot(from[0] - start[0], from[1] - start[1]);
  });
  // A larger set has a larger number than all its subsets: when it is reached, every way into it is known.
  for (let set = 1; set < sets; set++) {
    for (let g = 0; g < count; g++) {
      const cost = best[set * count + g];
      if (cost === Number.POSITIVE_INFINITY) continue;
      const { to } = gates[g];
      for (let h = 0; h < count; h++) {
        const bit = 1 << gates[h].stop;
        if ((set & bit) !== 0) continue;
        const { from } = gates[h];
        const next = cost + Math.hypot(from[0] - to[0], from[1] - to[1]);
        const state = (set | bit) * count + h;
        if (next >= best[state]) continue;
        best[state] = next;
        before[state] = g;
      }
    }
  }
  // Back from the cheapest end: the way is open, the blade need not return to the start.
  let set = sets - 1;
  let gate = 0;
  for (let g = 1; g < count; g++) if (best[set * count + g] < best[set * count + gate]) gate = g;
  const visits: Visit[] = [];
  while (set > 0) {
    const { stop, index } = gates[gate];
    visits.push({ stop, gate: index });
    const last = before[set * count + gate];
    set ^= 1 << stop;
    gate = last;
  }
  return visits.reverse();
}
