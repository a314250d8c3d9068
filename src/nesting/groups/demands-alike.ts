import { boundsOf } from '../../geometry/shapes.ts';
import type { Demand } from '../../model/batch.ts';
import type { Group } from './group.ts';

/**
 * Demands that look the same to the search: one outline under the same rules, such as the berries of a twig that all
 * have names of their own. They are one shape with more copies, so their no-fit polygons are made once, and whole
 * lattices of them are tried.
 */
export type DemandsAlike = readonly [Demand, ...Demand[]];

/** The demands of a group by what they look like, in the order of the first of each. Pinned ones stand alone. */
export function demandsAlike({ demands, pins }: Pick<Group, 'demands' | 'pins'>): DemandsAlike[] {
  const alike = new Map<string, [Demand, ...Demand[]]>();
  for (const [i, demand] of demands.entries()) {
    const isPinned = pins.some(({ part, layer }) => part === demand.part && layer === demand.layer);
    const look = isPinned ? `${i}` : lookOf(demand);
    const known = alike.get(look);
    if (known === undefined) alike.set(look, [demand]);
    else known.push(demand);
  }
  return [...alike.values()];
}

/** Copies of all of them in one set. */
export function perSetOf(alike: DemandsAlike): number {
  return alike.reduce((sum, { copiesPerSet }) => sum + Math.max(1, Math.floor(copiesPerSet)), 0);
}

/** Which of them a copy belongs to, by its place among the copies of its set, from 0. */
export function demandAt(alike: DemandsAlike, place: number): Demand {
  let left = place;
  for (const demand of alike) {
    left -= Math.max(1, Math.floor(demand.copiesPerSet));
    if (left < 0) return demand;
  }
  return alike[alike.length - 1];
}

/** The outlines around the corner of their box, on a grid of 1e-6 mm, and the rules. */
function lookOf({ region, rules, stack }: Demand): string {
  const { minX, minY } = boundsOf(region.outline);
  const rings = [region.outline, ...region.openings].map((ring) =>
    ring.map(([x, y]) => `${(x - minX).toFixed(6)},${(y - minY).toFixed(6)}`).join(' '),
  );
  const { grain, grainTolerance, turnOver, restEdge } = rules;
  return [grain, grainTolerance, turnOver, restEdge, stack, ...rings].join('|');
}
