import { applyToRegion } from '../geometry/affine.ts';
import { insideRegion } from '../geometry/ring.ts';
import type { Point, Region } from '../geometry/shapes.ts';
import type { Arrangement } from './arrangement.ts';
import { turn } from './pair-table.ts';
import type { NestingProblem } from './problem.ts';

/**
 * The exact acceptance test: distances between the outlines themselves, edge by edge, without any no-fit polygon. A
 * layout is only ever handed on when it passes.
 */

/** Shortfall in mm that passes: the tolerances of search, compaction and grid together stay well below. */
const SHORTFALL = 2e-3;

/** See the top of the file. Oriented outlines are kept, so that a check costs about a millisecond. */
export class ExactCheck {
  private readonly problem: NestingProblem;
  private readonly regions: (Region | undefined)[];
  private readonly edges: (Float64Array | undefined)[];
  private readonly within: (Point | undefined)[];
  private readonly near = new Int32Array(4096);

  constructor(problem: NestingProblem) {
    this.problem = problem;
    this.regions = new Array<Region | undefined>(problem.orientations.length);
    this.edges = new Array<Float64Array | undefined>(problem.orientations.length);
    this.within = new Array<Point | undefined>(problem.orientations.length);
  }

  /** True when every two copies in one container keep the gap. */
  passes(arrangement: Arrangement): boolean {
    for (let i = 0; i < arrangement.count; i++) {
      if (arrangement.container[i] < 0) continue;
      for (let j = 0; j < i; j++) {
        if (arrangement.container[j] === arrangement.container[i] && !this.pairPasses(arrangement, i, j))
          return false;
      }
    }
    return true;
  }

  private pairPasses(arrangement: Arrangement, i: number, j: number): boolean {
    const { orientations, gap } = this.problem;
    const a = orientations[arrangement.orientation[i]].box;
    const b = orientations[arrangement.orientation[j]].box;
    const dx = arrangement.x[j] - arrangement.x[i];
    const dy = arrangement.y[j] - arrangement.y[i];
    const least = Math.max(0, gap - SHORTFALL);
    if (dx + b.minX > a.maxX + least || dx + b.maxX < a.minX - least) return true;
    if (dy + b.minY > a.maxY + least || dy + b.maxY < a.minY - least) return true;
    if (this.edgesMeet(arrangement.orientation[i], arrangement.orientation[j], dx, dy, least)) return false;
    return !this.oneHoldsOther(arrangement.orientation[i], arrangement.orientation[j], dx, dy);
  }

  /** True when two edges cross deeper than the shortfall, or come nearer than `least` mm. */
  private edgesMeet(i: number, j: number, dx: number, dy: number, least: number): boolean {
    const a = this.edgesOf(i);
    const b = this.edgesOf(j);
    const { near } = this;
    const { box } = this.problem.orientations[i];
    let count = 0;
    for (let k = 0; k < b.length && count < near.length; k += 4) {
      if (
        Math.max(b[k], b[k + 2]) + dx < box.minX - least ||
        Math.min(b[k], b[k + 2]) + dx > box.maxX + least
      )
        continue;
      if (Math.max(b[k + 1], b[k + 3]) + dy < box.minY - least) continue;
      if (Math.min(b[k + 1], b[k + 3]) + dy > box.maxY + least) continue;
      near[count++] = k;
    }
    for (let k = 0; k < a.length; k += 4) {
      for (let n = 0; n < count; n++) {
        const e = near[n];
        const tooNear =
          least > 0
            ? segmentsNearer(
                a[k],
                a[k + 1],
                a[k + 2],
                a[k + 3],
                b[e] + dx,
                b[e + 1] + dy,
                b[e + 2] + dx,
                b[e + 3] + dy,
                least,
              )
            : crossDeeply(
                a[k],
                a[k + 1],
                a[k + 2],
                a[k + 3],
                b[e] + dx,
                b[e + 1] + dy,
                b[e + 2] + dx,
                b[e + 3] + dy,
              );
        if (tooNear) return true;
      }
    }
    return false;
  }

  /**
   * True when a point well inside one shape is well inside the other: shapes on top of each other may have no edges
   * that cross.
   */
  private oneHoldsOther(i: number, j: number, dx: number, dy: number): boolean {
    const a = this.regionOf(i);
    const b = this.regionOf(j);
    const [bx, by] = this.withinOf(j);
    const [ax, ay] = this.withinOf(i);
    return insideDeeply([bx + dx, by + dy], a) || insideDeeply([ax - dx, ay - dy], b);
  }

  private regionOf(orientation: number): Region {
    let region = this.regions[orientation];
    if (region === undefined) {
      const { degrees, turnedOver, shape } = this.problem.orientations[orientation];
      region = applyToRegion(turn(degrees, turnedOver), this.problem.shapes[shape].region);
      this.regions[orientation] = region;
    }
    return region;
  }

  private withinOf(orientation: number): Point {
    let point = this.within[orientation];
    if (point === undefined) {
      point = pointWithin(this.regionOf(orientation));
      this.within[orientation] = point;
    }
    return point;
  }

  private edgesOf(orientation: number): Float64Array {
    let edges = this.edges[orientation];
    if (edges === undefined) {
      const { outline, openings } = this.regionOf(orientation);
      edges = Float64Array.from(
        [outline, ...openings].flatMap((ring) =>
          ring.flatMap((point, i) => [...point, ...ring[(i + 1) % ring.length]]),
        ),
      );
      this.edges[orientation] = edges;
    }
    return edges;
  }
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

/** True when two segments cross or come nearer than `least`. */
function segmentsNearer(
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
