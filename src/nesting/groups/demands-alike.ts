import { boundsOf, type Region } from '../../geometry/shapes.ts';
import type { Demand } from '../../model/batch.ts';
import { isSamePart } from '../../model/same-part.ts';
import type { Group } from './group.ts';
import { likeOutlines, outlineAround } from './like-outlines.ts';

/**
 * Demands that look the same to the search: one outline under the same rules, such as the berries of a twig that all
 * have names of their own. They are one shape with more copies, so their no-fit polygons are made once, and whole
 * lattices of them are tried.
 */
export type DemandsAlike = readonly [Demand, ...Demand[]];

/**
 * The demands of a group that are one shape to the search: those of one outline, and where there are hundreds of outlines, those of
 * about one size. In the order of the first of each; pinned ones stand alone, and so do outlines that stand on the edge.
 */
export function demandsAlike(group: Pick<Group, 'demands' | 'pins'>): DemandsAlike[] {
  const same = ofOneOutline(group);
  const byRules = new Map<string, DemandsAlike[]>();
  for (const alike of same) {
    const standsAlone = alike[0].rules.restEdge || group.pins.some((pin) => isSamePart(pin, alike[0]));
    const key = standsAlone ? `${byRules.size}` : rulesOf(alike[0]);
    const kind = byRules.get(key);
    if (kind === undefined) byRules.set(key, [alike]);
    else kind.push(alike);
  }
  const kinds = [...byRules.values()];
  const shared = likeOutlines(kinds.map((kind) => kind.map(([first]) => first)));
  if (shared.every((sharing, k) => sharing.length === kinds[k].length)) return same;
  return shared.flatMap((sharing, k) =>
    sharing.map(([first, ...others]): DemandsAlike => {
      const [demand, ...more] = kinds[k][first];
      return [demand, ...more, ...others.flatMap((i) => kinds[k][i])];
    }),
  );
}

/** The outline of all of them: their own, or one that holds each. */
export function outlineOf(alike: DemandsAlike): Region {
  const [{ region }, ...others] = alike;
  const look = others.length > 0 ? ringsOf(region) : '';
  if (others.every((other) => ringsOf(other.region) === look)) return region;
  return outlineAround(alike.map((demand) => demand.region));
}

/** The demands of a group by outline and rules, in the order of the first of each. Pinned ones stand alone. */
export function ofOneOutline({ demands, pins }: Pick<Group, 'demands' | 'pins'>): DemandsAlike[] {
  const alike = new Map<string, [Demand, ...Demand[]]>();
  for (const [i, demand] of demands.entries()) {
    const isPinned = pins.some((pin) => isSamePart(pin, demand));
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

function lookOf(demand: Demand): string {
  return `${rulesOf(demand)}|${ringsOf(demand.region)}`;
}

function rulesOf({ rules, stack }: Demand): string {
  const { grain, grainTolerance, turnOver, restEdge } = rules;
  return [grain, grainTolerance, turnOver, restEdge, stack].join('|');
}

/** What {@link ringsOf} has written before: the demands of a group are sorted again for each of its layouts. */
const written = new WeakMap<Region, string>();

/** The outlines around the corner of their box, on a grid of 1e-6 mm. */
function ringsOf(region: Region): string {
  const known = written.get(region);
  if (known !== undefined) return known;
  const { outline, openings } = region;
  const { minX, minY } = boundsOf(outline);
  const rings = [outline, ...openings].map((ring) =>
    ring.map(([x, y]) => `${(x - minX).toFixed(6)},${(y - minY).toFixed(6)}`).join(' '),
  );
  const look = rings.join('|');
  written.set(region, look);
  return look;
}
