import { insideRegion } from '../../geometry/ring.ts';
import { type Box, boundsOf, type Point, type Region } from '../../geometry/shapes.ts';

/** Whether two solids keep a distance, told by their edges alone, without any no-fit polygon. */

/** Shortfall in mm that passes: the tolerances of search, compaction and grid together stay well below. */
export const SHORTFALL = 2e-3;

/** A region with what every comparison asks for. */
export interface Solid {
  readonly region: Region;
  readonly box: Box;
  /** Edges of all rings, four numbers each. */
  readonly edges: Float64Array;
  /** A point well inside. */
  readonly within: Point;
}

/** Where the edges that come near another shape start, of one pair after another: kept, for checks come in thousands. */
let near = new Int32Array(1024);

/** True when two solids keep a distance in mm; the second lies (dx, dy) from where it is drawn. */
export function keepApart(a: Solid, b: Solid, dx: number, dy: number, distance: number): boolean {
  const least = Math.max(0, distance - SHORTFALL);
  if (dx + b.box.minX > a.box.maxX + least || dx + b.box.maxX < a.box.minX - least) return true;
  if (dy + b.box.minY > a.box.maxY + least || dy + b.box.maxY < a.box.minY - least) return true;
  return !edgesMeet(a, b, dx, dy, least) && !oneHoldsOther(a, b, dx, dy);
}

/** True when the second solid lies inside the first, (dx, dy) from where it is drawn, a distance from all its edges. */
export function liesWithin(frame: Solid, solid: Solid, dx: number, dy: number, distance: number): boolean {
  const [x, y] = solid.within;
  const least = Math.max(0, distance - SHORTFALL);
  return insideDeeply([x + dx, y + dy], frame.region) && !edgesMeet(frame, solid, dx, dy, least);
}

/** True when two edges cross deeper than the shortfall, or come nearer than `least` mm. */
function edgesMeet(first: Solid, second: Solid, dx: number, dy: number, least: number): boolean {
  const { edges: a, box } = first;
  const { edges: b } = second;
  // Room for all of them: an edge that is left out here is an overlap that is let through.
  if (near.length < b.length / 4) near = new Int32Array(b.length / 4);
  // First the edges of the one that come near the box of the other: mostly few, and the rest is quadratic in them.
  let count = 0;
  for (let k = 0; k < b.length; k += 4) {
    if (Math.max(b[k], b[k + 2]) + dx < box.minX - least || Math.min(b[k], b[k + 2]) + dx > box.maxX + least)
      continue;
    if (Math.max(b[k + 1], b[k + 3]) + dy < box.minY - least) continue;
    if (Math.min(b[k + 1], b[k + 3]) + dy > box.maxY + least) continue;
    near[count++] = k;
  }
  const { box: other } = second;
  for (let k = 0; k < a.length; k += 4) {
    if (Math.max(a[k], a[k + 2]) < other.minX + dx - least) continue;
    if (Math.min(a[k], a[k + 2]) > other.maxX + dx + least) continue;
    if (Math.max(a[k + 1], a[k + 3]) < other.minY + dy - least) continue;
    if (Math.min(a[k + 1], a[k + 3]) > other.maxY + dy + least) continue;
    for (let n = 0; n < count; n++) {
      const e = near[n];
      const meet = segmentsMeet(
        a[k],
        a[k + 1],
        a[k + 2],
        a[k + 3],
        b[e] + dx,
        b[e + 1] + dy,
        b[e + 2] + dx,
        b[e + 3] + dy,
        least,
      );
      if (meet) return true;
    }
  }
  return false;
}

/** A region with what every comparison asks for: done once, for a check may compare it with hundreds of others. */
export function solidOf(region: Region): Solid {
  const rings = [region.outline, ...region.openings];
  const edges = new Float64Array(4 * rings.reduce((sum, ring) => sum + ring.length, 0));
  let at = 0;
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i++, at += 4) {
      const end = ring[i + 1 < ring.length ? i + 1 : 0];
      edges[at] = ring[i][0];
      edges[at + 1] = ring[i][1];
      edges[at + 2] = end[0];
      edges[at + 3] = end[1];
    }
  }
  return { region, box: boundsOf(region.outline), edges, within: pointWithin(region) };
}

