import { evenOddRegions, offsetRegions, regionsFromRings } from './clipper.ts';
import { areCrossingFree, crossingPoint, nestedRegions } from './crossing-free.ts';
import { UNITS_PER_MM } from './integer-grid.ts';
import { regionArea, regionsArea, ringsPerimeter } from './ring.ts';
import type { Point, Region } from './shapes.ts';

/** Farthest a point is moved by rounding to the grid, mm, with some room. */
const ROUNDING = 2 / UNITS_PER_MM;

/** Half the width of a neck that is none, mm: three units of the grid, so that only rings that touch leave one. */
const HAIR = 0.0003;

/** Why a region is no single piece of wood. */
export type Unsound = 'encloses nothing' | 'crosses itself' | 'hangs by a point';

/** What is wrong with a region, and where, if that can be told, mm. */
export interface Fault {
  readonly why: Unsound;
  readonly at?: Point | undefined;
}

/**
 * What is wrong with a region that is taken as it is drawn, such as a part. Closer than {@link unsoundness}, which says
 * nothing of crossings that hardly any area comes of: a board is used without those, but a part is sawn and checked with
 * them. Nor may it be of pieces that meet in a point: sawn, they fall apart.
 */
export function faultOf(region: Region): Fault | undefined {
  const rings = [region.outline, ...region.openings];
  const touchesNowhere = areCrossingFree(rings);
  const why = touchesNowhere ? nestingFault(region) : boundaryFault(region);
  if (why === undefined && touchesNowhere) return undefined;
  const at = crossingPoint(rings);
  if (why !== undefined || at !== undefined) return { why: why ?? 'crosses itself', at };
  // Less a hair all around, what hangs by points falls apart: also where only openings meet, and enclose it.
  const pieces = offsetRegions(regionsFromRings(rings, 'evenodd'), -HAIR, HAIR / 10);
  return pieces.length > 1 ? { why: 'hangs by a point' } : undefined;
}

/**
 * What is wrong with a region: an outline that encloses nothing, rings that cross themselves or one another, run along
 * one another or back on themselves, and openings outside the outline or inside each other. Undefined for one piece
 * of wood with holes in it; rings that only touch in single points are left alone, and so are two openings that share a
 * side from corner to corner: clipper-lib leaves them two as well, so neither area nor boundary is lost.
 *
 * Where no edges touch, the rings have only to be nested as they should. Else the area and the boundary that the rings
 * have by the even-odd rule are compared with what they have one by one: wherever they cross or overlap, some area
 * comes to lie on the other side, or some length of the boundary is lost.
 */
export function unsoundness(region: Region): Unsound | undefined {
  const touchesNowhere = areCrossingFree([region.outline, ...region.openings]);
  return touchesNowhere ? nestingFault(region) : boundaryFault(region);
}

/** Of rings whose edges nowhere touch. */
function nestingFault({ outline, openings }: Region): Unsound | undefined {
  const nested = nestedRegions([outline, ...openings], 'evenodd');
  const isOne = nested.length === 1 && nested[0].outline === outline;
  return isOne && nested[0].openings.length === openings.length ? undefined : 'crosses itself';
}

/** Of rings whose edges may touch. */
function boundaryFault(region: Region): Unsound | undefined {
  const rings = [region.outline, ...region.openings];
  const enclosed = evenOddRegions(rings);
  const area = regionsArea(enclosed);
  if (area === 0) return 'encloses nothing';
  const length = ringsPerimeter(rings);
  const points = rings.reduce((sum, { length: count }) => sum + count, 0);
  const isSameArea = Math.abs(area - regionArea(region)) <= ROUNDING * length;
  const isSameLength =
    Math.abs(ringsPerimeter(enclosed.flatMap((each) => [each.outline, ...each.openings])) - length) <=
    // A ring that repeats its first point, or rounds to the grid, changes each of its sides by no more than that.
    2 * ROUNDING * points;
  return isSameArea && isSameLength ? undefined : 'crosses itself';
}
