import { combineRegions, uniteRegions } from '../geometry/clipper.ts';
import { areCrossingFree } from '../geometry/crossing-free.ts';
import { regionArea } from '../geometry/ring.ts';
import { boundsOf, type Region } from '../geometry/shapes.ts';
import { FretlayError } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import { forMeetingPairs, overlap } from './meeting-regions.ts';
import { overlapIssue, shapesWithoutEnd } from './overlap-issues.ts';
import { Painting } from './painting.ts';
import { areSameRings, type BoxedRing, boxedRing, firstSame } from './same-rings.ts';
import { type LayerPlace, LEAST_AREA, type Solid, substantial } from './solids.ts';
import { tooTangled } from './tangle.ts';
import { toldWhere } from './told-where.ts';

/** What happens to a filled shape that lies wholly inside another: it is painted over, or it is cut out. */
export type InnerShapes = 'unite' | 'openings';

/**
 * Unites solids, in mm, that overlap; solids that only share an edge stay apart. A solid wholly inside another is
 * swallowed by it, or cut out of it when `innerShapes` asks for that. Each case is reported.
 *
 * @throws FretlayError when solids overlap so often that uniting them would not end
 */
export function uniteOverlaps(
  solids: readonly Solid[],
  innerShapes: InnerShapes,
  place: LayerPlace,
): { solids: Solid[]; issues: Issue[] } {
  const issues: Issue[] = [];
  // Groups as a forest: every solid points to another of its group, the root to itself (Galler, Fischer 1964).
  const cluster = firstSame(solids.map(({ region }) => boxedRings(region)));
  const singles = [...cluster.keys()].filter((i) => cluster[i] === i);
  const boxes = singles.map((i) => boundsOf(solids[i].region.outline));
  const root = (i: number): number => {
    let r = i;
    while (cluster[r] !== r) {
      // Half of the way is spared the next time.
      cluster[r] = cluster[cluster[r]];
      r = cluster[r];
    }
    return r;
  };
  // Asked once for all: islands in the openings of others, as rings one in the other are, would be asked for every pair.
  const isTidy = areCrossingFree(
    singles.flatMap((i) => [solids[i].region.outline, ...solids[i].region.openings]),
  );
  forMeetingPairs(boxes, (a, b) => {
    const [i, j] = [singles[a], singles[b]];
    // Solids that are of one group already need no look: overlaps are the costly part.
    if (root(i) !== root(j) && doOverlap(solids[i], solids[j], isTidy)) cluster[root(j)] = root(i);
  });
  const members = new Map<number, Solid[]>();
  solids.forEach((solid, i) => {
    const known = members.get(root(i));
    if (known === undefined) members.set(root(i), [solid]);
    else known.push(solid);
  });
  const united = [...members.values()].flatMap((group) =>
    group.length === 1 ? group : resolveGroup(group, innerShapes, place, issues),
  );
  return { solids: united, issues };
}

function doOverlap(a: Solid, b: Solid, isTidy: boolean): boolean {
  const areOfOneFill = a.shape === b.shape && a.isFilled && b.isFilled;
  return !areOfOneFill && overlap(a.region, b.region, isTidy);
}

function resolveGroup(
  drawn: readonly Solid[],
  innerShapes: InnerShapes,
  place: LayerPlace,
  issues: Issue[],
): Solid[] {
  const group = withoutTwins(drawn, place, issues);
  if (group.length === 1) return [group[0]];
  if (tooTangled(group.flatMap(({ region }) => [region.outline, ...region.openings]))) {
    throw new FretlayError([shapesWithoutEnd(group, place)]);
  }
  const largest = group.reduce((a, b) => (regionArea(b.region) > regionArea(a.region) ? b : a));
  const { element, line } = largest.shape;
  const painted = toldWhere({ element, line }, () =>
    innerShapes === 'openings'
      ? paintedWithOpenings(group, place, issues)
      : allUnited(group, largest, place, issues),
  );
  return substantial(painted).map((region) => ({ ...largest, region }));
}

/** Each solid once: one drawn twice is no opening in itself, though it lies wholly on what is there. */
function withoutTwins(group: readonly Solid[], place: LayerPlace, issues: Issue[]): Solid[] {
  const kept: { readonly solid: Solid; readonly rings: readonly BoxedRing[] }[] = [];
  for (const solid of group) {
    const rings = boxedRings(solid.region);
    const twin = kept.find((other) => areSameRings(rings, other.rings));
    if (twin === undefined) kept.push({ solid, rings });
    else issues.push(overlapIssue(solid, twin.solid, 'twice', place));
  }
  return kept.map(({ solid }) => solid);
}

function boxedRings({ outline, openings }: Region): BoxedRing[] {
  return [outline, ...openings].map(boxedRing);
}

/** Everything united; what lies inside the largest shape is swallowed by it. */
function allUnited(group: readonly Solid[], largest: Solid, place: LayerPlace, issues: Issue[]): Region[] {
  for (const solid of group) {
    if (solid === largest) continue;
    const kind = isWithin(solid.region, [largest.region]) ? 'swallowed' : 'united';
    issues.push(overlapIssue(solid, largest, kind, place));
  }
  return uniteRegions(group.map(({ region }) => region));
}

/** As painted, one over the other: a shape wholly on what is there cuts it out, any other adds to it. */
function paintedWithOpenings(group: readonly Solid[], place: LayerPlace, issues: Issue[]): Region[] {
  const painting = new Painting();
  for (const solid of group) {
    const { region } = solid;
    const near = painting.near(region);
    const what =
      near.length === 0
        ? 'alone'
        : isWithin(region, near)
          ? 'opened'
          : combineRegions('intersection', near, [region]).length > 0
            ? 'united'
            : 'alone';
    if (what === 'opened') painting.cutOut(region);
    else painting.add(region);
    if (what !== 'alone') issues.push(overlapIssue(solid, group[0], what, place));
  }
  return painting.regions();
}

function isWithin(inner: Region, outer: readonly Region[]): boolean {
  return combineRegions('difference', [inner], outer).every((region) => regionArea(region) <= LEAST_AREA);
}
