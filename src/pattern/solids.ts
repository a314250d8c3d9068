import { combineRegions, offsetRegions, regionsFromRings, uniteRegions } from '../geometry/clipper.ts';
import {
  locateInRing,
  regionArea,
  regionBounds,
  regionsArea,
  ringArea,
  ringPerimeter,
  withoutRepeats,
} from '../geometry/ring.ts';
import { SegmentGrid } from '../geometry/segment-grid.ts';
import { type Box, boundsOf, boxesMeet, type Region, type Ring } from '../geometry/shapes.ts';
import { FretlayError } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import type { DrawingShape } from '../model/drawing.ts';
import { tooTangled } from './tangle.ts';
import { toldWhere } from './told-where.ts';

/** A closed solid and the shape it was read from. */
export interface Solid {
  readonly region: Region;
  readonly shape: DrawingShape;
}

/** A ring that is drawn but not filled, with the shape it was read from. */
export interface DrawnRing {
  readonly ring: Ring;
  readonly shape: DrawingShape;
}

/** Regions smaller than this, mm2, are nothing: a hundredth of a millimetre square. */
export const LEAST_AREA = 1e-4;

/** Overlaps with a mean depth up to this, mm, are touching edges, not overlaps. */
export const TOUCHING_DEPTH = 0.02;

/** File and layer that an issue is about. */
export interface LayerPlace {
  readonly file: string;
  readonly layer: string;
}

/** What happens to a filled shape that lies wholly inside another: it is painted over, or it is cut out. */
export type InnerShapes = 'unite' | 'openings';

/**
 * Gaps and walls up to twice this, mm, inside one shape are rounding of the drawing's numbers: its pieces touch,
 * its openings are one.
 */
const HAIR = 0.002;

/** Resolves the filled rings of one shape by its fill rule; crossings and nested rings come out as regions. */
export function solidsOfFill(shape: DrawingShape, rings: readonly Ring[]): Solid[] {
  const regions = substantial(regionsFromRings(rings, shape.fillRule));
  const healed = rings.length > 1 && ringsAllButTouch(regions) ? withoutHairs(regions) : regions;
  return healed.map((region) => ({ region, shape }));
}

/** Regions without pieces and openings too small to be anything, such as flattening leaves along doubled edges. */
function substantial(regions: readonly Region[]): Region[] {
  return regions
    .filter((region) => regionArea(region) > LEAST_AREA)
    .map(({ outline, openings }) => ({
      outline,
      openings: openings.filter((opening) => ringArea(opening) > LEAST_AREA),
    }));
}

/** True when a vertex of one ring lies within a hair of another ring. */
function ringsAllButTouch(regions: readonly Region[]): boolean {
  const rings = regions.flatMap(({ outline, openings }) => [outline, ...openings]);
  if (rings.length < 2) return false;
  const grid = new SegmentGrid(rings, 2 * HAIR);
  return rings.some((ring, number) => ring.some(([x, y]) => grid.nearest(x, y, 2 * HAIR, number)));
}

/** Regions with hairline gaps closed and hairline walls opened, where that joins pieces or openings. */
function withoutHairs(regions: Region[]): Region[] {
  const healed = healing(healing(regions, HAIR), -HAIR);
  // Offsetting rounds corners, so its result is taken only where it has joined something.
  const count = (all: readonly Region[]) => all.reduce((sum, { openings }) => sum + 1 + openings.length, 0);
  return count(healed) < count(regions) ? substantial(healed.map(withoutCrumbs)) : regions;
}

/** Grown and shrunk again when `by` is above 0, which closes gaps up to twice that wide; else walls are opened. */
function healing(regions: readonly Region[], by: number): Region[] {
  return offsetRegions(offsetRegions(regions, by, HAIR / 10), -by, HAIR / 10);
}

