import { combineRegions } from './clipper.ts';
import { areCrossingFree } from './crossing-free.ts';
import { boxRing, type Region } from './shapes.ts';
import { touchingPoints } from './touching-points.ts';

/** Half the width of what is taken away where openings meet in a point, mm: far below any margin. */
const HAIR = 0.005;

/**
 * The pieces of a region whose openings meet in points, at its edge or around wood of their own: what they enclose hangs on
 * to the rest by points only, which no saw could keep and no region may have. A hair is taken away there.
 */
export function partedWhereTouching(region: Region): readonly Region[] {
  const { outline, openings } = region;
  // Quick for ordinary regions, whose openings lie apart: the points themselves are looked for only in doubt.
  if (openings.length === 0 || areCrossingFree([outline, ...openings])) return [region];
  const hairs = touchingPoints(region).map(([x, y]) => ({
    outline: boxRing({ minX: x - HAIR, minY: y - HAIR, maxX: x + HAIR, maxY: y + HAIR }),
    openings: [],
  }));
  return hairs.length === 0 ? [region] : combineRegions('difference', [region], hairs);
}
