import { combineRegions, offsetRegions } from '../geometry/clipper.ts';
import { areCrossingFree, nestedRegions } from '../geometry/crossing-free.ts';
import { holdsRing, insideRegion, isBox, locateInRing, verticesOf } from '../geometry/ring.ts';
import { boundsOf, boxHolds, type Region, type Ring } from '../geometry/shapes.ts';
import { simplifyRegion, simplifyRing } from '../geometry/simplify-ring.ts';

/**
 * A board after sawing, as a partition: every point of it belongs to exactly one of the lists. So the areas add up
 * to the whole board but for the rounding of corners to the integer grid.
 */
export interface BoardPartition {
  /** Ripped and cross-cut off before layout. */
  readonly trims: readonly Region[];
  /** Parts and the path of the blade around them and in their openings. */
  readonly sawn: readonly Region[];
  readonly defects: readonly Region[];
  /** What falls out of openings, less other parts that lie there. */
  readonly openings: readonly Region[];
  /** Sound wood between and beside the parts. */
  readonly rest: readonly Region[];
}

/** What a board is partitioned by. */
export interface SawnBoard {
  /** Before any trim. */
  readonly outline: Ring;
  readonly trimmed: Region;
  readonly defects: readonly Ring[];
  /** Parts as placed; no two overlap. */
  readonly parts: readonly Region[];
  /** Width the blade removes, mm. */
  readonly kerf: number;
}

/** Excess in mm of the blade's path over the kerf: the kerf is not known better, and many vertices are spared. */
const PATH_EXCESS = 0.005;

/**
 * Vertices of the parts of a board up to which the excess is that; with more it grows as they do, up to a greatest one, mm, for
 * uniting paths takes time that grows with the square of their vertices. A test cut is hardly measured finer.
 */
const DRAWN_FINELY = 20_000;
const MOST_EXCESS = 0.03;

/** How far the round corners of a path stand out at most, mm, on top of the excess. */
const MOST_BEYOND_ARCS = 0.01;

/** Corners of the path that stand out by less than this share of the excess are left out: offsets leave crumbs. */
const CRUMBS = 0.4;

/** Partitions a board by what the saw does to it. */
export function partitionBoard({ outline, trimmed, defects, parts, kerf }: SawnBoard): BoardPartition {
  const solid = (ring: Ring): Region => ({ outline: ring, openings: [] });
  const finely = Math.min(PATH_EXCESS, kerf / 4);
  const fine = parts.map((part) => simplifyRegion(part, finely));
  const vertices = fine.reduce((sum, part) => sum + verticesOf(part), 0);
  const excess = Math.min(MOST_EXCESS, finely * Math.max(1, vertices / DRAWN_FINELY));
  const plain = excess === finely ? fine : parts.map((part) => simplifyRegion(part, excess));
  const beyondArcs = Math.min(MOST_BEYOND_ARCS, Math.max(PATH_EXCESS, excess));
  // One by one: the offset of many parts at once grows faster than their number.
  const paths = plain
    .flatMap((part) => offsetRegions([part], kerf + excess, beyondArcs))
    .map((path) => simplifyRegion(path, excess * CRUMBS));
  const trims = trimmed.outline === outline ? [] : less([solid(outline)], [trimmed]);
  const flaws = defects.map((ring) => simplifyRing(ring, finely));
  const holes = plain.flatMap((part) => part.openings.map(solid));
  const apart = partitionApart(trimmed, paths, flaws, holes);
  if (apart !== undefined) return { trims, ...apart };
  const path = combineRegions('union', paths, []);
  const flawed = flaws.map(solid);
  const unsawn = less([trimmed], path);
  const sound = less(unsawn, flawed);
  return {
    trims,
    sawn: isWithin(path, trimmed) ? path : combineRegions('intersection', path, [trimmed]),
    defects: flawed.length === 0 ? [] : combineRegions('intersection', unsawn, flawed),
    openings: holes.length === 0 ? [] : combineRegions('intersection', sound, holes),
    rest: less(sound, holes),
  };
}

/**
 * The partition where nothing touches anything, as on most boards: what is left is then told by which ring lies in
 * which, without any clipping. Undefined where that is not certain.
 */
function partitionApart(
  trimmed: Region,
  paths: readonly Region[],
  flaws: readonly Ring[],
  holes: readonly Region[],
): Omit<BoardPartition, 'trims'> | undefined {
  if (trimmed.outline.length < 3) return undefined;
  const onBoard = flaws.filter((ring) => locateInRing(ring[0], trimmed.outline) === 1);
  const sawnRings = paths.flatMap((path) => [path.outline, ...path.openings]);
  const isApart =
    areCrossingFree([trimmed.outline, ...trimmed.openings, ...sawnRings, ...flaws]) &&
    paths.every(({ outline: [first] }) => insideRegion(first, trimmed)) &&
    !isAnySwallowed(paths) &&
    // A knot swallowed by a part or by another knot would count as wood again.
    onBoard.every(
      ([first], i) =>
        !paths.some((path) => insideRegion(first, path)) &&
        !onBoard.some((other, j) => i !== j && locateInRing(first, other) === 1),
    );
  if (!isApart) return undefined;
  const wood = nestedRegions([trimmed.outline, ...trimmed.openings, ...sawnRings, ...onBoard], 'evenodd');
  // Without a kerf, the edge of what falls out is the edge of the opening itself.
  const inHole = wood.map(({ outline }) => holes.some((hole) => holdsRing(hole.outline, outline)));
  return {
    sawn: paths,
    defects: onBoard.map((ring) => ({ outline: ring, openings: [] })),
    openings: wood.filter((_, i) => inHole[i]),
    rest: wood.filter((_, i) => !inHole[i]),
  };
}

/**
 * True when a path lies within another, of paths that do not cross: where a part fills an opening so closely that the blade
 * leaves nothing between them.
 */
function isAnySwallowed(paths: readonly Region[]): boolean {
  const boxes = paths.map(({ outline }) => boundsOf(outline));
  return paths.some(({ outline: [first] }, i) =>
    paths.some((other, j) => i !== j && boxHolds(boxes[j], boxes[i]) && insideRegion(first, other)),
  );
}

/** True when regions certainly lie in another one, a box, so that clipping them by it would change nothing. */
function isWithin(regions: readonly Region[], { outline, openings }: Region): boolean {
  if (openings.length > 0 || !isBox(outline)) return false;
  const box = boundsOf(outline);
  return regions.every((region) => boxHolds(box, boundsOf(region.outline)));
}

function less(regions: readonly Region[], taken: readonly Region[]): readonly Region[] {
  return taken.length === 0 ? regions : combineRegions('difference', regions, taken);
}