/** Growing and shrinking leaves vertices a hair apart; of a ring that is little more than a hair, too few to be one. */
function withoutCrumbs({ outline, openings }: Region): Region {
  const clean = (ring: Ring) => withoutRepeats(ring, 2 * HAIR);
  return { outline: clean(outline), openings: openings.map(clean) };
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
): { solids: Solid[]; specks: DrawnRing[] } {
  const resolved = drawn.map((each) => {
    const { element, line, fillRule } = each.shape;
    const regions = substantial(toldWhere({ element, line }, () => regionsFromRings([each.ring], fillRule)));
    const area = regionsArea(regions);
    return { ...each, regions, area, box: boundsOf(each.ring) };
  });
  const rings = resolved.filter(({ regions }) => regions.length > 0).sort((a, b) => b.area - a.area);
  const fills = solids.map((solid) => {
    const { outline } = solid.region;
    return { solid, ring: outline, area: ringArea(outline), box: boundsOf(outline) };
  });
  const openingsIn = new Map<Solid, Region[]>();
  const depths: number[] = [];
  const solidsOf: Solid[][] = [];
  rings.forEach((inner, i) => {
    const around: number[] = [];
    for (let j = 0; j < i; j++) if (holds(rings[j], inner)) around.push(j);
    const filledAround = fills.filter(
      ({ solid, box }) => boxesMeet(box, inner.box) && ringInRegion(inner.ring, solid.region),
    );
    // Rings are sorted, largest first: the last before this one that holds it is the ring directly around.
    const parent = around.at(-1);
    const reach = parent === undefined ? Number.POSITIVE_INFINITY : rings[parent].area;
    const isInFill = filledAround.some(({ area }) => area <= reach);
    const depth = isInFill ? 1 : parent === undefined ? 0 : depths[parent] + 1;
    depths.push(depth);
    const isOutline = depth % 2 === 0 && !fills.some((fill) => runsAlong(inner, fill));
    solidsOf.push(isOutline ? inner.regions.map((region) => ({ region, shape: inner.shape })) : []);
    if (depth % 2 === 0) return;
    for (const solid of [...filledAround.map((fill) => fill.solid), ...around.flatMap((j) => solidsOf[j])]) {
      const known = openingsIn.get(solid);
      if (known === undefined) openingsIn.set(solid, [...inner.regions]);
      else for (const region of inner.regions) known.push(region);
    }
  });
  const cut = [...solids, ...solidsOf.flat()].flatMap((solid) => {
    const openings = openingsIn.get(solid);
    if (openings === undefined) return [solid];
    return substantial(combineRegions('difference', [solid.region], openings)).map((region) => ({
      region,
      shape: solid.shape,
    }));
  });
  return { solids: cut, specks: resolved.filter(({ regions }) => regions.length === 0) };
}

interface BoxedRing {
  readonly ring: Ring;
  readonly box: Box;
}

function holds(outer: BoxedRing, inner: BoxedRing): boolean {
  if (!boxesMeet(outer.box, inner.box)) return false;
  return ringInRegion(inner.ring, { outline: outer.ring, openings: [] });
}

/** True when two rings are the same line, drawn twice: every vertex of each lies on the other. */
function runsAlong(a: BoxedRing, b: BoxedRing): boolean {
  const isOn = (ring: Ring, other: Ring) =>
    ring.every((point) => locateInRing(point, other, TOUCHING_DEPTH) === 0);
  return isSameBox(a.box, b.box) && isOn(a.ring, b.ring) && isOn(b.ring, a.ring);
}

