import { UNITS_PER_MM } from './integer-grid.ts';
import { type Box, boundsOf, boxArea, type Line, type Point, type Region, type Ring } from './shapes.ts';

/**
 * Area enclosed by a ring in mm2, with a sign: positive when it runs clockwise as seen (y down).
 * Sums from the first vertex, so that a small ring far from the origin keeps its digits.
 */
export function signedArea(ring: Ring): number {
  if (ring.length < 3) return 0;
  const [ox, oy] = ring[0];
  let twice = 0;
  for (let i = 2; i < ring.length; i++) {
    const ax = ring[i - 1][0] - ox;
    const ay = ring[i - 1][1] - oy;
    twice += ax * (ring[i][1] - oy) - (ring[i][0] - ox) * ay;
  }
  return twice / 2;
}

/** Area enclosed by a simple ring in mm2, never negative. */
export function ringArea(ring: Ring): number {
  return Math.abs(signedArea(ring));
}

/** True when a simple ring is an upright box, however many points lie on its sides. */
export function isBox(ring: Ring): boolean {
  const area = boxArea(boundsOf(ring));
  return Math.abs(ringArea(ring) - area) <= 1e-9 * area;
}

/** Length of a line in mm. */
export function lineLength(line: Line): number {
  let length = 0;
  for (let i = 1; i < line.length; i++) {
    const dx = line[i][0] - line[i - 1][0];
    const dy = line[i][1] - line[i - 1][1];
    // Not Math.hypot, which guards against overflow at several times the cost.
    length += Math.sqrt(dx * dx + dy * dy);
  }
  return length;
}

/** Distance between the ends of an open line, mm. */
export function endsApart(line: Line): number {
  const [x, y] = line[line.length - 1];
  return Math.hypot(x - line[0][0], y - line[0][1]);
}

/** Length of lines together, mm. */
export function linesLength(lines: readonly Line[]): number {
  return lines.reduce((sum, line) => sum + lineLength(line), 0);
}

/** Length around a ring in mm. */
export function ringPerimeter(ring: Ring): number {
  if (ring.length < 2) return 0;
  const first = ring[0];
  const last = ring[ring.length - 1];
  return lineLength(ring) + Math.hypot(first[0] - last[0], first[1] - last[1]);
}

/** Length around rings together, mm. */
export function ringsPerimeter(rings: readonly Ring[]): number {
  return rings.reduce((sum, ring) => sum + ringPerimeter(ring), 0);
}

/** Vertices of a region, those of its openings too. */
export function verticesOf({ outline, openings }: Region): number {
  return openings.reduce((sum, { length }) => sum + length, outline.length);
}

/** Solid area of a region in mm2: outline less openings. */
export function regionArea(region: Region): number {
  return region.openings.reduce((area, opening) => area - ringArea(opening), ringArea(region.outline));
}

/** Area of regions that do not overlap, mm2. */
export function regionsArea(regions: readonly Region[]): number {
  return regions.reduce((sum, region) => sum + regionArea(region), 0);
}

/** Box around a region in mm. */
export function regionBounds(region: Region): Box {
  return boundsOf(region.outline);
}

/** The same ring running clockwise as seen (positive area), or the other way round. */
export function oriented(ring: Ring, clockwise: boolean): Ring {
  return signedArea(ring) >= 0 === clockwise ? ring : [...ring].reverse();
}

/** True when a ring holds another that does not cross it; they may touch, or be the same. Both lie on the integer grid. */
export function holdsRing(outer: Ring, inner: Ring): boolean {
  for (const point of inner) {
    const at = locateInRing(point, outer, 1 / UNITS_PER_MM);
    if (at !== 0) return at === 1;
  }
  return ringArea(inner) <= ringArea(outer);
}

/**
 * Where a point lies: 1 inside, -1 outside, 0 within `tolerance` mm of the ring itself.
 * Crossing parity (Shimrat 1962), half-open in y so that a vertex counts once.
 */
export function locateInRing([x, y]: Point, ring: Ring, tolerance = 0): -1 | 0 | 1 {
  let inside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const ax = ring[j][0];
    const ay = ring[j][1];
    const bx = ring[i][0];
    const by = ring[i][1];
    // Most sides are far above, below or beside the point: only of the others the distance is worth its root.
    const isNearY =
      (ay >= y - tolerance || by >= y - tolerance) && (ay <= y + tolerance || by <= y + tolerance);
    if (!isNearY) continue;
    const isNearX =
      (ax >= x - tolerance || bx >= x - tolerance) && (ax <= x + tolerance || bx <= x + tolerance);
    if (isNearX && distanceToSegment(x, y, ax, ay, bx, by) <= tolerance) return 0;
    // Half-open: a vertex on the height of the point belongs to the side below it only.
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
  }
  return inside ? 1 : -1;
}

/** True when the point is in the solid of the region, its edges and what lies within `tolerance` mm of them not counted. */
export function insideRegion(point: Point, region: Region, tolerance = 0): boolean {
  return (
    locateInRing(point, region.outline, tolerance) === 1 &&
    region.openings.every((opening) => locateInRing(point, opening, tolerance) === -1)
  );
}

/** Distance in mm from (x, y) to the segment from (ax, ay) to (bx, by). */
export function distanceToSegment(
  x: number,
  y: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
): number {
  const dx = bx - ax;
  const dy = by - ay;
  const squared = dx * dx + dy * dy;
  const t = squared > 0 ? Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / squared)) : 0;
  return Math.hypot(x - ax - t * dx, y - ay - t * dy);
}

/** Distance from a point to a line, or a ring if it is closed, mm. */
export function distanceToLine([x, y]: Point, line: Line, closed: boolean): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = closed ? 0 : 1; i < line.length; i++) {
    const [ax, ay] = line[(i + line.length - 1) % line.length];
    const [bx, by] = line[i];
    least = Math.min(least, distanceToSegment(x, y, ax, ay, bx, by));
  }
  return least;
}

/** Distance from a point to the nearest edge of a region, mm. */
export function distanceToEdges(point: Point, { outline, openings }: Region): number {
  // One by one: of a tracing a part may have more openings than a call takes arguments.
  return openings.reduce(
    (least, ring) => Math.min(least, distanceToLine(point, ring, true)),
    distanceToLine(point, outline, true),
  );
}

/** Leaves out points closer than `tolerance` mm to the one kept before them, the closing pair included. */
export function withoutRepeats(ring: Ring, tolerance: number): Ring {
  return withoutClosingRepeats(withoutLineRepeats(ring, tolerance), tolerance);
}

/** Leaves out points of an open line closer than `tolerance` mm to the one kept before them. */
export function withoutLineRepeats(line: Line, tolerance: number): Line {
  if (line.length === 0) return line;
  const kept: Point[] = [line[0]];
  let last = line[0];
  for (let i = 1; i < line.length; i++) {
    const point = line[i];
    if (isNear(point, last, tolerance)) continue;
    kept.push(point);
    last = point;
  }
  return kept;
}

/** Leaves out points at the end that repeat the first one, within `tolerance` mm; the line itself if none does. */
export function withoutClosingRepeats(line: Line, tolerance: number): Ring {
  let end = line.length;
  while (end > 1 && isNear(line[end - 1], line[0], tolerance)) end--;
  return end === line.length ? line : line.slice(0, end);
}

function isNear(a: Point, b: Point, tolerance: number): boolean {
  const dx = a[0] - b[0];
  const dy = a[1] - b[1];
  return dx * dx + dy * dy <= tolerance * tolerance;
}
