import type { Point } from '../../geometry/shapes.ts';
import { MOST_EXACT, orderExactly } from './order-exactly.ts';
import { type Stop, travelOf, type Visit } from './stops.ts';
import { Tour } from './tour.ts';

/** Steps of the local search allowed in all, so that a board of hundreds of cuts takes well under a second. */
const MOST_STEPS = 3e6;
/** Orders up to this much longer than the best are searched on from. */
const ACCEPTED = 1.02;

/**
 * A short order of stops that begins at `start` and ends anywhere: the shortest for up to nine; beyond that nearest
 * neighbour, then 2-opt and Or-opt with the gates chosen anew between (Croes 1958; Or 1976), and the same again
 * with pieces of the order exchanged (after the double bridge of Martin, Otto, Felten 1991). Same stops, same order.
 *
 * @param start where the blade stands at first, mm
 */
export function orderStops(stops: readonly Stop[], start: Point): Visit[] {
  if (stops.length === 0) return [];
  if (stops.length <= MOST_EXACT) return orderExactly(stops, start);
  const tour = new Tour(stops, start);
  tour.nearestNeighbour();
  tour.improve();
  let best = tour.visits();
  let current = best;
  let length = travelOf(stops, best, start);
  // A round costs about 20 n^2 steps: few rounds for many stops, so that the whole stays within its time. At least four,
  // for the first improvement is seldom the last; at most 2000, where small orders gain nothing any more.
  const rounds = Math.max(4, Math.min(2000, Math.floor(MOST_STEPS / (20 * stops.length ** 2))));
  let seed = 1;
  const random = (below: number): number => {
    // Numerical Recipes' quick linear congruential generator: nothing here depends on its quality.
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    return Math.floor(((seed >>> 8) / 2 ** 24) * below);
  };
  for (let round = 0; round < rounds; round++) {
    tour.set(current);
    tour.exchangePieces(random);
    tour.improve();
    const visits = tour.visits();
    const next = travelOf(stops, visits, start);
    // A slightly longer order may lead on; the best one is kept apart.
    if (next < length * ACCEPTED) current = visits;
    if (next < length) {
      best = visits;
      length = next;
    }
  }
  return best;
}
