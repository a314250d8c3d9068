import { anyInTheWay } from '../geometry/any-in-the-way.ts';
import { edgeEnds } from '../geometry/edge-ends.ts';
import {
  type Box,
  boundsOf,
  boxesMeet,
  type Line,
  type Point,
  pointBetween,
  type Region,
} from '../geometry/shapes.ts';
import { EdgeRuns } from './edge-runs.ts';

/**
 * How much of a way at either end may lie in a part, mm: the blade has a width, and a vein is taken to touch the
 * outline when it ends that near to it.
 */
const AT_THE_ENDS = 0.35;
/** A way this near to the line of a part runs along it, mm. */
const ON_EDGE = 0.05;

/** How far around a place open lines are looked for first, mm, and how many times farther each time none is found. */
const FIRST_LOOK = 20;
const FARTHER = 4;

/** A part, with what is looked up of it again and again. */
interface Bar {
  readonly box: Box;
  readonly edges: EdgeRuns;
}

/** A line that is open to the blade. */
interface OpenLine {
  readonly first: Point;
  readonly edges: EdgeRuns;
}

/** The waste around these parts, nothing open to the blade yet. */
export function wasteAround(regions: readonly Region[]): Waste {
  return new Waste(
    regions.map(({ outline, openings }) => ({
      box: boundsOf(outline),
      edges: new EdgeRuns(edgeEnds([outline, ...openings])),
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
  private readonly parts: Bar[];
  /** Lines that are open to the blade: edges of the board and cuts that have been made, in the order they came. */
  private readonly open: OpenLine[] = [];
  /** Their boxes, four numbers each: least x, least y, greatest x, greatest y. Flat, as all are asked for every cut. */
  private readonly boxes: number[] = [];

  constructor(parts: Bar[]) {
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
    const ends = edgeEnds([line]);
    const { minX, minY, maxX, maxY } = boundsOf(line);
    // Of an open line the edge that would close it is none.
    this.open.push({ first: line[0], edges: new EdgeRuns(closed ? ends : ends.subarray(0, -4)) });
    this.boxes.push(minX, minY, maxX, maxY);
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
    let seen = 0;
    // Farther and farther around: on a board of thousands of cuts only the few nearest are brought into their order.
    for (let from = 0, reach = FIRST_LOOK; from < limit && seen < this.open.length; reach *= FARTHER) {
      const near = this.linesAround(to, from, Math.min(reach, limit));
      for (const { line, far } of near) {
        // No line in a box this far away is nearer.
        if (far >= limit) break;
        const from = line.edges.nearestTo(to, line.first, limit);
        const way: Way = { from, to, length: Math.hypot(from[0] - to[0], from[1] - to[1]) };
        if (way.length >= limit || !accepts(way)) continue;
        shortest = way;
        limit = way.length;
      }
      seen += near.length;
      from = reach;
    }
    return shortest;
  }

  /** The open lines whose boxes are at least `from` and less than `until` mm away, the nearest first. */
  private linesAround([x, y]: Point, from: number, until: number): { line: OpenLine; far: number }[] {
    const { boxes, open } = this;
    const found: { line: OpenLine; far: number }[] = [];
    for (let i = 0; i < open.length; i++) {
      const dx = Math.max(0, boxes[4 * i] - x, x - boxes[4 * i + 2]);
      if (dx >= until) continue;
      const dy = Math.max(0, boxes[4 * i + 1] - y, y - boxes[4 * i + 3]);
      if (dy >= until) continue;
      // Distance from the point to the box; 0 inside: no line in the box can be nearer.
      const far = Math.hypot(dx, dy);
      if (far >= from && far < until) found.push({ line: open[i], far });
    }
    return found.sort((a, b) => a.far - b.far);
  }

  /** True when no part lies on the way. */
  private isClear({ from, to, length }: Way): boolean {
    // Within reach of the blade's own width: nothing lies between that it would not touch anyway.
    if (length <= 2 * AT_THE_ENDS) return true;
    const end = AT_THE_ENDS / length;
    const [a, b] = [pointBetween(from, to, end), pointBetween(from, to, 1 - end)];
    const box = boundsOf([a, b]);
    return !anyInTheWay(this.parts, (part) => boxesMeet(part.box, box) && liesOn(part, a, b));
  }
}

/**
 * True when a way lies on a part somewhere. Where it meets the part's edges it goes from waste to wood or back, or
 * only touches a corner: so the middle of each stretch between two meetings tells. Asking for proper crossings
 * alone would miss a way that goes in and out exactly through corners.
 */
function liesOn({ edges }: Bar, a: Point, b: Point): boolean {
  const meetings = [0, 1, ...edges.meetings(a, b)].sort((one, two) => one - two);
  return meetings.slice(1).some((to, i) => {
    const from = meetings[i];
    if (to - from < 1e-9) return false;
    const middle = (from + to) / 2;
    // Along its edges too: a way on a line of the part would be sawn half out of it.
    return edges.holds(pointBetween(a, b, middle), ON_EDGE);
  });
}
