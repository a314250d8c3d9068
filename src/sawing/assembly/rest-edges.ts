import { regionBounds } from '../../geometry/ring.ts';
import type { AssemblyPart } from './assembly-part.ts';

/** A straight bottom on which a part stands. */
export interface RestEdge {
  /** Height, y in the frame of the drawing, mm. */
  readonly y: number;
  /** Length of the straight bottom, without what is between feet, mm. */
  readonly length: number;
}

/** A bottom is straight enough to stand on when its points are level to this, mm. */
const LEVEL = 0.05;
/** Least share of a part's width that its straight bottom spans, from the first foot to the last. */
const LEAST_SHARE = 0.2;
/** A part whose bottom is farther off the plane than this does not stand on it at all, mm. */
const NEAR = 2;

/**
 * The straight bottom of each part, where it has one: level sides of its outline at its lowest points, together wide enough
 * to stand on. Two narrow feet are, far apart as they stand; a rounded bottom is none, for it touches the plane in a point.
 */
export function restEdges(parts: readonly Pick<AssemblyPart, 'region'>[]): readonly (RestEdge | undefined)[] {
  return parts.map(({ region }) => {
    const { minX, maxX, maxY } = regionBounds(region);
    const { outline } = region;
    let [first, last, length] = [maxX, minX, 0];
    outline.forEach(([x, y], i) => {
      const [nextX, nextY] = outline[(i + 1) % outline.length];
      if (maxY - y > LEVEL || maxY - nextY > LEVEL) return;
      first = Math.min(first, x, nextX);
      last = Math.max(last, x, nextX);
      length += Math.abs(nextX - x);
    });
    return last - first >= LEAST_SHARE * (maxX - minX) ? { y: maxY, length } : undefined;
  });
}

/**
 * Height of the plane most of the straight bottoms lie on, y in mm; the lowest of equals. Counted by length, so that one
 * long base decides against two small feet; undefined when no part has a bottom.
 *
 * @param tolerance how far a bottom may be off it and still lie on it, mm
 */
export function restPlane(edges: readonly (RestEdge | undefined)[], tolerance: number): number | undefined {
  const known = edges.filter((edge): edge is RestEdge => edge !== undefined);
  const support = (y: number) =>
    known.reduce((sum, edge) => (Math.abs(edge.y - y) <= tolerance ? sum + edge.length : sum), 0);
  return known
    .map(({ y }) => y)
    .sort((a, b) => support(b) - support(a) || b - a)
    .at(0);
}

/** True when a part is meant to stand on the plane but misses it by more than the tolerance, both in mm. */
export function missesPlane(offPlane: number | undefined, tolerance: number): boolean {
  return offPlane !== undefined && Math.abs(offPlane) > tolerance && Math.abs(offPlane) <= NEAR;
}

/**
 * The part that reaches farthest below the plane, and how far, mm, where that is too far to be a slip of the drawing: with it
 * the piece does not stand on that plane at all. Undefined where no part does.
 */
export function hangsBelow(
  parts: readonly AssemblyPart[],
  plane: number | undefined,
): { readonly part: AssemblyPart; readonly reach: number } | undefined {
  if (plane === undefined) return undefined;
  const reaches = parts.map((part) => ({ part, reach: regionBounds(part.region).maxY - plane }));
  const lowest = reaches.reduce((low, each) => (each.reach > low.reach ? each : low), reaches[0]);
  return lowest.reach > NEAR ? lowest : undefined;
}

/**
 * How far a part without a straight bottom reaches below the plane, mm, where that is more than the tolerance and so little
 * that it is no part hung lower on purpose: the piece then stands on its point and rocks. Undefined for any other part.
 */
export function reachBelow(
  { region }: AssemblyPart,
  edge: RestEdge | undefined,
  plane: number | undefined,
  tolerance: number,
): number | undefined {
  if (edge !== undefined || plane === undefined) return undefined;
  const reach = regionBounds(region).maxY - plane;
  return reach > 0 && missesPlane(-reach, tolerance) ? reach : undefined;
}
