import type { InsidePoint } from '../geometry/inside-point.ts';
import { distanceToLine, insideRegion, signedArea } from '../geometry/ring.ts';
import type { Point, Ring } from '../geometry/shapes.ts';

/** How much the radius of a drill may be above that of the hole the blade asks for, mm: they go by steps of 1/64 in. */
const DRILL_STEP = 0.2;
/** Waste between such a drill and the line, mm: drills wander (common practice, no source). */
const CLEAR = 1;
/** Where a slot is narrower than that, a hole near its end may be so much narrower than in its widest place. */
const AS_WIDE = 0.98;

/** A line that turns more than this at a point has a corner there, degrees: where a cut ends it leaves no mark. */
const CORNER = 30;
/** In a corner sharper than this, degrees, a hole is far from the point, and lies at the line elsewhere. */
const SHARPEST = 60;

/** Most places of an opening that are looked at besides its corners. */
const MOST_PLACES = 60;

/** A hole in the waste of an opening. */
export interface HolePlace {
  readonly at: Point;
  /** Of the largest hole there that does not touch the line, mm. */
  readonly radius: number;
  /** The point of the line where the cut begins. */
  readonly start: Point;
}

/**
 * Where an opening is drilled: close to its line, which saves sawing, but clear of it; in a corner, if there is one with
 * room, else near the widest place (common practice, no source). In a narrow slot it lies midway between the sides, near an
 * end; where the waste is hardly wider than the hole, in its widest place.
 *
 * @param widest centre of the largest circle that fits
 * @param diameter of the hole, mm
 */
export function holePlace(ring: Ring, widest: InsidePoint, diameter: number): HolePlace {
  const least = diameter / 2 + DRILL_STEP;
  const away = Math.min(least + CLEAR, Math.max(least, AS_WIDE * widest.radius));
  const fromWidest = ([x, y]: Point) => Math.hypot(x - widest.at[0], y - widest.at[1]);
  const nearest = ring.reduce((best, each) => (fromWidest(each) < fromWidest(best) ? each : best));
  const middle = { ...widest, start: nearest };
  if (widest.radius <= least) return middle;
  const step = Math.ceil(ring.length / MOST_PLACES);
  const inward = Math.sign(signedArea(ring));
  const places = ring.flatMap((start, i) => {
    const before = direction(ring[(i + ring.length - 1) % ring.length], start);
    const after = direction(start, ring[(i + 1) % ring.length]);
    const turn = inward * Math.atan2(cross(before, after), dot(before, after));
    const isCorner = turn > CORNER * DEGREE;
    // The point of wood that juts into the waste breaks easily, and so may that of a sharp corner be far.
    if (turn < -CORNER * DEGREE || turn > Math.PI - SHARPEST * DEGREE) return [];
    if (!isCorner && i % step !== 0 && start !== nearest) return [];
    const [dx, dy] = [before[0] + after[0], before[1] + after[1]];
    const size = Math.hypot(dx, dy);
    // Along the middle of the angle, farther out the sharper it is.
    const far = away / Math.cos(Math.max(0, turn) / 2);
    const at: Point = [start[0] - (inward * far * dy) / size, start[1] + (inward * far * dx) / size];
    return [{ at, start, isCorner, far: fromWidest(start) }];
  });
  places.sort((a, b) => Number(b.isCorner) - Number(a.isCorner) || a.far - b.far);
  for (const { at, start } of places) {
    const radius = distanceToLine(at, ring, true);
    if (radius >= away - 1e-6 && insideRegion(at, { outline: ring, openings: [] }))
      return { at, radius, start };
  }
  return middle;
}

const DEGREE = Math.PI / 180;

function direction([ax, ay]: Point, [bx, by]: Point): Point {
  const length = Math.hypot(bx - ax, by - ay);
  return [(bx - ax) / length, (by - ay) / length];
}

function cross(a: Point, b: Point): number {
  return a[0] * b[1] - a[1] * b[0];
}

function dot(a: Point, b: Point): number {
  return a[0] * b[0] + a[1] * b[1];
}
