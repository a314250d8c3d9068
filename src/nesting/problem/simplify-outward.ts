import { distanceToSegment, signedArea, withoutRepeats } from '../../geometry/ring.ts';
import type { Point, Region, Ring } from '../../geometry/shapes.ts';
import { crossesItself } from './crosses-itself.ts';

/**
 * Fewer vertices, never less wood: the simplified region contains the true one and exceeds it by at most a stated
 * distance, so a layout of simplified outlines is a layout of the true ones.
 *
 * Two steps only ever add area: leaving out a reflex vertex (the chord covers the notch), and replacing an edge
 * between two convex vertices by the point where its neighbours meet.
 */

/** A vertex of the ring under work; `excess` bounds how far the edge that starts here lies outside the truth. */
interface Corner {
  readonly x: number;
  readonly y: number;
  readonly excess: number;
}

/**
 * The region with fewer vertices.
 *
 * @param tolerance greatest excess in mm; where an outline would cross itself a smaller one is used
 */
export function simplifyOutward(region: Region, tolerance: number): Region {
  for (let allowed = tolerance; allowed > tolerance / 100; allowed /= 4) {
    const outline = simplifyRing(region.outline, true, allowed);
    if (crossesItself(outline)) continue;
    return { outline, openings: simplifyOpenings(region.openings, allowed) };
  }
  return region;
}

/** Openings get smaller; one that would vanish or cross itself is no longer offered as space. */
function simplifyOpenings(openings: readonly Ring[], tolerance: number): Ring[] {
  return openings
    .map((ring) => simplifyRing(ring, false, tolerance))
    .filter((ring) => ring.length >= 3 && signedArea(ring) < 0 && !crossesItself(ring));
}

/** The ring with the solid on its positive side, simplified in passes of growing tolerance. */
function simplifyRing(ring: Ring, solidInside: boolean, tolerance: number): Ring {
  const clean = withoutRepeats(ring, 1e-4);
  const positive = signedArea(clean) >= 0;
  const directed = positive === solidInside ? clean : [...clean].reverse();
  let corners: Corner[] = directed.map(([x, y]) => ({ x, y, excess: 0 }));
  for (const share of [1e-3, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1]) {
    corners = dropNotches(corners, tolerance * share);
    corners = meetNeighbours(corners, tolerance * share);
  }
  return corners.map(({ x, y }): Point => [x, y]);
}

/** One pass that leaves out reflex vertices whose notch is no deeper than `tolerance`. */
function dropNotches(corners: Corner[], tolerance: number): Corner[] {
  const kept: Corner[] = [];
  const count = corners.length;
  let left = count;
  for (let i = 0; i < count; i++) {
    const before = kept.length > 0 ? kept[kept.length - 1] : corners[count - 1];
    const here = corners[i];
    const after = i + 1 < count ? corners[i + 1] : (kept[0] ?? corners[0]);
    const depth = notchDepth(before, here, after);
    const excess = depth + Math.max(before.excess, here.excess);
    const last = kept.length > 0;
    if (left > 3 && last && depth >= 0 && excess <= tolerance) {
      kept[kept.length - 1] = { x: before.x, y: before.y, excess };
      left--;
    } else kept.push(here);
  }
  return kept;
}

/** Distance of a reflex vertex from the chord of its neighbours; -1 for a convex one. */
function notchDepth(before: Corner, here: Corner, after: Corner): number {
  const dx = after.x - before.x;
  const dy = after.y - before.y;
  const chord = Math.sqrt(dx * dx + dy * dy);
  const cross = dx * (here.y - before.y) - dy * (here.x - before.x);
  if (chord === 0 || cross < 0) return -1;
  const along = (dx * (here.x - before.x) + dy * (here.y - before.y)) / chord;
  return along < 0 || along > chord ? -1 : cross / chord;
}

/** One pass that replaces edges between two convex vertices by the meeting point of their neighbours. */
function meetNeighbours(corners: Corner[], tolerance: number): Corner[] {
  const ring = [...corners];
  const result: Corner[] = [];
  for (let i = 0; i < ring.length; i++) {
    const count = ring.length;
    if (result.length === 0 || i + 2 >= count || count - i + result.length <= 3) {
      result.push(ring[i]);
      continue;
    }
    const before = result[result.length - 1];
    const meeting = meetingCorner(before, ring[i], ring[i + 1], ring[i + 2], tolerance);
    if (meeting === undefined) {
      result.push(ring[i]);
      continue;
    }
    result[result.length - 1] = { x: before.x, y: before.y, excess: Math.max(before.excess, meeting.excess) };
    ring[i + 1] = meeting;
  }
  return result;
}

/** Where the edges before and after b-c meet, when that point lies within `tolerance` of b-c. */
function meetingCorner(a: Corner, b: Corner, c: Corner, d: Corner, tolerance: number): Corner | undefined {
  const ux = b.x - a.x;
  const uy = b.y - a.y;
  const vx = d.x - c.x;
  const vy = d.y - c.y;
  const ex = c.x - b.x;
  const ey = c.y - b.y;
  const turn = ux * vy - uy * vx;
  if (turn <= 0 || ux * ey - uy * ex <= 0 || ex * vy - ey * vx <= 0) return undefined;
  const t = (ex * vy - ey * vx) / turn;
  const x = b.x + ux * t;
  const y = b.y + uy * t;
  // From the edge and not from its line: where the outline turns sharply the point lies far beyond an end.
  const off = distanceToSegment(x, y, b.x, b.y, c.x, c.y);
  const excess = off + Math.max(a.excess, b.excess, c.excess);
  return excess <= tolerance ? { x, y, excess } : undefined;
}
