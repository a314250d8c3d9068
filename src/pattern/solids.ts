import { offsetRegions, regionsFromRings, withOpenings } from '../geometry/clipper.ts';
import { partedWhereTouching } from '../geometry/parted-where-touching.ts';
import { regionArea, ringArea, withoutRepeats } from '../geometry/ring.ts';
import { SegmentGrid } from '../geometry/segment-grid.ts';
import { boundsOf, boxHolds, type Region, type Ring } from '../geometry/shapes.ts';
import type { DrawingShape } from '../model/drawing.ts';

/** A closed solid and the shape it was read from. */
export interface Solid {
  readonly region: Region;
  readonly shape: DrawingShape;
  /** True for a piece of what its shape fills: the pieces of one fill never overlap one another. */
  readonly isFilled: boolean;
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

/**
 * Gaps and walls up to twice this, mm, inside one shape are rounding of the drawing's numbers: its pieces touch,
 * its openings are one.
 */
const HAIR = 0.002;

/** Resolves the filled rings of one shape by its fill rule; crossings and nested rings come out as regions. */
export function solidsOfFill(shape: DrawingShape, rings: readonly Ring[]): Solid[] {
  const regions = substantial(regionsFromRings(rings, shape.fillRule));
  const healed = rings.length > 1 ? withoutHairs(regions) : regions;
  return healed.flatMap(inPieces).map((region) => ({ region, shape, isFilled: true }));
}

/** What hangs by points where openings meet is a piece of its own; where nothing does, all stays as it is drawn. */
function inPieces(region: Region): Region[] {
  const pieces = substantial(partedWhereTouching(region));
  return pieces.length > 1 ? pieces : [region];
}

/** Regions without pieces and openings too small to be anything, such as flattening leaves along doubled edges. */
export function substantial(regions: readonly Region[]): Region[] {
  return regions
    .filter((region) => regionArea(region) > LEAST_AREA)
    .map(({ outline, openings }) => ({
      outline,
      openings: openings.filter((opening) => ringArea(opening) > LEAST_AREA),
    }));
}

/** Regions with hairline gaps closed and hairline walls opened, where that joins pieces or openings. */
function withoutHairs(regions: Region[]): Region[] {
  const near = ringsAllButTouching(regions);
  if (near.size === 0) return regions;
  // Offsetting thousands of openings takes minutes: those that touch nothing and hold no piece are put aside.
  const boxes = regions.map(({ outline }) => boundsOf(outline));
  const holdsPiece = (opening: Ring) => {
    const own = boundsOf(opening);
    return boxes.some((box) => boxHolds(own, box));
  };
  const aside = new Set(
    regions.flatMap(({ openings }) => openings).filter((ring) => !near.has(ring) && !holdsPiece(ring)),
  );
  const taken = regions.map(({ outline, openings }) => ({
    outline,
    openings: openings.filter((opening) => !aside.has(opening)),
  }));
  const healed = healing(healing(taken, HAIR), -HAIR);
  // Offsetting rounds corners, so its result is taken only where it has joined something.
  const count = (all: readonly Region[]) => all.reduce((sum, { openings }) => sum + 1 + openings.length, 0);
  if (count(healed) >= count(taken)) return regions;
  return substantial(withOpenings(healed.map(withoutCrumbs), [...aside]));
}

/** Rings of which a vertex lies within a hair of another one, and those others. */
function ringsAllButTouching(regions: readonly Region[]): ReadonlySet<Ring> {
  const near = new Set<Ring>();
  const rings = regions.flatMap(({ outline, openings }) => [outline, ...openings]);
  if (rings.length < 2) return near;
  const grid = new SegmentGrid(rings, 2 * HAIR);
  rings.forEach((ring, number) => {
    for (const [x, y] of ring) if (grid.nearest(x, y, 2 * HAIR, number)) near.add(ring).add(rings[grid.ring]);
  });
  return near;
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
