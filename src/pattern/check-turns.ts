import type { Point, Ring } from '../geometry/shapes.ts';

/** Turning by at least this much within a kerf's length is a corner: the blade is turned on the spot. */
const CORNER = Math.PI / 4;

/** A stretch of outline that bends more tightly than the blade can follow. */
export interface TightTurn {
  readonly at: Point;
  /** Mean radius of the bend, mm. */
  readonly radius: number;
}

/** Corners and tight bends of a closed outline. */
export interface Turns {
  readonly corners: number;
  readonly tight: readonly TightTurn[];
}

/**
 * Counts corners, and finds bends tighter than `radius`: runs of vertices that turn the same way by more than
 * their length allows at that radius, an eighth of a turn at least, without being a corner. The outline may be
 * flattened: a bend is then a run of small turns, so lengths of outline are looked at and never single vertices.
 *
 * @param kerf length within which a turn is a corner, mm
 * @param radius tightest curve the blade follows without widening its cut, mm
 */
export function turnsOf(ring: Ring, kerf: number, radius: number): Turns {
  const turning = turningOf(ring);
  const count = ring.length;
  const isCorner = cornersOf(turning, kerf);
  const tight: TightTurn[] = [];
  for (let i = 0; i < count; ) {
    const run = bendFrom(i, turning, isCorner, radius);
    if (run !== undefined)
      tight.push({ at: ring[(i + Math.floor(run.vertices / 2)) % count], radius: run.radius });
    i += Math.max(1, run?.vertices ?? 1);
  }
  return { corners: countCorners(isCorner, turning.length, kerf), tight };
}

/** How an outline goes: what is left of it when it is neither moved nor turned. */
interface Turning {
  /** The signed turn at every vertex, radians. */
  readonly turn: Float64Array;
  /** The length of the edge that leaves it, mm. */
  readonly length: Float64Array;
}

function turningOf(ring: Ring): Turning {
  const count = ring.length;
  const turn = new Float64Array(count);
  const length = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const [ax, ay] = ring[(i + count - 1) % count];
    const [bx, by] = ring[i];
    const [cx, cy] = ring[(i + 1) % count];
    const [ux, uy, vx, vy] = [bx - ax, by - ay, cx - bx, cy - by];
    turn[i] = Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
    length[i] = Math.hypot(vx, vy);
  }
  return { turn, length };
}

/** Marks every vertex within whose next `kerf` mm the outline turns by a corner's angle, one way. */
function cornersOf({ turn, length }: Turning, kerf: number): Uint8Array {
  const count = turn.length;
  const marks = new Uint8Array(count);
  for (let i = 0; i < count; i++) {
    let sum = 0;
    let run = 0;
    // Turns to and fro within a kerf are roughness of the drawing, not a corner: the run ends where the sign changes.
    for (let k = 0; k < count && run <= kerf; k++) {
      const j = (i + k) % count;
      if (turn[j] * turn[i] < 0) break;
      sum += turn[j];
      if (Math.abs(sum) >= CORNER) {
        for (let m = 0; m <= k; m++) marks[(i + m) % count] = 1;
        break;
      }
      run += length[j];
    }
  }
  return marks;
}

/** Marked vertices less than a kerf apart are one corner. */
function countCorners(marks: Uint8Array, length: Float64Array, kerf: number): number {
  const count = marks.length;
  let corners = 0;
  for (let i = 0; i < count; i++) {
    const before = (i + count - 1) % count;
    if (marks[i] === 1 && (marks[before] === 0 || length[before] > kerf)) corners++;
  }
  // Marked all round and without a gap, such as a hole smaller than the kerf: one corner.
  return corners === 0 && marks[0] === 1 ? 1 : corners;
}

/** The run of one-way turning from vertex i that is tighter than the radius, if it makes an eighth of a turn. */
function bendFrom(
  i: number,
  { turn, length }: Turning,
  isCorner: Uint8Array,
  radius: number,
): { vertices: number; radius: number } | undefined {
  const count = turn.length;
  let sum = 0;
  let run = 0;
  let vertices = 0;
  for (; vertices < count; vertices++) {
    const j = (i + vertices) % count;
    // Half of the edges beside a vertex belong to its turn.
    const share = (length[(j + count - 1) % count] + length[j]) / 2;
    if (isCorner[j] === 1 || turn[j] * turn[i] <= 0 || share > radius * Math.abs(turn[j])) break;
    sum += Math.abs(turn[j]);
    run += share;
  }
  return sum >= CORNER ? { vertices, radius: run / sum } : undefined;
}
