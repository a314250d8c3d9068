import { combineRegions, regionsFromRings } from '../geometry/clipper.ts';
import { areCrossingFree } from '../geometry/crossing-free.ts';
import { locateInRing, regionArea, regionsArea, ringArea } from '../geometry/ring.ts';
import { type Box, boundsOf, type Point, type Region, type Ring } from '../geometry/shapes.ts';
import type { DrawingShape } from '../model/drawing.ts';
import { type BoxedRing, firstSame, runsAlong } from './same-rings.ts';
import { type Solid, substantial, TOUCHING_DEPTH } from './solids.ts';
import { toldWhere } from './told-where.ts';

/** A ring that is drawn but not filled, with the shape it was read from. */
export interface DrawnRing {
  readonly ring: Ring;
  readonly shape: DrawingShape;
  /** Points where ends were joined to close it; none where it is drawn closed. */
  readonly joins: readonly Point[];
}

/**
 * Solids from rings that are drawn but not filled, all in mm, by containment: an outermost ring is an outline, the
 * rings directly in it are openings, a ring in an opening is an outline again. A ring directly inside a filled solid is
 * an opening of it. An opening goes through all that lies there: the same part may be drawn as a fill and as its outline,
 * or twice. A ring along the outline of a filled solid is that outline, and no solid without the openings of the fill.
 *
 *     +-------------+  depth 0  outline of a part
 *     | +---------+ |  depth 1  opening in it
 *     | |  +---+  | |  depth 2  a part of its own, lying in the opening
 *     | |  +---+  | |
 *     | +---------+ |
 *     +-------------+
 */
export function cutByDrawnRings(
  solids: readonly Solid[],
  drawn: readonly DrawnRing[],
  joinGap: number,
): { solids: Solid[]; specks: DrawnRing[] } {
  const resolved = drawn.map((each) => {
    const { element, line, fillRule } = each.shape;
    const enclosed = toldWhere({ element, line }, () => regionsFromRings([each.ring], fillRule));
    const regions = withoutLoopsAtJoins(substantial(enclosed), each.joins, joinGap);
    const area = regionsArea(regions);
    const own = regions.map((region): Solid => ({ region, shape: each.shape, isFilled: false }));
    return { ...each, regions, own, area, box: boundsOf(each.ring) };
  });
  const rings = resolved.filter(({ regions }) => regions.length > 0).sort((a, b) => b.area - a.area);
  const fills = solids.map((solid) => {
    const { outline } = solid.region;
    return { solid, ring: outline, area: ringArea(outline), box: boundsOf(outline) };
  });
  const openingsIn = new Map<Solid, Region[]>();
  const depths: number[] = [];
  const solidsOf: Solid[][] = [];
  // What is drawn several times is looked at once.
  const drawnTimes = rings.map((): typeof rings => []);
  for (const [i, first] of firstSame(rings.map((ring) => [ring])).entries()) drawnTimes[first].push(rings[i]);
  const single = drawnTimes.filter((times) => times.length > 0);
  // As drawings should be: then one vertex tells of all others on which side of a ring they are.
  const isTidy = areCrossingFree(single.map(([{ ring }]) => ring));
  const openedFills: (readonly Solid[])[] = [];
  const parents: (number | undefined)[] = [];
  single.forEach((times, i) => {
    const [inner] = times;
    const isAround = (j: number) => holds(single[j][0], inner, isTidy);
    const around = isTidy
      ? chainAbove(i, isAround, parents)
      : single.slice(0, i).flatMap((_, j) => (isAround(j) ? [j] : []));
    const filledAround = fills.filter(
      ({ solid, box }) => mayHold(box, inner.box) && ringInRegion(inner.ring, solid.region),
    );
    // Rings are sorted, largest first: the last before this one that holds it is the ring directly around.
    const parent = around.at(-1);
    parents.push(parent);
    const reach = parent === undefined ? Number.POSITIVE_INFINITY : single[parent][0].area;
    const isInFill = filledAround.some(({ area }) => area <= reach);
    const depth = isInFill ? 1 : parent === undefined ? 0 : depths[parent] + 1;
    depths.push(depth);
    const isOutline = depth % 2 === 0 && !fills.some((fill) => runsAlong(inner, fill));
    solidsOf.push(isOutline ? times.flatMap(({ own }) => own) : []);
    // What lies in an opening is gone with it: of rings that neither cross nor touch, all but the wood directly around.
    const gone = new Set(isTidy ? around.flatMap((j) => openedFills[j]) : []);
    const filled = filledAround.map((fill) => fill.solid).filter((solid) => !gone.has(solid));
    openedFills.push(depth % 2 === 0 ? [] : filled);
    if (depth % 2 === 0) return;
    const drawnAround = isTidy ? around.slice(-1) : around;
    for (const solid of [...filled, ...drawnAround.flatMap((j) => solidsOf[j])]) {
      const known = openingsIn.get(solid);
      if (known === undefined) openingsIn.set(solid, [...inner.regions]);
      else for (const region of inner.regions) known.push(region);
    }
  });
  // In the order they are drawn in, as fills are: it is that of the numbers of parts and of the tables.
  const outlines = new Set(solidsOf.flat());
  const drawnSolids = resolved.flatMap(({ own }) => own.filter((solid) => outlines.has(solid)));
  const cut = [...solids, ...drawnSolids].flatMap((solid) => {
    const openings = openingsIn.get(solid);
    if (openings === undefined) return [solid];
    return substantial(combineRegions('difference', [solid.region], openings)).map((region) => ({
      ...solid,
      region,
    }));
  });
  return { solids: cut, specks: resolved.filter(({ regions }) => regions.length === 0) };
}

