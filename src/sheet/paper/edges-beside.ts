import { type Box, boundsOf, grownBox, type Line } from '../../geometry/shapes.ts';
import type { Placement } from '../../model/layout.ts';
import { outlineBox } from '../board/outline-box.ts';
import { stretchIn } from '../board/straight-way.ts';
import type { Mark, MarkRole } from '../marks/marks.ts';

/**
 * The ends and edges of a board that lie beside its parts. A sheet is stuck on by them, so they have to be on the
 * paper; an edge far from every part is only frame.
 */

/** How near to a part an edge lies beside it, mm: further than any usual margin to the edge. */
const BESIDE = 15;

const EDGES: ReadonlySet<MarkRole> = new Set(['board-edge', 'usable-edge', 'rest-edge']);

/** Boxes of the stretches of drawn edges that run beside a part, one for each side of an edge and each part. */
export function edgesBeside(marks: readonly Mark[], placements: readonly Placement[]): Box[] {
  const near = placements.map((placement) => grownBox(outlineBox(placement), BESIDE));
  return marks.flatMap((mark) => {
    if ((mark.kind !== 'line' && mark.kind !== 'rings') || !EDGES.has(mark.role)) return [];
    const lines = mark.kind === 'line' ? [mark.points] : mark.rings.map((ring) => [...ring, ring[0]]);
    return lines.flatMap((line) => near.flatMap((box) => stretches(line, box)));
  });
}

/** What of each side of a line lies in a box. */
function stretches(line: Line, box: Box): Box[] {
  return line.slice(1).flatMap((to, i) => {
    const stretch = stretchIn(line[i], to, box);
    return stretch === undefined ? [] : [boundsOf(stretch)];
  });
}
