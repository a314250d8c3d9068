import { regionBounds } from '../../geometry/ring.ts';
import type { AssemblyPart } from './assembly-part.ts';

/** A straight bottom on which a part stands. */
export interface RestEdge {
  /** Height, y in the frame of the drawing, mm. */
  readonly y: number;
  /** Length of the straight bottom, mm. */
  readonly length: number;
}

/** A bottom is straight enough to stand on when its points are level to this, mm. */
const LEVEL = 0.05;
/** Least share of a part's width that its straight bottom has. */
const LEAST_SHARE = 0.2;
/** A part whose bottom is farther off the plane than this does not stand on it at all, mm. */
const NEAR = 2;

/** The straight bottom of each part, where it has one. */
export function restEdges(parts: readonly AssemblyPart[]): readonly (RestEdge | undefined)[] {
  return parts.map(({ region }) => {
    const { minX, maxX, maxY } = regionBounds(region);
    const { outline } = region;
    const length = outline.reduce((sum, [x, y], i) => {
      const [nextX, nextY] = outline[(i + 1) % outline.length];
      return maxY - y <= LEVEL && maxY - nextY <= LEVEL ? sum + Math.abs(nextX - x) : sum;
    }, 0);
    return length >= LEAST_SHARE * (maxX - minX) ? { y: maxY, length } : undefined;
  });
}

/** The plane most of the straight bottoms lie on, by their length; the lowest of equals. */
export function restPlane(edges: readonly (RestEdge | undefined)[], tolerance: number): number | undefined {
  const known = edges.filter((edge): edge is RestEdge => edge !== undefined);
  const support = (y: number) =>
    known.reduce((sum, edge) => (Math.abs(edge.y - y) <= tolerance ? sum + edge.length : sum), 0);
  return known
    .map(({ y }) => y)
    .sort((a, b) => support(b) - support(a) || b - a)
    .at(0);
}

/** True when a part is meant to stand on the plane but misses it by more than the tolerance. */
export function missesPlane(offPlane: number | undefined, tolerance: number): boolean {
  return offPlane !== undefined && Math.abs(offPlane) > tolerance && Math.abs(offPlane) <= NEAR;
}
