/// <reference path="./clipper-lib.d.ts" />
import ClipperLib, { type Path, type Paths, type PolyNode } from 'clipper-lib';
import { FretlayError } from '../issues/fretlay-error.ts';
import { areCrossingFree, nestedRegions, shareSidesOrCorners } from './crossing-free.ts';
import { filledArea } from './filled-area.ts';
import { fromGrid, snapRing, toGrid, UNITS_PER_MM } from './integer-grid.ts';
import { holdsRing, regionArea, regionsArea, ringArea, ringsPerimeter } from './ring.ts';
import { boundsOf, boxHolds, type Point, type Region, type Ring } from './shapes.ts';
import { SortedClipper } from './sorted-clipper.ts';
import { withoutSpikes } from './spikes.ts';

/**
 * The only door to clipper-lib (Vatti 1992 clipping on integers). It mends what the library leaves to its caller:
 * scaling to the grid, range, hole nesting, and round joins that come out inside the circle.
 */

/** How crossing rings fill: SVG's two rules, and `positive` (only clockwise windings count) for convolutions. */
export type FillRule = 'nonzero' | 'evenodd' | 'positive';

const FILL = {
  nonzero: ClipperLib.PolyFillType.pftNonZero,
  evenodd: ClipperLib.PolyFillType.pftEvenOdd,
  positive: ClipperLib.PolyFillType.pftPositive,
} as const;

const OPERATION = {
  union: ClipperLib.ClipType.ctUnion,
  difference: ClipperLib.ClipType.ctDifference,
  intersection: ClipperLib.ClipType.ctIntersection,
} as const;

/** What rounding the crossings to the grid may add to the area of what is drawn, mm2 for each mm of its outline: two units. */
const ROUNDING = 2 / UNITS_PER_MM;

/** Mirror images in which rings are looked at: all that keep the grid. */
const MIRROR_IMAGES = 8;

/** A boolean operation on regions. */
export type BooleanOperation = keyof typeof OPERATION;

/**
 * The solid regions that rings, mm, enclose under a fill rule; crossing, touching and nested rings are resolved. Points
 * come out on the integer grid.
 *
 * @throws FretlayError for coordinates out of range of the grid, and for rings that touch one another at so many points that
 *   nobody would wait for it
 */
export function regionsFromRings(rings: readonly Ring[], rule: FillRule): Region[] {
  if (rule === 'positive') return executeOnce(unionOf(rings, rule), 0);
  const onGrid = rings.map(snapRing).filter((ring) => ring.length >= 3);
  // Drawings as they should be: nothing to resolve, and no vertex is lost on the way.
  if (areCrossingFree(onGrid)) return nestedRegions(onGrid, rule);
  const drawn = unionOf(rings, rule);
  const quick = executeOnce(drawn, 0);
  const isResolved = areCrossingFree(quick.flatMap(ringsOf));
  // Lines that plainly cross are resolved as they should be; where they share sides and corners, pieces can be lost.
  if (isResolved && !shareSidesOrCorners(onGrid)) return quick;
  const isParted = isResolved || !quick.some(mayTouch);
  const regions = isParted ? quick : executeOnce(drawn, ClipperLib.Clipper.ioStrictlySimple);
  return withoutSpikes(vouchedFor(regions, onGrid, rule));
}

/**
 * As {@link regionsFromRings} by the even-odd rule, but as the library hands it back: outlines may touch themselves.
 * Much quicker for thousands of points in a tangle, and good enough to measure them.
 */
export function evenOddRegions(rings: readonly Ring[]): Region[] {
  return executeOnce(unionOf(rings, 'evenodd'), 0);
}

/** Union, difference or intersection of two sets of regions. Regions of one set may overlap one another. */
export function combineRegions(
  operation: BooleanOperation,
  subject: readonly Region[],
  clip: readonly Region[],
): Region[] {
  const paths = { subject: regionPaths(subject), clip: regionPaths(clip) };
  const found = executeOnce({ operation, ...paths, fill: FILL.nonzero }, 0);
  return found.flatMap((region) => (hasVertexTwice(region) ? parted(region) : [region]));
}

/**
 * A region parted where it touches itself. By itself: the library's strictly simple output looks at every touch of its
 * outlines at the height of every corner there is, and took minutes for two paths side by side among a hundred others.
 */
function parted(region: Region): readonly Region[] {
  const rings = ringsOf(region);
  const found = executeOnce(unionOf(rings, 'evenodd'), ClipperLib.Clipper.ioStrictlySimple);
  // Where many corners are shared, parting loses pieces and openings; an outline that touches itself is the lesser evil.
  const covers = coveringOf(regionArea(region), rings);
  return covers(found) ? found : (resolvedInAnImage(rings, 'evenodd', covers) ?? [region]);
}

/** What regions cover together, with as much care as {@link regionsFromRings}: it costs more than combining them does. */
export function uniteRegions(regions: readonly Region[]): Region[] {
  return regionsFromRings(regionPaths(regions).map(toRing), 'nonzero');
}

