import { combineRegions, uniteRegions } from '../geometry/clipper.ts';
import { areCrossingFree } from '../geometry/crossing-free.ts';
import { partedWhereTouching } from '../geometry/parted-where-touching.ts';
import { boundsOf, type Region } from '../geometry/shapes.ts';
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
  return largestOf(partedWhereTouching(largestOf(combineRegions('difference', [trimmed], defects))));
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
    : largestOf(partedWhereTouching(largestOf(uniteRegions([region]))));
}