/**
 * True when a point well inside one shape is well inside the other: shapes on top of each other may have no edges
 * that cross.
 */
function oneHoldsOther(a: Solid, b: Solid, dx: number, dy: number): boolean {
  const [bx, by] = b.within;
  const [ax, ay] = a.within;
  return insideDeeply([bx + dx, by + dy], a.region) || insideDeeply([ax - dx, ay - dy], b.region);
}

/** A point of the solid: the middle of the widest piece that a level line cuts out of it. */
function pointWithin({ outline, openings }: Region): Point {
  const levels = [...new Set(outline.map(([, y]) => y))].sort((a, b) => a - b);
  const at = Math.floor((levels.length - 1) / 2);
  const y = (levels[at] + (levels[at + 1] ?? levels[at])) / 2;
  const crossings: number[] = [];
  for (const ring of [outline, ...openings]) {
    for (const [i, [ax, ay]] of ring.entries()) {
      const [bx, by] = ring[(i + 1) % ring.length];
      if (ay > y !== by > y) crossings.push(ax + ((bx - ax) * (y - ay)) / (by - ay));
    }
  }
  crossings.sort((a, b) => a - b);
  let widest = 0;
  for (let k = 2; k + 1 < crossings.length; k += 2) {
    if (crossings[k + 1] - crossings[k] > crossings[widest + 1] - crossings[widest]) widest = k;
  }
  return [(crossings[widest] + crossings[widest + 1]) / 2, y];
}

/** Inside, and not within the shortfall of the boundary: four points around it are inside too. */
function insideDeeply([x, y]: Point, region: Region): boolean {
  return (
    insideRegion([x - SHORTFALL, y], region) &&
    insideRegion([x + SHORTFALL, y], region) &&
    insideRegion([x, y - SHORTFALL], region) &&
    insideRegion([x, y + SHORTFALL], region)
  );
}

/** True when two segments cross and every end lies farther than the shortfall from the other's line. */
function crossDeeply(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
): boolean {
  if (Math.max(ax, bx) < Math.min(cx, dx) || Math.max(cx, dx) < Math.min(ax, bx)) return false;
  if (Math.max(ay, by) < Math.min(cy, dy) || Math.max(cy, dy) < Math.min(ay, by)) return false;
  const ab = SHORTFALL * Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay));
  const cd = SHORTFALL * Math.sqrt((dx - cx) * (dx - cx) + (dy - cy) * (dy - cy));
  const c = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
  const d = (bx - ax) * (dy - ay) - (by - ay) * (dx - ax);
  if (!((c > ab && d < -ab) || (c < -ab && d > ab))) return false;
  const a = (dx - cx) * (ay - cy) - (dy - cy) * (ax - cx);
  const b = (dx - cx) * (by - cy) - (dy - cy) * (bx - cx);
  return (a > cd && b < -cd) || (a < -cd && b > cd);
}

/** True when two segments cross deeper than the shortfall, or come nearer than `least` mm. */
function segmentsMeet(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
  least: number,
): boolean {
  if (Math.max(ax, bx) + least < Math.min(cx, dx) || Math.max(cx, dx) + least < Math.min(ax, bx))
    return false;
  if (Math.max(ay, by) + least < Math.min(cy, dy) || Math.max(cy, dy) + least < Math.min(ay, by))
    return false;
  if (crossDeeply(ax, ay, bx, by, cx, cy, dx, dy)) return true;
  if (least === 0) return false;
  const limit = least * least;
  return (
    squaredToSegment(ax, ay, cx, cy, dx, dy) < limit ||
    squaredToSegment(bx, by, cx, cy, dx, dy) < limit ||
    squaredToSegment(cx, cy, ax, ay, bx, by) < limit ||
    squaredToSegment(dx, dy, ax, ay, bx, by) < limit
  );
}

function squaredToSegment(x: number, y: number, ax: number, ay: number, bx: number, by: number): number {
  const ux = bx - ax;
  const uy = by - ay;
  const length = ux * ux + uy * uy;
  const t = length > 0 ? Math.min(1, Math.max(0, ((x - ax) * ux + (y - ay) * uy) / length)) : 0;
  const qx = x - ax - t * ux;
  const qy = y - ay - t * uy;
  return qx * qx + qy * qy;
}
