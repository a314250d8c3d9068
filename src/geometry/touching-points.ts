import { UNITS_PER_MM } from './integer-grid.ts';
import { distanceToSegment } from './ring.ts';
import { type Box, boundsOf, boxesMeet, type Point, type Region, type Ring } from './shapes.ts';

/** Points nearer to an edge than this, mm, touch it: two units of the integer grid, as far as rounding moves them. */
const TOUCHING = 2 / UNITS_PER_MM;

/** Corners of the rings of a region at which an opening touches the outline or another opening. */
export function touchingPoints({ outline, openings }: Region): Point[] {
  const edge = { ring: outline, box: boundsOf(outline) };
  const boxed = openings.map((ring) => ({ ring, box: boundsOf(ring) }));
  return boxed.flatMap((opening, i) =>
    [edge, ...boxed.slice(i + 1)]
      // Of thousands of openings most lie nowhere near one another.
      .filter(({ box }) => boxesMeet(opening.box, box, TOUCHING))
      .flatMap((other) => [...cornersOn(opening.ring, other), ...cornersOn(other.ring, opening)]),
  );
}

/** Corners of a ring that lie on the edges of another. */
function cornersOn(corners: Ring, { ring, box }: { readonly ring: Ring; readonly box: Box }): Point[] {
  const { minX, minY, maxX, maxY } = box;
  return corners.filter(([x, y]) => {
    // Most corners of an outline are nowhere near a knot.
    if (x < minX - TOUCHING || x > maxX + TOUCHING || y < minY - TOUCHING || y > maxY + TOUCHING)
      return false;
    return ring.some(([bx, by], i) => {
      const [ax, ay] = ring[(i + ring.length - 1) % ring.length];
      return distanceToSegment(x, y, ax, ay, bx, by) <= TOUCHING;
    });
  });
}
