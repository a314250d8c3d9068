import { applyToRegion } from '../../geometry/affine.ts';
import { insideRegion } from '../../geometry/ring.ts';
import { type Box, boundsOf, type Point, type Region } from '../../geometry/shapes.ts';
import type { Hazard } from '../problem/container.ts';
import { turn } from '../problem/orientations.ts';
import type { NestingProblem } from '../problem/problem.ts';
import { Arrangement } from './arrangement.ts';

/**
 * The exact acceptance test: distances between the outlines themselves, edge by edge, without any no-fit polygon. A
 * layout is only ever handed on when it passes.
 */

/** Shortfall in mm that passes: the tolerances of search, compaction and grid together stay well below. */
const SHORTFALL = 2e-3;

/** A shape as it is turned, around its reference point. */
interface Turned {
  readonly region: Region;
  readonly box: Box;
  /** Edges of all rings, four numbers each. */
  readonly edges: Float64Array;
  /** A point well inside. */
  readonly within: Point;
}

/**
 * See the top of the file. Oriented outlines are kept, and what has not moved since the last arrangement that passed is
 * not compared again, so that a check of hundreds of copies costs about a millisecond.
 */
export class ExactCheck {
  private readonly problem: NestingProblem;
  private readonly listed: (Turned | undefined)[];
  /** Where the edges that come near another shape start, of one pair after another. */
  private near = new Int32Array(1024);
  private readonly walls = new Map<Hazard, Turned>();
  /** Copies that may not turn are where their fields let them be: defects and outlines need no second look. */
  private readonly turns: boolean;
  /** The last arrangement that passed: copies that both lie as they do there have been compared. */
  private readonly passed: Arrangement;

  constructor(problem: NestingProblem) {
    this.problem = problem;
    this.passed = new Arrangement(problem.shapeOf.length);
    this.turns = problem.orientations.some(({ twist: [least, most] }) => most > least);
    this.listed = new Array<Turned | undefined>(problem.orientations.length);
  }

  /** True when every two copies in one container keep the gap and all lie inside; where copies turn, off the defects as well. */
  passes(arrangement: Arrangement): boolean {
    const all = Array.from(arrangement.container, (k, i) =>
      k < 0 ? undefined : this.turned(arrangement, i),
    );
    const still = all.map((_, i) => liesAlike(arrangement, this.passed, i));
    for (const [i, a] of all.entries()) {
      if (a === undefined) continue;
      for (let j = 0; j < i; j++) {
        const b = all[j];
        if (b === undefined || arrangement.container[j] !== arrangement.container[i]) continue;
        if (still[i] && still[j]) continue;
        const dx = arrangement.x[j] - arrangement.x[i];
        const dy = arrangement.y[j] - arrangement.y[i];
        if (!this.keepApart(a, b, dx, dy, this.problem.gap)) return false;
      }
      if (!still[i] && !this.keepsInside(arrangement, i, a)) return false;
    }
    this.passed.copyFrom(arrangement);
    return true;
  }

  /** True when two solids keep a distance; the second lies (dx, dy) from the first. */
  private keepApart(a: Turned, b: Turned, dx: number, dy: number, distance: number): boolean {
    const least = Math.max(0, distance - SHORTFALL);
    if (dx + b.box.minX > a.box.maxX + least || dx + b.box.maxX < a.box.minX - least) return true;
    if (dy + b.box.minY > a.box.maxY + least || dy + b.box.maxY < a.box.minY - least) return true;
    return !this.edgesMeet(a, b, dx, dy, least) && !oneHoldsOther(a, b, dx, dy);
  }

  /** True when a copy lies in its container, off the margin and off the hazards there. */
  private keepsInside({ container, orientation, x, y }: Arrangement, i: number, turned: Turned): boolean {
    const { containers, margin, orientations } = this.problem;
    const { onEdge } = orientations[orientation[i]];
    const { box, hazards } = containers[container[i]];
    const inset = margin - SHORTFALL;
    if (x[i] + turned.box.minX < box.minX + inset || x[i] + turned.box.maxX > box.maxX - inset) return false;
    // Parts with a rest edge stand on the edge of the board.
    const below = onEdge ? -SHORTFALL : inset;
    if (y[i] + turned.box.minY < box.minY + inset || y[i] + turned.box.maxY > box.maxY - below) return false;
    // They never turn.
    if (onEdge || !this.turns) return true;
    return hazards.every((hazard) => {
      const { region, frame, distance = margin } = hazard;
      const wall = this.walls.get(hazard) ?? withEdges(region);
      this.walls.set(hazard, wall);
      if (!frame) return this.keepApart(wall, turned, x[i], y[i], distance);
      const [px, py] = turned.within;
      const least = Math.max(0, distance - SHORTFALL);
      return insideDeeply([px + x[i], py + y[i]], region) && !this.edgesMeet(wall, turned, x[i], y[i], least);
    });
  }

  /** True when two edges cross deeper than the shortfall, or come nearer than `least` mm. */
  private edgesMeet(first: Turned, second: Turned, dx: number, dy: number, least: number): boolean {
    const { edges: a, box } = first;
    const { edges: b } = second;
    // Room for all of them: an edge that is left out here is an overlap that is let through.
    if (this.near.length < b.length / 4) this.near = new Int32Array(b.length / 4);
    const { near } = this;
    // First the edges of the one that come near the box of the other: mostly few, and the rest is quadratic in them.
    let count = 0;
    for (let k = 0; k < b.length; k += 4) {
      if (
        Math.max(b[k], b[k + 2]) + dx < box.minX - least ||
        Math.min(b[k], b[k + 2]) + dx > box.maxX + least
      )
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

  /** The outline of a copy as it is turned. */
  private turned({ orientation, twist }: Arrangement, i: number): Turned {
    const { degrees, turnedOver, shape } = this.problem.orientations[orientation[i]];
    const turnedBy = (more: number) =>
      withEdges(applyToRegion(turn(degrees + more, turnedOver), this.problem.shapes[shape].region));
    if (twist[i] !== 0) return turnedBy(twist[i]);
    const known = this.listed[orientation[i]] ?? turnedBy(0);
    this.listed[orientation[i]] = known;
    return known;
  }
}

/** True when a copy lies to the last bit as it does in another arrangement. */
function liesAlike(a: Arrangement, b: Arrangement, i: number): boolean {
  if (a.container[i] !== b.container[i] || a.orientation[i] !== b.orientation[i]) return false;
  return a.x[i] === b.x[i] && a.y[i] === b.y[i] && a.twist[i] === b.twist[i];
}

/** A region with what every comparison asks for: done once, for a check may compare it with hundreds of others. */
function withEdges(region: Region): Turned {
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
function oneHoldsOther(a: Turned, b: Turned, dx: number, dy: number): boolean {
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
