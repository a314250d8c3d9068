import { combineRegions, uniteRegions } from '../geometry/clipper.ts';
import { areCrossingFree } from '../geometry/crossing-free.ts';
import { boundsOf, boxRing, type Region } from '../geometry/shapes.ts';
import { touchingPoints } from '../geometry/touching-points.ts';
import type { Board, Usable } from '../model/stock.ts';
import { largestOf, trimmedOutline } from './trim.ts';

/**
 * What may be used of a board: its trimmed outline less its defects. A defect over the edge bites into the outline;
 * when defects part the board, the largest piece is what is used.
 */
export function usableOf(board: Board): Usable {
  const trimmed = trimmedOutline(board);
  if (trimmed.outline.length === 0) return trimmed;
  if (board.defects.length === 0) return uncrossed(trimmed);
  const defects = board.defects.map((outline) => ({ outline, openings: [] }));
  return openedWhereTouching(largestOf(combineRegions('difference', [trimmed], defects)));
}

/** Length and width in mm of the box around what may be used of a board; undefined when nothing may. */
export function usableSize(board: Board): readonly [length: number, width: number] | undefined {
  const { outline } = usableOf(board);
  if (outline.length === 0) return undefined;
  const { minX, minY, maxX, maxY } = boundsOf(outline);
  return [maxX - minX, maxY - minY];
}

/**
 * One ring that nowhere crosses itself. An outline of rounded or traced points may by a few micrometres, which is no
 * reason to refuse a board; but what is laid out on it could not be checked.
 */
function uncrossed(region: Region): Region {
  return areCrossingFree([region.outline, ...region.openings])
    ? region
    : openedWhereTouching(largestOf(uniteRegions([region])));
}

/** Half the width of what is taken away where defects meet in a point, mm: far below any margin. */
const HAIR = 0.005;

/**
 * One piece of wood also where knots meet in a point at the edge of a board, or around wood of their own: what they
 * enclose hangs on to the rest by points only, which no saw could keep and no region may have. A hair is taken away
 * there, and the largest piece counts.
 */
function openedWhereTouching(region: Region): Region {
  const { outline, openings } = region;
  // Quick for ordinary boards, whose knots lie apart: the points themselves are looked for only in doubt.
  if (openings.length === 0 || areCrossingFree([outline, ...openings])) return region;
  const hairs = touchingPoints(region).map(([x, y]) => ({
    outline: boxRing({ minX: x - HAIR, minY: y - HAIR, maxX: x + HAIR, maxY: y + HAIR }),
    openings: [],
  }));
  return hairs.length === 0 ? region : largestOf(combineRegions('difference', [region], hairs));
}
