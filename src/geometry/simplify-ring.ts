import { distanceToSegment } from './ring.ts';
import type { Point, Region, Ring } from './shapes.ts';

/**
 * A ring with fewer vertices whose edges pass within `tolerance` mm of every vertex left out (Douglas, Peucker 1973,
 * from two vertices far apart). It may lie on either side of the true ring, and cross itself where the ring comes near
 * itself within the tolerance.
 */
export function simplifyRing(ring: Ring, tolerance: number): Ring {
  if (tolerance <= 0 || ring.length <= 4) return ring;
  // The method needs fixed ends; a ring has none, so the first vertex and the one farthest from it serve.
  const opposite = farthestFrom(ring, ring[0]);
  const kept = [
    ...simplifyRun(ring.slice(0, opposite + 1), tolerance),
    ...simplifyRun([...ring.slice(opposite), ring[0]], tolerance),
  ];
  return kept.length >= 3 ? kept : ring;
}

/** Every ring of a region simplified to within `tolerance` mm, as {@link simplifyRing} does. */
export function simplifyRegion({ outline, openings }: Region, tolerance: number): Region {
  return {
    outline: simplifyRing(outline, tolerance),
    openings: openings.map((opening) => simplifyRing(opening, tolerance)),
  };
}

function farthestFrom(ring: Ring, [x, y]: Point): number {
  let farthest = 0;
  let most = 0;
  ring.forEach(([px, py], i) => {
    const distance = Math.hypot(px - x, py - y);
    if (distance > most) {
      most = distance;
      farthest = i;
    }
  });
  return farthest;
}

/** The points of an open line that have to stay, its last one left off. */
function simplifyRun(line: readonly Point[], tolerance: number): Point[] {
  const stays = new Uint8Array(line.length);
  // A stack of runs and no recursion: a comb of a hundred thousand teeth would nest as deep.
  const pending: [number, number][] = [[0, line.length - 1]];
  for (let run = pending.pop(); run !== undefined; run = pending.pop()) {
    const [from, to] = run;
    const [ax, ay] = line[from];
    const [bx, by] = line[to];
    let farthest = -1;
    let most = tolerance;
    for (let i = from + 1; i < to; i++) {
      const distance = distanceToSegment(line[i][0], line[i][1], ax, ay, bx, by);
      if (distance > most) {
        most = distance;
        farthest = i;
      }
    }
    stays[from] = 1;
    if (farthest >= 0) pending.push([from, farthest], [farthest, to]);
  }
  return line.filter((_, i) => stays[i] === 1);
}
