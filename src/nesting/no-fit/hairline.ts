import { oriented } from '../../geometry/ring.ts';
import type { Point, Region, Ring } from '../../geometry/shapes.ts';

/**
 * The region with its whole boundary moved into the solid by a hair: slots that a part fits into exactly, which have
 * no area and are lost in any union, then have a little. Made for distances far below every feature of a part.
 *
 * @param hair how far the boundary moves, mm
 */
export function insetByHair(region: Region, hair: number): Region {
  return {
    outline: insetRing(oriented(region.outline, true), hair),
    openings: region.openings.map((opening) => insetRing(oriented(opening, false), hair)),
  };
}

/** Farthest a vertex moves, in hairs: keeps needle points from running away. */
const LIMIT = 4;

/** Moves every edge to its left, where the solid is, and every vertex to where its edges meet again. */
function insetRing(ring: Ring, hair: number): Ring {
  const count = ring.length;
  return ring.map((here, i): Point => {
    const before = ring[(i + count - 1) % count];
    const after = ring[(i + 1) % count];
    const [ax, ay] = direction(before, here);
    const [bx, by] = direction(here, after);
    // The sum of the edges' normals points along the bisector; its length grows as the corner gets blunter.
    const nx = -ay - by;
    const ny = ax + bx;
    const stretch = Math.min(LIMIT / Math.SQRT2, 2 / Math.max(nx * nx + ny * ny, 1e-9));
    return [here[0] + nx * stretch * hair, here[1] + ny * stretch * hair];
  });
}

function direction(from: Point, to: Point): Point {
  const dx = to[0] - from[0];
  const dy = to[1] - from[1];
  const length = Math.sqrt(dx * dx + dy * dy) || 1;
  return [dx / length, dy / length];
}
