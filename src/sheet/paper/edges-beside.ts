import { regionBounds } from '../../geometry/ring.ts';
import { type Box, boundsOf, type Line, type Point } from '../../geometry/shapes.ts';
import type { Placement } from '../../model/layout.ts';
import { stretchIn } from '../board/straight-way.ts';
import type { Mark, MarkRole } from '../marks/marks.ts';

/**
 * The ends and edges of a board that lie beside its parts. A sheet is stuck on by them, so they have to be on the
 * paper; an edge far from every part is only frame.
 */

/** How near to a part an edge lies beside it, mm: further than any usual margin to the edge. */
export const BESIDE = 15;

const EDGES: ReadonlySet<MarkRole> = new Set(['board-edge', 'usable-edge', 'rest-edge']);

/**
 * Boxes of the stretches of drawn edges that run beside a part, one for each side of an edge and each part. How an edge
 * runs on past the part is no matter: a page had been printed for the 15 mm of it beyond the last part of a board.
 */
export function edgesBeside(marks: readonly Mark[], placements: readonly Placement[]): Box[] {
  const parts = placements.map(({ region }) => regionBounds(region));
  return marks.flatMap((mark) => {
    if ((mark.kind !== 'line' && mark.kind !== 'rings') || !EDGES.has(mark.role)) return [];
    const lines = mark.kind === 'line' ? [mark.points] : mark.rings.map((ring) => [...ring, ring[0]]);
    return lines.flatMap((line) => parts.flatMap((part) => stretches(line, part)));
  });
}

/** What of each side of a line lies beside the box of a part. */
function stretches(line: Line, part: Box): Box[] {
  return line.slice(1).flatMap((to, i) => {
    const stretch = stretchIn(line[i], to, beside(part, line[i], to));
    return stretch === undefined ? [] : [boundsOf(stretch)];
  });
}

/** What lies above and below a part for a side that runs along the board, to its left and right for one across it. */
function beside({ minX, minY, maxX, maxY }: Box, [x1, y1]: Point, [x2, y2]: Point): Box {
  return Math.abs(x2 - x1) >= Math.abs(y2 - y1)
    ? { minX, minY: minY - BESIDE, maxX, maxY: maxY + BESIDE }
    : { minX: minX - BESIDE, minY, maxX: maxX + BESIDE, maxY };
}
