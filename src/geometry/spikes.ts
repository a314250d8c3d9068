import { UNITS_PER_MM } from './integer-grid.ts';
import type { Point, Region, Ring } from './shapes.ts';

/** Distance, mm, up to which the way back of a spike lies on the way there: one unit of the grid. */
const WIDTH = 1 / UNITS_PER_MM;

/**
 * Regions whose rings run nowhere out along a line and straight back: uniting shapes that share sides leaves such cuts of
 * no width, and no area tells of them. Openings of which nothing else is left go.
 */
export function withoutSpikes(regions: readonly Region[]): Region[] {
  return regions.map(({ outline, openings }) => ({
    outline: ringWithoutSpikes(outline),
    openings: openings.map(ringWithoutSpikes).filter(({ length }) => length >= 3),
  }));
}

function ringWithoutSpikes(ring: Ring): Ring {
  const kept: Point[] = [];
  for (const point of ring) {
    kept.push(point);
    while (kept.length >= 3 && isSpike(kept[kept.length - 3], kept[kept.length - 2], kept[kept.length - 1]))
      kept.splice(kept.length - 2, 1);
  }
  // Where the ring closes, its last point and its first may be the tip of one.
  let first = 0;
  while (kept.length - first >= 3) {
    const last = kept.length - 1;
    if (isSpike(kept[last - 1], kept[last], kept[first])) kept.pop();
    else if (isSpike(kept[last], kept[first], kept[first + 1])) first++;
    else break;
  }
  return kept.length - first === ring.length ? ring : kept.slice(first);
}

/** True when the way from the tip leads back along the way to it, and when either leads nowhere. */
function isSpike([ax, ay]: Point, [tipX, tipY]: Point, [bx, by]: Point): boolean {
  const [ux, uy, vx, vy] = [tipX - ax, tipY - ay, bx - tipX, by - tipY];
  const longer = Math.sqrt(Math.max(ux * ux + uy * uy, vx * vx + vy * vy));
  return ux * vx + uy * vy <= 0 && Math.abs(ux * vy - uy * vx) <= WIDTH * longer;
}
