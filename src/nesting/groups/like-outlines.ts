import { applyToRing } from '../../geometry/affine.ts';
import { convexHull } from '../../geometry/convex-hull.ts';
import { boundsOf, type Region } from '../../geometry/shapes.ts';
import type { Demand } from '../../model/batch.ts';
import { groupsOfLikeSize } from '../problem/like-size.ts';
import { allowedLies, freeStep } from '../problem/orientations.ts';
import { referenceOf } from '../problem/problem-spec.ts';

/**
 * Hundreds of unlike outlines of one wood: fields of all their pairs would take minutes and fill the memory. Those of about one
 * width and height then share one outline that holds each of them.
 */

/** Fields of pairs up to which every outline is laid by itself; those of parts of 24 vertices take 2.6 GB. */
const MOST_FIELDS = 130_000;

/** Fields of pairs of the outlines they share beyond that. */
const SHARED_FIELDS = 50_000;

/** Groups of demands, each told by one of its members, by what they may share an outline with. */
type Kinds<T> = readonly (readonly T[])[];

/**
 * Puts outlines of about one size together where there are too many.
 *
 * @param kinds outlines, one demand of each, in lists of those under one set of rules that may share one
 * @returns the places in those lists of what shares an outline: each alone where they are not too many
 */
export function likeOutlines(kinds: Kinds<Demand>): (readonly number[])[][] {
  const count = kinds.reduce((sum, { length }) => sum + length, 0);
  const step = freeStep(kinds.flat().map(({ region }) => region));
  const lies = kinds.reduce((sum, kind) => sum + kind.length * allowedLies(kind[0].rules, step).length, 0);
  if ((count * lies) / 2 <= MOST_FIELDS) return kinds.map((kind) => kind.map((_, i) => [i]));
  const shared = Math.sqrt((2 * SHARED_FIELDS * count) / lies) / count;
  return kinds.map((kind) => ofLikeSize(kind, shared * kind.length));
}

/** @param groups how many there are to be, about */
function ofLikeSize(demands: readonly Demand[], groups: number): number[][] {
  const boxes = demands.map(({ region }) => boundsOf(region.outline));
  const bands = Math.max(1, Math.round(Math.sqrt(groups)));
  return groupsOfLikeSize([...demands.keys()], boxes, bands, bands);
}

/** An outline in which each of several regions lies, their reference points on one another; mm, around that point. */
export function outlineAround(regions: readonly Region[]): Region {
  const points = regions.flatMap((region) => {
    const [x, y] = referenceOf(region);
    return applyToRing([1, 0, 0, 1, -x, -y], region.outline);
  });
  return { outline: convexHull(points), openings: [] };
}
