import type { Point } from '../geometry/shapes.ts';
import { MOST_EXACT, orderExactly } from './order-exactly.ts';
import { type Stop, travelOf, type Visit } from './stops.ts';
import { Tour } from './tour.ts';

/** Steps of the local search allowed in all, so that a board of hundreds of cuts takes well under a second. */
const MOST_STEPS = 2e7;

/**
 * A short order of stops that begins at `start` and ends anywhere: the shortest for up to nine; beyond that nearest
 * neighbour, then 2-opt and Or-opt with the gates chosen anew between (Croes 1958; Or 1976), and the same again
 * from the best order with four pieces exchanged (double bridge: Martin, Otto, Felten 1991). Same stops, same order.
 */
export function orderStops(stops: readonly Stop[], start: Point): Visit[] {
  if (stops.length === 0) return [];
  if (stops.length <= MOST_EXACT) return orderExactly(stops, start);
  const tour = new Tour(stops, start);
  tour.nearestNeighbour();
  tour.improve();
  let best = tour.visits();
  let length = travelOf(stops, best, start);
  const rounds = Math.max(4, Math.min(2000, Math.floor(MOST_STEPS / (20 * stops.length ** 2))));
  let seed = 1;
  const random = (below: number): number => {
    // Numerical Recipes' quick linear congruential generator: nothing here depends on its quality.
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    return Math.floor((seed / 2 ** 32) * below);
  };
  for (let round = 0; round < rounds; round++) {
    tour.set(best);
    tour.doubleBridge(random);
    tour.improve();
    const visits = tour.visits();
    const next = travelOf(stops, visits, start);
    if (next < length - 1e-9) {
      best = visits;
      length = next;
    }
  }
  return best;
}
