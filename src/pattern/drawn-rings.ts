import { combineRegions, regionsFromRings } from '../geometry/clipper.ts';
import { areCrossingFree } from '../geometry/crossing-free.ts';
import { locateInRing, regionArea, regionsArea, ringArea } from '../geometry/ring.ts';
import { boundsOf, boxHolds, type Point, type Region, type Ring } from '../geometry/shapes.ts';
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
  const resolved = drawn.map((each) => resolvedRing(each, joinGap));
  const specks = resolved.filter(({ regions }) => regions.length === 0);
  if (specks.length === resolved.length) return { solids: [...solids], specks };
  const rings = resolved.filter(({ regions }) => regions.length > 0).sort((a, b) => b.area - a.area);
  const { outlines, openingsIn } = byContainment(drawnTogether(rings), solids.map(filledRing));
  // In the order they are drawn in, as fills are: it is that of the numbers of parts and of the tables.
  const drawnSolids = resolved.flatMap(({ own }) => own.filter((solid) => outlines.has(solid)));
  const cut = [...solids, ...drawnSolids].flatMap((solid) => {
    const openings = openingsIn.get(solid);
    if (openings === undefined) return [solid];
    return substantial(combineRegions('difference', [solid.region], openings)).map((region) => ({
      ...solid,
      region,
    }));
  });
  return { solids: cut, specks };
}

/** A drawn ring with what it encloses. */
interface ResolvedRing extends DrawnRing, BoxedRing {
  readonly regions: readonly Region[];
  /** What it encloses as solids, should it be an outline. */
  readonly own: readonly Solid[];
  /** mm2 */
  readonly area: number;
}

/** The outline of a filled solid. */
interface FilledRing extends BoxedRing {
  readonly solid: Solid;
  /** mm2 */
  readonly area: number;
}

function resolvedRing(drawn: DrawnRing, joinGap: number): ResolvedRing {
  const { ring, shape, joins } = drawn;
  const { element, line, fillRule } = shape;
  const enclosed = toldWhere({ element, line }, () => regionsFromRings([ring], fillRule));
  const regions = withoutLoopsAtJoins(substantial(enclosed), joins, joinGap);
  const own = regions.map((region): Solid => ({ region, shape, isFilled: false }));
  return { ...drawn, regions, own, area: regionsArea(regions), box: boundsOf(ring) };
}

function filledRing(solid: Solid): FilledRing {
  const { outline } = solid.region;
  return { solid, ring: outline, area: ringArea(outline), box: boundsOf(outline) };
}

/** Rings in lots of those that are drawn in one place, one above the other: what is so is then looked at once. */
function drawnTogether(rings: readonly ResolvedRing[]): ResolvedRing[][] {
  const lots = rings.map((): ResolvedRing[] => []);
  for (const [i, first] of firstSame(rings.map((ring) => [ring])).entries()) lots[first].push(rings[i]);
  return lots.filter((lot) => lot.length > 0);
}

/**
 * Which drawn rings are outlines, by how deep they lie in others, and what the others open in the solids around them.
 *
 * @param lots rings of one place each, the largest first
 */
