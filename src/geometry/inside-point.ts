/// <reference path="./polylabel.d.ts" />
import polylabel from 'polylabel';
import { distanceToEdges, insideRegion } from './ring.ts';
import { boundsOf, middleOf, type Point, type Region } from './shapes.ts';

/**
 * The only door to polylabel (the pole of inaccessibility by quadtree refinement). It mends what the library
 * leaves to its caller: a precision that suits the size of the shape, and shapes too thin to have an inside.
 */

/**
 * A box this many times as long as it is wide holds nothing but a hair: 1 m of it is narrower than any saw cuts. The
 * library would part it into as many squares, and each of these further, until memory is full.
 */
const HAIR = 3000;

/** A point well inside a region: the centre of the largest circle that fits, and that circle's radius in mm. */
export interface InsidePoint {
  readonly at: Point;
  /** 0 when the region has no inside worth the name. */
  readonly radius: number;
}

/**
 * The centre of the largest circle inside a region, openings kept out.
 *
 * @param precision how far the radius may fall short of the largest one, mm (default 0.05); work grows with
 *   1 / precision
 */
export function insidePoint(region: Region, precision = 0.05): InsidePoint {
  const box = boundsOf(region.outline);
  const { minX, minY, maxX, maxY } = box;
  const size = Math.min(maxX - minX, maxY - minY);
  const length = Math.max(maxX - minX, maxY - minY);
  // Written so that a size that is not a number is caught too.
  if (!(size > length / HAIR)) return { at: region.outline[0] ?? [0, 0], radius: 0 };
  // The library gives up on shapes smaller than its precision, so that shrinks with the shape.
  const fine = Math.min(precision, size / 20);
  // Of long strips, as slits and slats are, the library would look at thousands of squares that are all alike.
  const middle = middleOf(box);
  const radius = distanceToEdges(middle, region);
  if (radius >= size / 2 - fine && insideRegion(middle, region)) return { at: middle, radius };
  const found = polylabel([region.outline, ...region.openings], fine);
  const at: Point = [found[0], found[1]];
  return insideRegion(at, region) ? { at, radius: Math.max(0, found.distance) } : { at, radius: 0 };
}
