import { distanceToSegment, locateInRing } from '../geometry/ring.ts';
import {
  type Box,
  boundsOf,
  boxesMeet,
  type Line,
  type Point,
  type Region,
  type Ring,
} from '../geometry/shapes.ts';

/**
 * How much of a way at either end may lie in a part, mm: the blade has a width, and a vein is taken to touch the
 * outline when it ends that near to it.
 */
const AT_THE_ENDS = 0.35;
/** A way this near to the line of a part runs along it, mm. */
const ON_EDGE = 0.05;

/** A line that is open to the blade: an edge of the board, or a cut that has been made. */
interface OpenLine {
  readonly line: Line;
  readonly box: Box;
}

/** A part, with what is looked up of it again and again. */
interface Bar {
  readonly region: Region;
  readonly box: Box;
  readonly edges: readonly Edge[];
}

/** The waste around these parts, nothing open to the blade yet. */
export function wasteAround(regions: readonly Region[]): Waste {
  return new Waste(
    regions.map((region) => ({
      region,
      box: boundsOf(region.outline),
      edges: [region.outline, ...region.openings].flatMap(edgesOf),
    })),
  );
}

/** A straight way through waste. */
export interface Way {
  readonly from: Point;
  readonly to: Point;
  readonly length: number;
}

/**
 * The waste of a board while it is sawn: the lines open to the blade, and the parts that no way may cross.
 *
 * Only straight ways are looked for. A way that winds between parts would need the free space as a graph, and a person at
 * the saw sees it at once: where no straight way is clear, the plan says so and counts the straight distance.
 */
export class Waste {
  private readonly parts: readonly Bar[];
  private readonly open: OpenLine[] = [];

  constructor(parts: readonly Bar[]) {
    this.parts = parts;
  }

  /** The same parts with nothing open to the blade but a hole. */
  withHole(at: Point): Waste {
    const holed = new Waste(this.parts);
    holed.openLine([at]);
    return holed;
  }

  /** Lets the blade start from anywhere on a line from now on. */
  openLine(line: Line, closed = false): void {
    const whole = closed ? [...line, line[0]] : line;
    this.open.push({ line: whole, box: boundsOf(whole) });
  }

  /** The shortest straight way through waste to one of these points; undefined when parts bar them all. */
  wayToAny(points: readonly Point[]): Way | undefined {
    let best: Way | undefined;
    for (const to of points) best = this.shorterWay(to, best, (way) => this.isClear(way)) ?? best;
    return best;
  }

  /** The shortest way from anywhere open, through whatever lies between. */
  nearestTo(to: Point): Way | undefined {
    return this.shorterWay(to, undefined, () => true);
  }

  /**
   * The shortest way from an open line that is accepted and shorter than the best so far; of each line only its shortest is
   * looked at. A longer way from the same line may be clear where this one is barred; that is given up for, since lines lie
   * all round and one of them is mostly open.
   */
  private shorterWay(to: Point, best: Way | undefined, accepts: (way: Way) => boolean): Way | undefined {
    let limit = best?.length ?? Number.POSITIVE_INFINITY;
    let shortest: Way | undefined;
    const near = this.open
      .map(({ line, box }) => ({ line, far: farFromBox(to, box) }))
      .filter(({ far }) => far < limit)
      .sort((a, b) => a.far - b.far);
    for (const { line, far } of near) {
      // No line in a box this far away is nearer.
      if (far >= limit) break;
      const from = nearestOn(line, to);
      const way: Way = { from, to, length: Math.hypot(from[0] - to[0], from[1] - to[1]) };
      if (way.length >= limit || !accepts(way)) continue;
      shortest = way;
      limit = way.length;
    }
    return shortest;
  }

  /** True when no part lies on the way. */
  private isClear({ from, to, length }: Way): boolean {
    // Within reach of the blade's own width: nothing lies between that it would not touch anyway.
    if (length <= 2 * AT_THE_ENDS) return true;
    const at = (t: number): Point => [from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])];
    const end = AT_THE_ENDS / length;
    const [a, b] = [at(end), at(1 - end)];
    const box = boundsOf([a, b]);
    return !this.parts.some((part) => boxesMeet(part.box, box) && liesOn(part, a, b));
  }
}

/** True in a part and along its edges: a way on a line of the part would be sawn half out of it. */
function isOnWood(point: Point, { outline, openings }: Region): boolean {
  return (
    locateInRing(point, outline, ON_EDGE) !== -1 &&
    openings.every((opening) => locateInRing(point, opening, ON_EDGE) !== 1)
  );
}

type Edge = readonly [Point, Point];

function edgesOf(ring: Ring): Edge[] {
  return ring.map((point, i): Edge => [point, ring[(i + 1) % ring.length]]);
}

/**
 * True when a way lies on a part somewhere. Where it meets the part's edges it goes from waste to wood or back, or
 * only touches a corner: so the middle of each stretch between two meetings tells. Asking for proper crossings
 * alone would miss a way that goes in and out exactly through corners.
 */
function liesOn({ edges, region }: Bar, a: Point, b: Point): boolean {
  const meetings = [0, 1];
  for (const [c, d] of edges) {
    const share = meetingOf(a, b, c, d);
    if (share !== undefined) meetings.push(share);
  }
  meetings.sort((one, two) => one - two);
  return meetings.slice(1).some((to, i) => {
    const from = meetings[i];
    if (to - from < 1e-9) return false;
    const middle = (from + to) / 2;
    return isOnWood([a[0] + middle * (b[0] - a[0]), a[1] + middle * (b[1] - a[1])], region);
  });
}

/** Where the segment from a to b meets that from c to d, its ends too, as a share of the first; undefined when not. */
function meetingOf(a: Point, b: Point, c: Point, d: Point): number | undefined {
  const [towards, onto] = [side(a, b, c), side(a, b, d)];
  // Both 0: they lie along each other, and the edges beside this one tell where the way leaves it.
  if (towards * onto > 0 || towards === onto) return undefined;
  const [from, to] = [side(c, d, a), side(c, d, b)];
  return from * to > 0 || from === to ? undefined : from / (from - to);
}

/** On which side of the way from p to q the point r lies: twice the area of their triangle, mm2, with its sign. */
function side(p: Point, q: Point, r: Point): number {
  return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
}

/** The point of a line that is nearest to another point. */
function nearestOn(line: Line, [x, y]: Point): Point {
  let nearest = line[0];
  let least = Math.hypot(nearest[0] - x, nearest[1] - y);
  for (let i = 0; i + 1 < line.length; i++) {
    const [ax, ay] = line[i];
    const [bx, by] = line[i + 1];
    const distance = distanceToSegment(x, y, ax, ay, bx, by);
    if (distance >= least) continue;
    least = distance;
    const [dx, dy] = [bx - ax, by - ay];
    const t = Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
    nearest = [ax + t * dx, ay + t * dy];
  }
  return nearest;
}

/** Distance from a point to a box, mm; 0 inside: no line in the box can be nearer. */
function farFromBox([x, y]: Point, { minX, minY, maxX, maxY }: Box): number {
  return Math.hypot(Math.max(0, minX - x, x - maxX), Math.max(0, minY - y, y - maxY));
}