/**
 * Without the loops between ends that reach past one another by no more than the gap: such as a corner whose sides cross,
 * which is drawn as an outline and a piece of 0.1 mm.
 */
function withoutLoopsAtJoins(
  regions: readonly Region[],
  joins: readonly Point[],
  joinGap: number,
): readonly Region[] {
  if (regions.length < 2 || joins.length === 0) return regions;
  const largest = regions.reduce((most, region) => Math.max(most, regionArea(region)), 0);
  const isAtJoin = ({ outline }: Region) =>
    outline.some(([x, y]) => joins.some(([jx, jy]) => Math.hypot(x - jx, y - jy) <= joinGap));
  return regions.filter((region) => {
    const area = regionArea(region);
    return area === largest || area > joinGap ** 2 || !isAtJoin(region);
  });
}

/** Rings around ring `i` from the largest on, where none cross: what holds the one directly around it holds it too. */
function chainAbove(
  i: number,
  isAround: (j: number) => boolean,
  parents: readonly (number | undefined)[],
): number[] {
  let above: number | undefined = i - 1;
  while (above >= 0 && !isAround(above)) above--;
  const chain: number[] = [];
  for (let j = above < 0 ? undefined : above; j !== undefined; j = parents[j]) chain.push(j);
  return chain.reverse();
}

/** @param isTidy the rings neither cross nor touch */
function holds(outer: BoxedRing, inner: BoxedRing, isTidy: boolean): boolean {
  if (!mayHold(outer.box, inner.box)) return false;
  if (!isTidy) return ringInRegion(inner.ring, { outline: outer.ring, openings: [] });
  for (const point of inner.ring) {
    const place = locateInRing(point, outer.ring, TOUCHING_DEPTH);
    if (place !== 0) return place === 1;
  }
  return false;
}

/** False when a ring reaches out of a box so far that a vertex of it must lie outside. */
function mayHold(outer: Box, inner: Box): boolean {
  return (
    inner.minX >= outer.minX - TOUCHING_DEPTH &&
    inner.minY >= outer.minY - TOUCHING_DEPTH &&
    inner.maxX <= outer.maxX + TOUCHING_DEPTH &&
    inner.maxY <= outer.maxY + TOUCHING_DEPTH
  );
}

/** True when no vertex of the ring is outside the region and at least one is inside. */
function ringInRegion(ring: Ring, region: Region): boolean {
  let inside = false;
  for (const point of ring) {
    const place = locateInRing(point, region.outline, TOUCHING_DEPTH);
    if (place === -1) return false;
    if (region.openings.some((opening) => locateInRing(point, opening, 0) === 1)) return false;
    if (place === 1) inside = true;
  }
  return inside;
}
