import type { Line, Point, Ring } from '../geometry/shapes.ts';
import { tooTangled } from './tangle.ts';

/** An open line with what it came from. */
export interface SourcedLine<Source> {
  readonly line: Line;
  readonly source: Source;
}

/** A chain that closes. */
export interface JoinedRing<Source> {
  readonly ring: Ring;
  /** Where one line ends and the next begins, or the first again. */
  readonly joins: readonly Point[];
  readonly lines: readonly SourcedLine<Source>[];
}

/** Lines joined end to end: rings where a chain closes, the untouched rest where it does not. */
export interface Joined<Source> {
  readonly rings: readonly JoinedRing<Source>[];
  readonly rest: readonly SourcedLine<Source>[];
}

/** Lines walked again and again at most, as a multiple of their number: beyond that open chains are given up whole. */
const MOST_WALKS = 50;

/** Crossings of a chain with itself beyond which it is no outline: ends of a hatching that chance to lie near one another. */
const MOST_CROSSINGS = 2000;

/**
 * Joins open lines end to end where two ends are at most `gap` mm apart, nearest first, and keeps those chains
 * that close. A chain that stays open is taken apart again: its lines may be veins, and where it branches another
 * of them may start a chain that closes. So is one that crosses itself thousands of times.
 *
 * @param isWanted whether a chain that closes is taken for a ring; one that is not is as one that stays open
 * @param side where several ends are as near, 1 or -1 takes the line that turns off most to one side or the other: so a chain
 *   goes around one of several outlines that touch, and not around two. 0 takes the first drawn.
 */
export function joinLines<Source>(
  lines: readonly SourcedLine<Source>[],
  gap: number,
  isWanted: (made: JoinedRing<Source>) => boolean = () => true,
  side: -1 | 0 | 1 = 0,
): Joined<Source> {
  const ends = new EndIndex(lines, gap);
  const rings: JoinedRing<Source>[] = [];
  const rest: SourcedLine<Source>[] = [];
  let walks = 0;
  for (const first of lines) {
    if (!ends.take(first)) continue;
    const { closed, members, points, joins } = chainFrom(first, ends, gap, side);
    walks += members.length;
    const ring = points.slice(0, -1);
    const made = { ring, joins, lines: members };
    const isTangled = closed && tooTangled([ring], MOST_CROSSINGS);
    if (closed && !isTangled && isWanted(made)) {
      rings.push(made);
      // Without a branch, no other line of the chain could close it either, so none of them is walked again.
    } else if (
      isTangled ||
      walks > MOST_WALKS * lines.length ||
      !members.some((member) => ends.branchesAt(member))
    ) {
      for (const member of members) rest.push(member);
    } else {
      for (const member of members.slice(1)) ends.giveBack(member);
      rest.push(first);
    }
  }
  return { rings, rest };
}

/** Follows the nearest free ends from the end of `first` until the chain closes or finds no next line. */
function chainFrom<Source>(
  first: SourcedLine<Source>,
  ends: EndIndex<Source>,
  gap: number,
  side: -1 | 0 | 1,
) {
  const members = [first];
  const points: Point[] = [...first.line];
  const joins: Point[] = [];
  for (;;) {
    const end = points[points.length - 1];
    joins.push(end);
    // More than three points: a single short line has both its ends within the gap and encloses nothing.
    if (points.length > 3 && apart(points[0], end) <= gap) return { closed: true, members, points, joins };
    const next = ends.nearest(end, points[points.length - 2], side);
    if (next === undefined) return { closed: false, members, points, joins };
    ends.take(next);
    members.push(next);
    const { line } = next;
    const startsHere = apart(end, line[0]) <= apart(end, line[line.length - 1]);
    // The first point of the next line is left out: it lies within the gap of the end that is there already.
    if (startsHere) for (let i = 1; i < line.length; i++) points.push(line[i]);
    else for (let i = line.length - 2; i >= 0; i--) points.push(line[i]);
  }
}

/** Both ends of every line that is still free, in square cells of the gap's size, so that a look-up is local. */
class EndIndex<Source> {
  private readonly cells = new Map<string, Set<SourcedLine<Source>>>();
  private readonly free: Set<SourcedLine<Source>>;
  private readonly gap: number;
  private readonly cellSize: number;

  constructor(lines: readonly SourcedLine<Source>[], gap: number) {
    this.free = new Set(lines);
    this.gap = gap;
    // Not smaller than a micrometre: a gap of 0 joins ends that are the same point.
    this.cellSize = Math.max(gap, 1e-3);
    for (const member of lines) {
      for (const end of [member.line[0], member.line[member.line.length - 1]]) {
        const key = this.key(end, 0, 0);
        const cell = this.cells.get(key) ?? new Set();
        this.cells.set(key, cell.add(member));
      }
    }
  }

  take(member: SourcedLine<Source>): boolean {
    return this.free.delete(member);
  }

  giveBack(member: SourcedLine<Source>): void {
    this.free.add(member);
  }

  /**
   * The free line with an end nearest to the point and within the gap; of two as near the first met, or, for a side of 1 or
   * -1, the one that turns off farther to that side of the way from `before`.
   */
  nearest(end: Point, before: Point, side: -1 | 0 | 1): SourcedLine<Source> | undefined {
    let best: SourcedLine<Source> | undefined;
    let bestDistance = this.gap;
    let bestTurn = 0;
    for (let i = -1; i <= 1; i++) {
      for (let j = -1; j <= 1; j++) {
        for (const member of this.cells.get(this.key(end, i, j)) ?? []) {
          if (!this.free.has(member)) continue;
          const { line } = member;
          const distance = Math.min(apart(end, line[0]), apart(end, line[line.length - 1]));
          const turn = side === 0 || distance > bestDistance ? 0 : side * turnInto(line, end, before);
          const isBetter = best === undefined || turn > bestTurn;
          if (distance < bestDistance || (distance === bestDistance && isBetter)) {
            best = member;
            bestDistance = distance;
            bestTurn = turn;
          }
        }
      }
    }
    return best;
  }

  /** True when three ends or more meet at an end of the line, taken ones counted: a chain may go on two ways there. */
  branchesAt({ line }: SourcedLine<Source>): boolean {
    return [line[0], line[line.length - 1]].some((end) => this.isCrowded(end));
  }

  private isCrowded(end: Point): boolean {
    let count = 0;
    for (let i = -1; i <= 1; i++) {
      for (let j = -1; j <= 1; j++) {
        for (const { line } of this.cells.get(this.key(end, i, j)) ?? []) {
          // A line is listed in the cell of each of its ends; here only the end in this very cell counts.
          for (const other of [line[0], line[line.length - 1]])
            if (this.key(other, 0, 0) === this.key(end, i, j) && apart(end, other) <= this.gap) count++;
          if (count > 2) return true;
        }
      }
    }
    return false;
  }

  private key([x, y]: Point, i: number, j: number): string {
    return `${Math.floor(x / this.cellSize) + i},${Math.floor(y / this.cellSize) + j}`;
  }
}

/** How far a line turns off from the way that leads to an end of it, radians from -pi to pi. */
function turnInto(line: Line, [x, y]: Point, before: Point): number {
  const startsHere = apart([x, y], line[0]) <= apart([x, y], line[line.length - 1]);
  const [from, to] = startsHere ? [line[0], line[1]] : [line[line.length - 1], line[line.length - 2]];
  const [ux, uy] = [x - before[0], y - before[1]];
  const [vx, vy] = [to[0] - from[0], to[1] - from[1]];
  return Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
}

function apart(a: Point, b: Point): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}
