import { rotation } from '../../geometry/affine.ts';
import type { Container } from '../problem/container.ts';
import { turn } from '../problem/orientations.ts';
import type { NestingProblem } from '../problem/problem.ts';
import type { Orientation } from '../problem/shape.ts';

/** Where every copy lies, as plain data. */
export type Lies = Pick<Arrangement, 'x' | 'y' | 'orientation' | 'container' | 'twist'>;

/** Where every copy lies: flat arrays indexed by copy. Positions are those of the shapes' reference points, mm. */
export class Arrangement {
  readonly count: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Number of the orientation. */
  readonly orientation: Int32Array;
  /** Number of the container, -1 while the copy lies nowhere. */
  readonly container: Int32Array;
  /**
   * Degrees by which a copy is turned on from its orientation. The passes that read no-fit polygons know the listed
   * orientations alone: they see to it that this is 0 ({@link untwist}).
   */
  readonly twist: Float64Array;

  constructor(count: number) {
    this.count = count;
    this.x = new Float64Array(count);
    this.y = new Float64Array(count);
    this.orientation = new Int32Array(count);
    this.container = new Int32Array(count).fill(-1);
    this.twist = new Float64Array(count);
  }

  /** An arrangement of its own with copies that lie as these. */
  static of(lies: Lies): Arrangement {
    const arrangement = new Arrangement(lies.x.length);
    arrangement.copyFrom(lies);
    return arrangement;
  }

  /** Takes over another arrangement of the same copies. */
  copyFrom(other: Lies): void {
    this.x.set(other.x);
    this.y.set(other.y);
    this.orientation.set(other.orientation);
    this.container.set(other.container);
    this.twist.set(other.twist);
  }

  /** Lays copy `i` as copy `j` lies in another arrangement; in which container is left to the caller. */
  layAs(i: number, other: Arrangement, j: number): void {
    this.x[i] = other.x[j];
    this.y[i] = other.y[j];
    this.orientation[i] = other.orientation[j];
    this.twist[i] = other.twist[j];
  }

  /** Some of the copies as they lie, on some containers that are numbered from 0; those that lie elsewhere lie nowhere in it. */
  excerpt(copies: readonly number[], containers: readonly number[]): Arrangement {
    const excerpt = new Arrangement(copies.length);
    for (const [n, item] of copies.entries()) {
      excerpt.layAs(n, this, item);
      excerpt.container[n] = containers.indexOf(this.container[item]);
    }
    return excerpt;
  }

  /** Numbers of the copies that lie nowhere. */
  lyingNowhere(): Int32Array {
    return Int32Array.from(this.container.keys()).filter((item) => this.container[item] < 0);
  }

  /** Numbers of the copies that lie on a container. */
  lyingOn(container: number): number[] {
    const lying: number[] = [];
    for (let item = 0; item < this.count; item++) if (this.container[item] === container) lying.push(item);
    return lying;
  }

  /** A copy that shares nothing with this one. */
  clone(): Arrangement {
    return Arrangement.of(this);
  }
}

/** Containers in play: their numbers, and where the usable length of each ends, mm in the frame of its board. */
export interface Field {
  readonly containers: readonly number[];
  readonly ends: Float64Array;
}

/** Where the length of every container ends when all of it may be used, mm in the frame of its board. */
export function fullEnds({
  containers,
  margin,
}: Pick<NestingProblem, 'containers' | 'margin'>): Float64Array {
  return Float64Array.from(containers, ({ box }) => box.maxX - margin);
}

/** Allowed positions of a shape in a container, hazards aside; empty when minX > maxX or minY > maxY. */
export interface Range {
  minX: number;
  minY: number;
  maxX: number;
  maxY: number;
}

/** The value nearest to another between two bounds in its own unit, here mm; `most` where they cross. */
export function clamped(value: number, least: number, most: number): number {
  return Math.min(most, Math.max(least, value));
}

