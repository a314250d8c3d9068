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
 */
export function joinLines<Source>(lines: readonly SourcedLine<Source>[], gap: number): Joined<Source> {
  const ends = new EndIndex(lines, gap);
  const rings: JoinedRing<Source>[] = [];
  const rest: SourcedLine<Source>[] = [];
  let walks = 0;
  for (const first of lines) {
    if (!ends.take(first)) continue;
    const { closed, members, points, joins } = chainFrom(first, ends, gap);
    walks += members.length;
    const ring = points.slice(0, -1);
    if (closed && !tooTangled([ring], MOST_CROSSINGS)) {
      rings.push({ ring, joins, lines: members });
      // Without a branch, no other line of the chain could close it either, so none of them is walked again.
    } else if (
      closed ||
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
function chainFrom<Source>(first: SourcedLine<Source>, ends: EndIndex<Source>, gap: number) {
  const members = [first];
  const points: Point[] = [...first.line];
  const joins: Point[] = [];
  for (;;) {
    const end = points[points.length - 1];
    joins.push(end);
    // More than three points: a single short line has both its ends within the gap and encloses nothing.
    if (points.length > 3 && apart(points[0], end) <= gap) return { closed: true, members, points, joins };
    const next = ends.nearest(end);
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

  /** The free line with an end nearest to the point and within the gap; of two as near the first met. */
  nearest(end: Point): SourcedLine<Source> | undefined {
    let best: SourcedLine<Source> | undefined;
    let bestDistance = this.gap;
    for (let i = -1; i <= 1; i++) {
      for (let j = -1; j <= 1; j++) {
        for (const member of this.cells.get(this.key(end, i, j)) ?? []) {
          if (!this.free.has(member)) continue;
          const { line } = member;
          const distance = Math.min(apart(end, line[0]), apart(end, line[line.length - 1]));
          if (distance < bestDistance || (distance === bestDistance && best === undefined)) {
            best = member;
            bestDistance = distance;
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

function apart(a: Point, b: Point): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}
