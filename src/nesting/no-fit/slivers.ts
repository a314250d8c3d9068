import { insideRegion, ringPerimeter, signedArea } from '../../geometry/ring.ts';
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

/** How far in mm beyond the tip of a slit what is around it is looked at. */
const BEYOND = 2 * THIN;

/**
 * The regions without the cracks for which `real` says no; it is asked about the far end of every crack. A step for each
 * answer: of parts with a thousand vertices one takes tens of milliseconds. Specks beside a region are left out.
 */
export function* withoutSlivers(regions: readonly Region[], real: (at: Point) => boolean): Steps<Region[]> {
  const whole: Region[] = [];
  for (const { outline, openings } of withoutSpecks(regions)) {
    const around = yield* withoutSlits(outline, 'solid inside', real);
    const inside: Ring[] = [];
    for (const ring of openings) {
      if (!isThin(ring) || (yield* isAnyReal(ring, real)))
        inside.push(yield* withoutSlits(ring, 'solid outside', real));
    }
    whole.push({ outline: around, openings: inside });
  }
  return whole;
}

/**
 * Two outlines overlap in one region: thin ones beside it are what rounding has left along its edge. To a place in the
 * region such an edge is two, one of which says that solid lies behind it and free wood before.
 */
function withoutSpecks(regions: readonly Region[]): readonly Region[] {
  const wide = regions.filter(({ outline }) => !isThin(outline));
  return wide.length === 0 ? regions : wide;
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

/** Where the solid of a ring is: in the ring of an outline, around that of an opening. */
type Solid = 'solid inside' | 'solid outside';

/** Drops the tips of slits and spikes until none is left that is not real. */
function* withoutSlits(ring: Ring, solid: Solid, real: (at: Point) => boolean): Steps<Ring> {
  const kept = [...ring];
  for (let i = 0, calm = 0; calm < kept.length && kept.length > 3; i++) {
    const at = i % kept.length;
    const before = kept[(at + kept.length - 1) % kept.length];
    const after = kept[(at + 1) % kept.length];
    const depth = tipDepth(before, kept[at], after);
    if (depth > SHALLOW) yield;
    const isSound = () => !isInsideOut([before, kept[at], after], kept, solid) && real(kept[at]);
    if (depth === 0 || (depth > SHALLOW && isSound())) {
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

/**
 * True for a slit of which rounding has laid the sides on one another or past one another: its tip turns as that of a spike
 * does, but solid lies ahead. Nothing has room in it, and its edges face the wrong way: the solid around it would count as
 * free.
 */
function isInsideOut(
  [[ax, ay], [x, y], [bx, by]]: readonly [Point, Point, Point],
  ring: Ring,
  solid: Solid,
): boolean {
  const [ux, uy] = [x - ax, y - ay];
  const turn = ux * (by - y) - uy * (bx - x);
  const isSlit = signedArea(ring) > 0 === (solid === 'solid inside') ? turn < 0 : turn > 0;
  if (isSlit) return false;
  const step = BEYOND / Math.sqrt(ux * ux + uy * uy);
  const isInRing = insideRegion([x + ux * step, y + uy * step], { outline: ring, openings: [] });
  return isInRing === (solid === 'solid inside');
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