function byContainment(
  lots: readonly ResolvedRing[][],
  fills: readonly FilledRing[],
): { readonly outlines: ReadonlySet<Solid>; readonly openingsIn: ReadonlyMap<Solid, Region[]> } {
  // As drawings should be: no ring crosses or touches another one.
  const drawn = lots.map(([ring]) => ring);
  const lines = drawn.map(({ ring }) => ring);
  const filled = fills.flatMap(({ solid: { region } }) => [region.outline, ...region.openings]);
  const areAllTidy = areCrossingFree([...lines, ...filled]);
  const isTidy = areAllTidy || (filled.length > 0 && areCrossingFree(lines));
  const openingsIn = new Map<Solid, Region[]>();
  const depths: number[] = [];
  /** Solids of each lot that is an outline. */
  const solidsOf: Solid[][] = [];
  /** Solids that each lot is an opening of. */
  const opened: (readonly Solid[])[] = [];
  const nest = new Nest(drawn);
  for (const [i, lot] of lots.entries()) {
    const [inner] = lot;
    const around = isTidy
      ? nest.around(i)
      : [...lots.keys()].filter((j) => j < i && isRingIn(inner, drawn[j], [], false));
    const filledAround = fills.filter((fill) =>
      isRingIn(inner, fill, fill.solid.region.openings, areAllTidy),
    );
    // The largest come first: the last before this one that holds it is the ring directly around.
    const parent = around.at(-1);
    const reach = parent === undefined ? Number.POSITIVE_INFINITY : lots[parent][0].area;
    const isInFill = filledAround.some(({ area }) => area <= reach);
    const depth = isInFill ? 1 : parent === undefined ? 0 : depths[parent] + 1;
    depths.push(depth);
    const isOpening = depth % 2 === 1;
    const isOutline = !isOpening && !fills.some((fill) => runsAlong(inner, fill));
    solidsOf.push(isOutline ? lot.flatMap(({ own }) => own) : []);
    // What lies in an opening is gone with it: of rings that neither cross nor touch, all but the wood directly around.
    const gone = new Set(isTidy ? around.flatMap((j) => opened[j]) : []);
    const wood = [...filledAround.map(({ solid }) => solid), ...around.flatMap((j) => solidsOf[j])];
    opened.push(isOpening ? wood.filter((solid) => !gone.has(solid)) : []);
    for (const solid of opened[i]) openIn(solid, inner.regions, openingsIn);
  }
  return { outlines: new Set(solidsOf.flat()), openingsIn };
}

/** Notes regions as openings of a solid: one by one, for there may be more than a call takes arguments. */
function openIn(solid: Solid, regions: readonly Region[], openingsIn: Map<Solid, Region[]>): void {
  const known = openingsIn.get(solid);
  if (known === undefined) openingsIn.set(solid, [...regions]);
  else for (const region of regions) known.push(region);
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

/**
 * What lies in what among rings that neither cross nor touch: what holds the ring directly around another holds that one too.
 * Two of them may still be one line drawn twice, a hair apart: then neither holds the other, and both hold what is inside.
 */
class Nest {
  private readonly rings: readonly BoxedRing[];
  /** The ring directly around each one that was asked about, be it a hair away. */
  private readonly parents: (number | undefined)[] = [];

  /** @param rings the largest first */
  constructor(rings: readonly BoxedRing[]) {
    this.rings = rings;
  }

  /** The rings that hold ring `i`, the largest first. Asked in the order of the rings. */
  around(i: number): number[] {
    const { rings, parents } = this;
    let parent: number | undefined = i - 1;
    while (parent >= 0 && !encloses(rings[parent], rings[i])) parent--;
    parents[i] = parent < 0 ? undefined : parent;
    let holder = parents[i];
    while (holder !== undefined && !isDeep(rings[i], rings[holder])) holder = parents[holder];
    const chain: number[] = [];
    for (let j = holder; j !== undefined; j = parents[j]) chain.push(j);
    return chain.reverse();
  }
}

/** True when a ring that does not cross the other lies in it, however near to it. */
function encloses(outer: BoxedRing, inner: BoxedRing): boolean {
  return boxHolds(outer.box, inner.box) && locateInRing(inner.ring[0], outer.ring) === 1;
}

/** True when a ring that lies in another is farther from it somewhere than what touches. */
function isDeep(inner: BoxedRing, outer: BoxedRing): boolean {
  return inner.ring.some((point) => locateInRing(point, outer.ring, TOUCHING_DEPTH) === 1);
}

/**
 * True when no vertex of a ring is outside an outline with openings and at least one is inside.
 *
 * @param isTidy the rings neither cross nor touch: then one vertex tells of all others
 */
function isRingIn(
  { ring, box }: BoxedRing,
  outline: BoxedRing,
  openings: readonly Ring[],
  isTidy: boolean,
): boolean {
  if (!boxHolds(outline.box, box, TOUCHING_DEPTH)) return false;
  let inside = false;
  for (const point of ring) {
    const place = locateInRing(point, outline.ring, TOUCHING_DEPTH);
    if (place === -1) return false;
    if (openings.some((opening) => locateInRing(point, opening, 0) === 1)) return false;
    if (place === 1 && isTidy) return true;
    if (place === 1) inside = true;
  }
  return inside;
}