/** Writes the range of an orientation in a container whose usable length ends at `end` (mm, board frame). */
export function setRange(
  range: Range,
  container: Container,
  orientation: Orientation,
  margin: number,
  end: number,
): void {
  const { box } = container;
  const shape = orientation.box;
  range.minX = box.minX + margin - shape.minX;
  range.maxX = Math.min(box.maxX - margin, end) - shape.maxX;
  range.minY = box.minY + margin - shape.minY;
  range.maxY = box.maxY - margin - shape.maxY;
  if (orientation.edge === undefined) return;
  const { hasStraightEdge = true, hasStraightTop = false } = container;
  const isOnTop = orientation.edge === 'top';
  const standing = isOnTop ? box.minY - shape.minY : box.maxY - shape.maxY;
  const mayStand = isOnTop
    ? hasStraightTop && standing <= range.maxY
    : hasStraightEdge && standing >= range.minY;
  range.minY = mayStand ? standing : Number.POSITIVE_INFINITY;
  range.maxY = standing;
}

/**
 * True when a shape in an orientation is no larger than a container less its margins, hazards and copies aside. What
 * is too long by 1e-9 mm is so by the rounding of sums: a part as long as its board fits.
 *
 * @param container number of it
 * @param orientation number of it
 */
export function hasRoom(
  { containers, orientations, margin }: Pick<NestingProblem, 'containers' | 'orientations' | 'margin'>,
  container: number,
  orientation: number,
): boolean {
  const range: Range = { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  setRange(range, containers[container], orientations[orientation], margin, Number.POSITIVE_INFINITY);
  return range.maxX - range.minX >= -1e-9 && range.maxY - range.minY >= -1e-9;
}

/** Largest x in mm of anything that lies in a container; the container's left edge when it is empty. */
export function usedEnd(problem: NestingProblem, arrangement: Arrangement, container: number): number {
  let end = problem.containers[container].box.minX;
  for (let i = 0; i < arrangement.count; i++) {
    if (arrangement.container[i] !== container) continue;
    end = Math.max(end, arrangement.x[i] + reachOf(problem, arrangement, i));
  }
  return end;
}

/** How far a copy as it lies reaches beyond its reference point along the board, mm. */
function reachOf(
  { orientations, shapes }: NestingProblem,
  { orientation, twist }: Arrangement,
  i: number,
): number {
  const { box, shape, degrees, turnedOver } = orientations[orientation[i]];
  if (twist[i] === 0) return box.maxX;
  const [a, , c] = turn(degrees + twist[i], turnedOver);
  return shapes[shape].region.outline.reduce(
    (most, [x, y]) => Math.max(most, a * x + c * y),
    Number.NEGATIVE_INFINITY,
  );
}

/**
 * Turns every copy that lies off the listed orientations to the nearest of them and moves it into its range; `ends`
 * holds where each container's length ends. What was free of overlaps may have some after it.
 */
export function untwist(problem: NestingProblem, arrangement: Arrangement, ends: Float64Array): void {
  if (arrangement.twist.every((twist) => twist === 0)) return;
  for (let i = 0; i < arrangement.count; i++) {
    if (arrangement.twist[i] === 0) continue;
    arrangement.orientation[i] = nearestListed(problem, arrangement.orientation[i], arrangement.twist[i]);
    arrangement.twist[i] = 0;
  }
  clampInto(problem, arrangement, ends);
}

function nearestListed({ orientations, shapes }: NestingProblem, from: number, twist: number): number {
  const { shape, degrees, turnedOver } = orientations[from];
  const off = (other: number) => {
    const [cos] = rotation(orientations[other].degrees - degrees - twist);
    return orientations[other].turnedOver === turnedOver ? -cos : 2;
  };
  return shapes[shape].orientations.reduce((best, other) => (off(other) < off(best) ? other : best), from);
}

/**
 * Moves every copy that lies somewhere into its allowed range. Where none is left, because the end has come nearer than
 * the copy is long, it lies at the left and reaches beyond the end: who shortens looks at the used length afterwards.
 *
 * @param ends where each container's length ends, mm
 */
export function clampInto(problem: NestingProblem, arrangement: Arrangement, ends: Float64Array): void {
  const range: Range = { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  for (let i = 0; i < arrangement.count; i++) {
    const container = arrangement.container[i];
    if (container < 0) continue;
    const orientation = problem.orientations[arrangement.orientation[i]];
    setRange(range, problem.containers[container], orientation, problem.margin, ends[container]);
    arrangement.x[i] = Math.max(range.minX, Math.min(range.maxX, arrangement.x[i]));
    arrangement.y[i] = Math.max(range.minY, Math.min(range.maxY, arrangement.y[i]));
  }
}