/**
 * Regions grown by `distance` mm (shrunk when negative), with round corners.
 *
 * The library's round joins lie inside the true circle, by up to 1.9 times the arc tolerance given to it as
 * measured; it is therefore given 0.4 of `tolerance`, and a growth is made 2.5 times that, the whole `tolerance`,
 * larger: the result contains the true offset and exceeds it by at most `tolerance`. A shrink is rounded the same
 * safe way: it takes at least `distance` off.
 *
 * @param tolerance greatest excess in mm (default 0.01)
 */
export function offsetRegions(regions: readonly Region[], distance: number, tolerance = 0.01): Region[] {
  if (distance === 0) return [...regions];
  // The miter limit of 2 is the library's least, and without meaning for round joins.
  const arcTolerance = 0.4 * tolerance * UNITS_PER_MM;
  const offset = new ClipperLib.ClipperOffset(2, arcTolerance);
  offset.AddPaths(regionPaths(regions), ClipperLib.JoinType.jtRound, ClipperLib.EndType.etClosedPolygon);
  // What the library's own Execute does, with the minima sorted: outlines moved, and what they wind around is the offset.
  offset.FixOrientations();
  offset.DoOffset(toGrid(distance + Math.sign(distance) * tolerance));
  return executeOnce({ operation: 'union', subject: offset.m_destPolys, clip: [], fill: FILL.positive }, 0);
}

/** What the library is asked for. */
interface Clipping {
  readonly operation: BooleanOperation;
  readonly subject: Paths;
  /** None where the subjects are only united with one another. */
  readonly clip: Paths;
  /** How the subjects fill, one of `FILL`; clips are regions already, and fill by their windings. */
  readonly fill: number;
}

function unionOf(rings: readonly Ring[], rule: FillRule): Clipping {
  return { operation: 'union', subject: rings.map(toPath), clip: [], fill: FILL[rule] };
}

/** The regions, if they cover what the rings fill, mm on the grid; else regions that do, found in a mirror image. */
function vouchedFor(regions: Region[], rings: readonly Ring[], rule: 'nonzero' | 'evenodd'): Region[] {
  const filled = filledArea(rings, rule);
  const covers = coveringOf(filled, rings);
  if (covers(regions)) return regions;
  const found = resolvedInAnImage(rings, rule, covers);
  if (found !== undefined) return found;
  throw new FretlayError([
    {
      kind: 'areas-differ',
      severity: 'error',
      message: 'what a shape fills cannot be told for certain: too many of its lines share sides and corners',
      expected: `outlines around ${filled.toFixed(2)} mm2`,
      received: `${regionsArea(regions).toFixed(2)} mm2`,
      remedy: 'Draw it as several shapes, or without lines that lie on one another.',
    },
  ]);
}

/** Tells whether regions cover an area, mm2, as well as rounding to the grid lets those made of the rings do. */
function coveringOf(area: number, rings: readonly Ring[]): (found: readonly Region[]) => boolean {
  const tolerance = ROUNDING * ringsPerimeter(rings);
  return (found) => Math.abs(regionsArea(found) - area) <= tolerance;
}

/**
 * Regions of rings, parted where they touch themselves, found in a mirror image in which they cover all they should, or
 * undefined. Where many sides and corners are shared, the library loses pieces and openings, but not from every side.
 */
function resolvedInAnImage(
  rings: readonly Ring[],
  rule: 'nonzero' | 'evenodd',
  covers: (found: readonly Region[]) => boolean,
): Region[] | undefined {
  let image = rings;
  for (let times = 0; times < MIRROR_IMAGES; times++) {
    const drawn = unionOf(image, rule);
    // What the plain pass has resolved has no crossings left, and is parted with less trouble.
    const resolved = { ...drawn, subject: regionPaths(executeOnce(drawn, 0)) };
    for (const clipping of [drawn, resolved]) {
      const found = executeOnce(clipping, ClipperLib.Clipper.ioStrictlySimple);
      if (covers(found)) return found.map((region) => mirroredBack(region, times));
    }
    image = image.map((ring) => mirrored(ring, times));
  }
  return undefined;
}

/** The image of a ring in the diagonal, and every second time in the upright axis: 8 times and all is as it was. */
function mirrored(ring: Ring, times: number): Ring {
  return ring.map(([x, y]) => (times % 2 === 0 ? [y, x] : [0 - x, y]) as Point);
}

function mirroredBack({ outline, openings }: Region, times: number): Region {
  if (times === 0) return { outline, openings };
  const before = (ring: Ring) => mirrored(ring, times - 1);
  return mirroredBack({ outline: before(outline), openings: openings.map(before) }, times - 1);
}

/**
 * An outline that touches itself is no valid region. The library's strictly simple output parts it there, at a cost that
 * grows with the square of the points, so it is asked for only where outlines touch.
 */
