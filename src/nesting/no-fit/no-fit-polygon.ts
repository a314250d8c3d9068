import { applyToRegion } from '../../geometry/affine.ts';
import { combineRegions, regionsFromRings } from '../../geometry/clipper.ts';
import { oriented, regionArea, ringPerimeter } from '../../geometry/ring.ts';
import { boundsOf, type Point, type Region, type Ring } from '../../geometry/shapes.ts';
import { lastOf, type Steps } from '../running/steps.ts';
import {
  convolve,
  type GridRing,
  gridRing,
  isConvex,
  mirroredThroughOrigin,
  reversedRing,
} from './convolution.ts';
import { withoutSlivers } from './slivers.ts';
import { splitOutline } from './split-outline.ts';

/**
 * No-fit and inner-fit polygons: for which translations d of B does it overlap A, or lie inside a ring.
 * Touching counts as not overlapping.
 */

/**
 * The translations d for which the interiors of `a` and `b` + d meet. Inside parts' openings the no-fit regions
 * have openings of their own; a fit so exact that it leaves no play at all is not seen.
 */
export function noFitRegions(a: Region, b: Region): Region[] {
  return lastOf(noFitSteps(a, b));
}

/** As {@link noFitRegions}, in steps of some milliseconds, between which a caller may give way. */
export function* noFitSteps(a: Region, b: Region): Steps<Region[]> {
  const overlap = yield* withoutSlivers(yield* overlapSteps(a.outline, b.outline), (at) => fitsAt(a, b, at));
  const inside = [
    ...a.openings.flatMap((opening) => innerFitRegions(opening, b.outline)),
    ...b.openings.flatMap((opening) => innerFitRegions(opening, a.outline).map(mirroredRegion)),
  ];
  return inside.length === 0 ? overlap : combineRegions('difference', overlap, inside);
}

/** Least area in mm2 per mm of boundary that counts as overlap: ten steps of the integer grid. */
const TOUCH = 1e-3;

/** True when `b` moved to `at` does no more than touch `a`. */
function fitsAt(a: Region, b: Region, at: Point): boolean {
  const moved = applyToRegion([1, 0, 0, 1, at[0], at[1]], b);
  const shared = combineRegions('intersection', [a], [moved]);
  return shared.reduce((area, piece) => area + regionArea(piece), 0) <= TOUCH * ringPerimeter(b.outline);
}

/** Vertices of a piece up to which one convolution is the faster way, as measured. */
const MOST_VERTICES = 60;

/** No-fit regions of two outlines without their openings, piece by piece where they are long. */
function* overlapSteps(a: Ring, b: Ring): Steps<Region[]> {
  const aPieces = yield* splitOutline(oriented(a, true), MOST_VERTICES);
  const bPieces = (yield* splitOutline(oriented(b, true), MOST_VERTICES)).map((piece) =>
    mirroredThroughOrigin(gridRing(oriented(piece, true))),
  );
  const perPiece: Region[][] = [];
  for (const piece of aPieces) {
    const aRing = gridRing(oriented(piece, true));
    const sums: Region[][] = [];
    for (const bRing of bPieces) {
      sums.push(sumOf(aRing, bRing));
      yield;
    }
    perPiece.push(yield* unitedSteps(sums));
    yield;
  }
  return yield* unitedSteps(perPiece);
}

/**
 * Sets of regions up to which a single union is as quick as several. Its time grows with the edges that lie side by side,
 * and of those of neighbouring pieces most lie inside one another: they are gone after a union of a few.
 */
const MOST_SETS = 32;
const FEW_SETS = 4;

/** The union of all sets, many of them a few neighbours at a time. */
function* unitedSteps(sets: readonly Region[][]): Steps<Region[]> {
  if (sets.length <= MOST_SETS) return united(sets);
  let left = sets;
  while (left.length > 1) {
    const fewer: Region[][] = [];
    for (let i = 0; i < left.length; i += FEW_SETS) {
      fewer.push(united(left.slice(i, i + FEW_SETS)));
      yield;
    }
    left = fewer;
  }
  return left[0];
}

/** The sum of two rings as regions: the convolution of convex ones is its outline already, without a union. */
function sumOf(a: GridRing, b: GridRing): Region[] {
  const paths = convolve(a, b);
  if (isConvex(a) && isConvex(b) && paths.length === 1) return [{ outline: paths[0], openings: [] }];
  return regionsFromRings(paths, 'positive');
}

function united(sets: readonly Region[][]): Region[] {
  return sets.length === 1 ? sets[0] : combineRegions('union', sets.flat(), []);
}

/**
 * The translations d for which `b` + d lies inside the ring `space`; empty when it does not fit.
 *
 * The convolution with the ring run backwards winds -1 where no point of `b` + d is outside. It would also do so
 * where the ring lies wholly inside `b`, which the boxes rule out.
 */
export function innerFitRegions(space: Ring, b: Ring): Region[] {
  const room = boundsOf(space);
  const need = boundsOf(b);
  const spareX = room.maxX - room.minX - (need.maxX - need.minX);
  const spareY = room.maxY - room.minY - (need.maxY - need.minY);
  if (spareX <= 0 || spareY <= 0) return [];
  const backwards = reversedRing(gridRing(oriented(space, true)));
  const bRing = mirroredThroughOrigin(gridRing(oriented(b, true)));
  const paths = convolve(backwards, bRing).map((path) => [...path].reverse());
  return regionsFromRings(paths, 'positive');
}

function mirroredRegion(region: Region): Region {
  return { outline: mirroredRing(region.outline), openings: region.openings.map(mirroredRing) };
}

function mirroredRing(ring: Ring): Ring {
  return ring.map(([x, y]) => [-x, -y] as const);
}
