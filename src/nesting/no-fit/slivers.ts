import { ringPerimeter, signedArea } from '../../geometry/ring.ts';
import type { Point, Region, Ring } from '../../geometry/shapes.ts';
import type { Steps } from '../running/steps.ts';

/**
 * Cracks in a union: where edges nearly coincide, rounding to the integer grid can leave slits and openings a step
 * or two wide in what should be solid. Some are real (a slot that a part fits into exactly); the others would be
 * read as places without overlap deep inside it.
 */

/** Width in mm up to which a slit or opening is looked at. */
const THIN = 2e-3;

/** Slits no longer than this are rounding, real or not. */
const SHALLOW = 0.02;

/**
 * The regions without the cracks for which `real` says no; it is asked about the far end of every crack. A step for each
 * answer: of parts with a thousand vertices one takes tens of milliseconds.
 */
export function* withoutSlivers(regions: readonly Region[], real: (at: Point) => boolean): Steps<Region[]> {
  const whole: Region[] = [];
  for (const { outline, openings } of regions) {
    const around = yield* withoutSlits(outline, real);
    const inside: Ring[] = [];
    for (const ring of openings) {
      if (!isThin(ring) || (yield* isAnyReal(ring, real))) inside.push(yield* withoutSlits(ring, real));
    }
    whole.push({ outline: around, openings: inside });
  }
  return whole;
}

function* isAnyReal(ring: Ring, real: (at: Point) => boolean): Steps<boolean> {
  for (const point of ring) {
    if (real(point)) return true;
    yield;
  }
  return false;
}

function isThin(ring: Ring): boolean {
  return Math.abs(signedArea(ring)) < (THIN * ringPerimeter(ring)) / 2;
}

/** Drops the tips of slits and spikes until none is left that is not real. */
function* withoutSlits(ring: Ring, real: (at: Point) => boolean): Steps<Ring> {
  const kept = [...ring];
  for (let i = 0, calm = 0; calm < kept.length && kept.length > 3; i++) {
    const at = i % kept.length;
    const before = kept[(at + kept.length - 1) % kept.length];
    const after = kept[(at + 1) % kept.length];
    const depth = tipDepth(before, kept[at], after);
    if (depth > SHALLOW) yield;
    if (depth === 0 || (depth > SHALLOW && real(kept[at]))) {
      calm++;
      continue;
    }
    kept.splice(at, 1);
    // The neighbours may have become the next tip.
    i = Math.max(-1, at - 2);
    calm = 0;
  }
  return kept;
}

/** Length of the slit or spike whose tip is the middle point; 0 when the ring does not turn back on itself. */
function tipDepth([ax, ay]: Point, [x, y]: Point, [bx, by]: Point): number {
  const ux = ax - x;
  const uy = ay - y;
  const vx = bx - x;
  const vy = by - y;
  if (ux * vx + uy * vy <= 0) return 0;
  const u = Math.sqrt(ux * ux + uy * uy);
  const v = Math.sqrt(vx * vx + vy * vy);
  return Math.abs(ux * vy - uy * vx) <= THIN * Math.max(u, v) ? Math.min(u, v) : 0;
}