function isSameBox(a: Box, b: Box): boolean {
  const sides = ['minX', 'minY', 'maxX', 'maxY'] as const;
  return sides.every((side) => Math.abs(a[side] - b[side]) <= TOUCHING_DEPTH);
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

/**
 * Unites solids, in mm, that overlap; solids that only share an edge stay apart. A solid wholly inside another is
 * swallowed by it, or cut out of it when `innerShapes` asks for that. Each case is reported. Throws a FretlayError when
 * solids overlap so often that uniting them would not end.
 */
export function uniteOverlaps(
  solids: readonly Solid[],
  innerShapes: InnerShapes,
  place: LayerPlace,
): { solids: Solid[]; issues: Issue[] } {
  const issues: Issue[] = [];
  const boxes = solids.map(({ region }) => boundsOf(region.outline));
  // Groups as a forest: every solid points to another of its group, the root to itself (Galler, Fischer 1964).
  const cluster = solids.map((_, i) => i);
  const root = (i: number): number => {
    let r = i;
    while (cluster[r] !== r) r = cluster[r];
    return r;
  };
  for (const [i, j] of meetingPairs(boxes)) {
    // Solids that are of one group already need no look: overlaps are the costly part.
    if (root(i) !== root(j) && overlap(solids[i].region, solids[j].region)) cluster[root(j)] = root(i);
  }
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

function resolveGroup(
  drawn: readonly Solid[],
  innerShapes: InnerShapes,
  place: LayerPlace,
  issues: Issue[],
): Solid[] {
  const group = withoutTwins(drawn, place, issues);
  if (group.length === 1) return [group[0]];
  if (tooTangled(group.flatMap(({ region }) => [region.outline, ...region.openings]))) {
    throw new FretlayError([overlapsWithoutEnd(group, place)]);
  }
  const largest = group.reduce((a, b) => (regionArea(b.region) > regionArea(a.region) ? b : a));
  const { element, line } = largest.shape;
  const painted = toldWhere({ element, line }, () =>
    innerShapes === 'openings'
      ? paintedWithOpenings(group, place, issues)
      : allUnited(group, largest, place, issues),
  );
  return substantial(painted).map((region) => ({ region, shape: largest.shape }));
}

/** Each solid once: one drawn twice is no opening in itself, though it lies wholly on what is there. */
function withoutTwins(group: readonly Solid[], place: LayerPlace, issues: Issue[]): Solid[] {
  const kept: { readonly solid: Solid; readonly rings: readonly BoxedRing[] }[] = [];
  for (const solid of group) {
    const { outline, openings } = solid.region;
    const rings = [outline, ...openings].map((ring) => ({ ring, box: boundsOf(ring) }));
    const twin = kept.find((other) => areSameRings(rings, other.rings));
    if (twin === undefined) kept.push({ solid, rings });
    else issues.push(overlapIssue(solid, twin.solid, 'twice', place));
  }
  return kept.map(({ solid }) => solid);
}

/** True when two regions, their outlines first, are the same. */
function areSameRings(a: readonly BoxedRing[], b: readonly BoxedRing[]): boolean {
  return (
    a.length === b.length &&
    runsAlong(a[0], b[0]) &&
    a.every((ring, i) => i === 0 || b.some((other) => runsAlong(ring, other)))
  );
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
  for (const { region, shape } of group) {
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
    if (what !== 'alone') issues.push(overlapIssue({ region, shape }, group[0], what, place));
  }
  return painting.regions();
}

/** A shape that is added to what is there, or cut out of it. */
interface Stroke {
  readonly region: Region;
  readonly box: Box;
  readonly isCut: boolean;
}

/**
 * What is painted so far, kept as strokes: of these only the ones near a shape are carried out to tell what it lies on, and all of
 * them, many at a time, at the end. Done one by one on the whole, hundreds took many seconds.
 */
class Painting {
  private readonly strokes: Stroke[] = [];
  /** What was carried out last: the next shape often lies on the same, and one more. */
  private last: { readonly strokes: readonly Stroke[]; readonly regions: readonly Region[] } = {
    strokes: [],
    regions: [],
  };

  /** Regions that may reach a shape; they may overlap one another. */
  near(region: Region): readonly Region[] {
    const box = regionBounds(region);
    return this.carriedOut(this.strokes.filter((stroke) => boxesMeet(stroke.box, box)));
  }

  add(region: Region): void {
    this.strokes.push({ region, box: regionBounds(region), isCut: false });
  }

  cutOut(region: Region): void {
    this.strokes.push({ region, box: regionBounds(region), isCut: true });
  }

  regions(): Region[] {
    return uniteRegions(this.carriedOut(this.strokes));
  }

  private carriedOut(strokes: readonly Stroke[]): readonly Region[] {
    const isMore = this.last.strokes.every((stroke, i) => stroke === strokes[i]);
    let regions = isMore ? this.last.regions : [];
    for (const round of rounds(isMore ? strokes.slice(this.last.strokes.length) : strokes)) {
      const [cuts, added] = [true, false].map((isCut) =>
        round.filter((stroke) => stroke.isCut === isCut).map((stroke) => stroke.region),
      );
      regions = [...regions, ...added];
      if (cuts.length > 0) regions = combineRegions('difference', regions, cuts);
    }
    this.last = { strokes, regions };
    return regions;
  }
}

/** Strokes in as few rounds as do: of one round any may come first, for an addition and a cut that meet are not in it. */
function rounds(strokes: readonly Stroke[]): Stroke[][] {
  const all: Stroke[][] = [];
  const roundOf = new Map<Stroke, number>();
  for (const stroke of strokes) {
    let own = 0;
    for (const [earlier, round] of roundOf)
      if (boxesMeet(earlier.box, stroke.box))
        own = Math.max(own, round + (earlier.isCut === stroke.isCut ? 0 : 1));
    roundOf.set(stroke, own);
    all[own] = [...(all[own] ?? []), stroke];
  }
  return all;
}

function overlapIssue(
  solid: Solid,
  other: Solid,
  what: 'united' | 'opened' | 'swallowed' | 'twice',
  place: LayerPlace,
): Issue {
  const where = { ...place, element: solid.shape.element, line: solid.shape.line };
  switch (what) {
    case 'united':
      return {
        kind: 'shapes-united',
        severity: 'warning',
        message: `overlaps ${other.shape.element} of the same layer; the two are cut as one part`,
        remedy: 'Move them apart or to different layers if they are two parts.',
        where,
      };
    case 'opened':
      return {
        kind: 'inner-shape-opened',
        severity: 'note',
        message: `lies inside ${other.shape.element} and is cut out of it as an opening`,
        where,
      };
    case 'twice':
      return {
        kind: 'shape-drawn-twice',
        severity: 'warning',
        message: `lies exactly on ${other.shape.element} of the same layer; the two are cut as one part`,
        remedy: 'Delete one of them, or move it if it is a part of its own.',
        where,
      };
    case 'swallowed':
      return {
        kind: 'inner-shape-swallowed',
        severity: 'warning',
        message: `lies wholly inside ${other.shape.element} and makes no cut`,
        remedy:
          'Move it to a different layer if it is a part of its own; ask for "innerShapes": "openings" in the job if such shapes are to be cut out.',
        where,
      };
  }
}

function overlapsWithoutEnd(group: readonly Solid[], place: LayerPlace): Issue {
  return {
    kind: 'shapes-too-tangled',
    severity: 'error',
    message: `${group.length} shapes of the layer overlap one another so often that they cannot be a pattern`,
    remedy: 'Unite them in the drawing program, or put them on layers of their own.',
    where: { ...place, element: group[0].shape.element, line: group[0].shape.line },
  };
}

/** Index pairs of boxes that meet, by a sweep along x. */
export function* meetingPairs(boxes: readonly Box[]): Generator<[number, number]> {
  const order = boxes.map((_, i) => i).sort((a, b) => boxes[a].minX - boxes[b].minX);
  for (let a = 0; a < order.length; a++) {
    const box = boxes[order[a]];
    for (let b = a + 1; b < order.length && boxes[order[b]].minX <= box.maxX; b++) {
      if (boxesMeet(box, boxes[order[b]])) yield [order[a], order[b]];
    }
  }
}

/** True when two regions overlap by more than a touch: a vertex well inside says so at once, else the overlap does. */
function overlap(a: Region, b: Region): boolean {
  return hasVertexInside(a, b) || hasVertexInside(b, a) || overlapDepth(a, b) > TOUCHING_DEPTH;
}

/** Vertices tried for the quick answer. */
const TRIED_VERTICES = 12;

function hasVertexInside(a: Region, b: Region): boolean {
  const step = Math.max(1, Math.floor(a.outline.length / TRIED_VERTICES));
  return a.outline.some(
    (point, i) =>
      i % step === 0 &&
      locateInRing(point, b.outline, 2 * TOUCHING_DEPTH) === 1 &&
      b.openings.every((opening) => locateInRing(point, opening, 2 * TOUCHING_DEPTH) === -1),
  );
}

/** Mean depth in mm of the overlap of two regions: its area over half its outline. */
function overlapDepth(a: Region, b: Region): number {
  const shared = combineRegions('intersection', [a], [b]);
  const area = regionsArea(shared);
  const length = shared.reduce((sum, region) => sum + ringPerimeter(region.outline), 0);
  return length > 0 ? area / (length / 2) : 0;
}

function isWithin(inner: Region, outer: readonly Region[]): boolean {
  return combineRegions('difference', [inner], outer).every((region) => regionArea(region) <= LEAST_AREA);
}
