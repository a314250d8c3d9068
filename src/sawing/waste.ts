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

/** A line that is open to the blade, or a piece of one. */
interface OpenLine {
  readonly first: Point;
  readonly edges: EdgeRuns;
}

/** Open lines, with the boxes around them. */
class OpenLines {
  private readonly lines: OpenLine[] = [];
  /** Four numbers each: least x, least y, greatest x, greatest y. Flat, as all are asked for every cut. */
  private readonly boxes: number[] = [];

  /** @param edges four numbers each, x and y of either end, mm */
  add(first: Point, edges: Float64Array, { minX, minY, maxX, maxY }: Box): void {
    this.lines.push({ first, edges: new EdgeRuns(edges) });
    this.boxes.push(minX, minY, maxX, maxY);
  }

  /**
   * The shortest way from a line that is accepted and shorter than `limit`, mm; of each line only its shortest is looked at.
   */
  shortestWay(to: Point, limit: number, accepts: (way: Way) => boolean): Way | undefined {
    let least = limit;
    let shortest: Way | undefined;
    let seen = 0;
    // Farther and farther around: on a board of thousands of cuts only the few nearest are brought into their order.
    for (let from = 0, reach = FIRST_LOOK; from < least && seen < this.lines.length; reach *= FARTHER) {
      const near = this.linesAround(to, from, Math.min(reach, least));
      for (const { line, far } of near) {
        // No line in a box this far away is nearer.
        if (far >= least) break;
        const from = line.edges.nearestTo(to, line.first, least);
        const way: Way = { from, to, length: Math.hypot(from[0] - to[0], from[1] - to[1]) };
        if (way.length >= least || !accepts(way)) continue;
        shortest = way;
        least = way.length;
      }
      seen += near.length;
      from = reach;
    }
    return shortest;
  }

  /** The lines whose boxes are at least `from` and less than `until` mm away, the nearest first. */
  private linesAround([x, y]: Point, from: number, until: number): { line: OpenLine; far: number }[] {
    const { boxes, lines } = this;
    const found: { line: OpenLine; far: number }[] = [];
    for (let i = 0; i < lines.length; i++) {
      const dx = Math.max(0, boxes[4 * i] - x, x - boxes[4 * i + 2]);
      if (dx >= until) continue;
      const dy = Math.max(0, boxes[4 * i + 1] - y, y - boxes[4 * i + 3]);
      if (dy >= until) continue;
      // Distance from the point to the box; 0 inside: no line in the box can be nearer.
      const far = Math.hypot(dx, dy);
      if (far >= from && far < until) found.push({ line: lines[i], far });
    }
    return found.sort((a, b) => a.far - b.far);
  }
}

/** Length of the pieces of open lines that slanting ways begin on, mm. */
const PIECE = 10;
/** For ways longer than this, mm, shorter ones at a slant are looked for. */
const LONG = 30;
/** The longest way at a slant that is looked for, mm: from everywhere on boards of 1,800 cuts the plan takes three times as long. */
const LONGEST_SLANT = 100;

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
  /** Lines that are open to the blade: edges of the board and cuts that have been made. */
  private readonly open = new OpenLines();
  /** The same in pieces, as far as they have been asked for, and those that are still to be cut up. */
  private readonly pieces = new OpenLines();
  private readonly whole: Line[] = [];

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
    // Of an open line the edge that would close it is none.
    this.open.add(line[0], closed ? ends : ends.subarray(0, -4), boundsOf(line));
    this.whole.push(closed ? [...line, line[0]] : line);
  }

  /**
   * The shortest straight way through waste to one of these points; undefined when parts bar them all. Of each open line its
   * shortest way is looked at first; where those are barred or long, also one from every piece of the lines.
   */
  wayToAny(points: readonly Point[]): Way | undefined {
    const shortestFrom = (lines: OpenLines, longest: number, known?: Way) =>
      points.reduce<Way | undefined>((best, to) => {
        const limit = Math.min(longest, best?.length ?? longest);
        return lines.shortestWay(to, limit, (way) => this.isClear(way)) ?? best;
      }, known);
    const best = shortestFrom(this.open, Number.POSITIVE_INFINITY);
    if (best !== undefined && best.length <= LONG) return best;
    this.cutUp();
    return shortestFrom(this.pieces, LONGEST_SLANT, best);
  }

  /** The shortest way from anywhere open, through whatever lies between. */
  nearestTo(to: Point): Way | undefined {
    return this.open.shortestWay(to, Number.POSITIVE_INFINITY, () => true);
  }

  /** Puts the lines that were opened since the last time beside the others in pieces. */
  private cutUp(): void {
    for (const line of this.whole.splice(0)) {
      for (const piece of piecesOf(line)) {
        this.pieces.add(piece[0], edgeEnds([piece]).subarray(0, -4), boundsOf(piece));
      }
    }
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

/** A line in pieces of {@link PIECE} mm at most; long edges are parted, a point is none. */
function piecesOf(line: Line): Line[] {
  const pieces: Line[] = [];
  let piece: Point[] = [line[0]];
  let length = 0;
  for (let i = 1; i < line.length; i++) {
    const [from, to] = [line[i - 1], line[i]];
    const edge = Math.hypot(to[0] - from[0], to[1] - from[1]);
    const steps = Math.max(1, Math.ceil(edge / PIECE));
    for (let step = 1; step <= steps; step++) {
      if (length > 0 && length + edge / steps > PIECE) {
        pieces.push(piece);
        piece = [piece[piece.length - 1]];
        length = 0;
      }
      piece.push(step === steps ? to : pointBetween(from, to, step / steps));
      length += edge / steps;
    }
  }
  return piece.length > 1 ? [...pieces, piece] : pieces;
}