function executeOnce({ operation, subject, clip, fill }: Clipping, options: number): Region[] {
  const clipper = new SortedClipper(options);
  clipper.AddPaths(subject, ClipperLib.PolyType.ptSubject, true);
  if (clip.length > 0) clipper.AddPaths(clip, ClipperLib.PolyType.ptClip, true);
  const tree = new ClipperLib.PolyTree();
  clipper.Execute(OPERATION[operation], tree, fill, ClipperLib.PolyFillType.pftNonZero);
  const regions = fromTree(tree);
  return options === ClipperLib.Clipper.ioStrictlySimple ? rehomed(regions) : regions;
}

/** True unless the rings of a region are certain to touch neither themselves nor one another. */
function mayTouch(region: Region): boolean {
  return !areCrossingFree(ringsOf(region));
}

function ringsOf({ outline, openings }: Region): Ring[] {
  return [outline, ...openings];
}

/**
 * True when a vertex comes twice in the rings of a region: quick to see, and what combining regions leaves. Asked of
 * every union there is, so vertices are told apart by their numbers in an open table, not by texts in a set.
 */
function hasVertexTwice({ outline, openings }: Region): boolean {
  const rings = [outline, ...openings];
  const count = rings.reduce((sum, ring) => sum + ring.length, 0);
  // At most half full, so that few places are taken already; a power of two, so that the last one is its mask.
  const last = 2 ** Math.ceil(Math.log2(2 * count + 1)) - 1;
  const seen: (Point | undefined)[] = new Array(last + 1).fill(undefined);
  for (const ring of rings) {
    for (const point of ring) {
      const [x, y] = point;
      let at = scattered(toGrid(x), toGrid(y)) & last;
      for (let other = seen[at]; other !== undefined; other = seen[at]) {
        if (other[0] === x && other[1] === y) return true;
        at = (at + 1) & last;
      }
      seen[at] = point;
    }
  }
  return false;
}

/** A whole number that differs for neighbouring points of the grid, in its low bits too (multiplicative hashing, Knuth 1973). */
function scattered(x: number, y: number): number {
  const mixed = Math.imul(x, 0x9e3779b1) ^ Math.imul(y, 0x85ebca6b);
  return Math.imul(mixed ^ (mixed >>> 15), 0x9e3779b1) >>> 7;
}

/** Paths with outlines one way round and openings the other, as the non-zero rule and the offset need them. */
function regionPaths(regions: readonly Region[]): Paths {
  return regions.flatMap((region) => [
    orientedPath(region.outline, true),
    ...region.openings.map((opening) => orientedPath(opening, false)),
  ]);
}

function orientedPath(ring: Ring, outline: boolean): Path {
  const path = toPath(ring);
  return ClipperLib.Clipper.Orientation(path) === outline ? path : path.reverse();
}

function toPath(ring: Ring): Path {
  return ring.map(([x, y]) => ({ X: toGrid(x), Y: toGrid(y) }));
}

function toRing(path: Path): Ring {
  return path.map(({ X, Y }) => [fromGrid(X), fromGrid(Y)] as const);
}

/** Outlines lie at even depths of the tree, their holes one below; islands in holes are regions of their own. */
function fromTree(root: PolyNode): Region[] {
  const regions: Region[] = [];
  const misplaced: Ring[] = [];
  const pending = [...root.Childs()];
  for (let node = pending.pop(); node !== undefined; node = pending.pop()) {
    const outline = node.Contour();
    const holes = node.Childs();
    // A hole that touches others can come out as an outline: wood where there is none. Its windings still tell.
    if (!ClipperLib.Clipper.Orientation(outline)) {
      misplaced.push(toRing(outline));
      pending.push(...holes);
      continue;
    }
    regions.push({ outline: toRing(outline), openings: holes.map((hole) => toRing(hole.Contour())) });
    for (const hole of holes) for (const island of hole.Childs()) pending.push(island);
  }
  // Taken from the end of the stack: turned back, they stand in the library's order, which results depend on.
  regions.reverse();
  return misplaced.length === 0 ? regions : withOpenings(regions, misplaced);
}

/**
 * Regions whose openings lie in their outlines: where outlines touch at many corners, strictly simple output hangs some
 * openings under a neighbour of the outline around them, and the area of both would be lost or gained.
 */
function rehomed(regions: Region[]): Region[] {
  const strays = new Set(
    regions.flatMap(({ outline, openings }) => openings.filter((opening) => !holdsRing(outline, opening))),
  );
  if (strays.size === 0) return regions;
  const rid = regions.map(({ outline, openings }) => ({
    outline,
    openings: openings.filter((opening) => !strays.has(opening)),
  }));
  return withOpenings(rid, [...strays]);
}

/** Regions with some openings more, each in the smallest outline around it. */
export function withOpenings(regions: readonly Region[], openings: readonly Ring[]): Region[] {
  const homes = openings.map((opening) => {
    const box = boundsOf(opening);
    const around = regions.filter(
      ({ outline }) => boxHolds(boundsOf(outline), box) && holdsRing(outline, opening),
    );
    return around.toSorted((a, b) => ringArea(a.outline) - ringArea(b.outline))[0];
  });
  return regions.map((region) => {
    const own = openings.filter((_, i) => homes[i] === region);
    return own.length === 0 ? region : { ...region, openings: [...region.openings, ...own] };
  });
}
