import { distanceToSegment, lineLength, ringPerimeter } from '../geometry/ring.ts';
import { boundsOf, type Line, type Point, type Ring } from '../geometry/shapes.ts';
import type { LaidBoard } from '../model/layout.ts';

/**
 * How far a point of an outline may lie from the edge of the board and still be on it, mm. With an edge margin of 0 parts lie
 * off it by the tolerance of outlines, 0.01 mm, and rounding: no blade leaves so thin a strip.
 */
const ON_EDGE = 0.02;

/** The parts of an outline that are sawn, and how much of it is edge of the board already. */
export interface OutlinePieces {
  /** One closed piece, or the open ones between the stretches that lie on the board's edge. */
  readonly pieces: readonly { readonly line: Line; readonly closed: boolean; readonly length: number }[];
  /** mm */
  readonly shared: number;
}

/** The edges that a board has before the blade comes to it: those of what may be used of it, and the ends of its sections. */
export function boardEdges({
  usable: { outline },
  sections = [],
}: Pick<LaidBoard, 'usable' | 'sections'>): Line[] {
  const { minY, maxY } = boundsOf(outline);
  const ends = sections.flatMap(({ from, to }) => [from, to]);
  return [
    ...outline.map((point, i): Line => [point, outline[(i + 1) % outline.length]]),
    ...ends.map(
      (x): Line => [
        [x, minY],
        [x, maxY],
      ],
    ),
  ];
}

/**
 * Splits an outline where it runs along an edge of the board: a rest edge laid on the ripped edge is not sawn again, nor a
 * side that a cross-cut has made.
 */
export function outlinePieces(outline: Ring, edges: readonly Line[]): OutlinePieces {
  const count = outline.length;
  const onEdge = outline.map((point, i) => liesOnEdge(point, outline[(i + 1) % count], edges));
  // Begin where a stretch on the edge ends: then no open piece is split where the ring happens to begin.
  const first = onEdge.findIndex((is, i) => !is && onEdge[(i + count - 1) % count]);
  if (first < 0) {
    const perimeter = ringPerimeter(outline);
    return onEdge[0]
      ? { pieces: [], shared: perimeter }
      : { pieces: [{ line: outline, closed: true, length: perimeter }], shared: 0 };
  }
  const lines: Point[][] = [];
  let shared = 0;
  for (let k = 0; k < count; k++) {
    const i = (first + k) % count;
    const next = outline[(i + 1) % count];
    if (onEdge[i]) shared += Math.hypot(next[0] - outline[i][0], next[1] - outline[i][1]);
    else if (onEdge[(i + count - 1) % count]) lines.push([outline[i], next]);
    else lines[lines.length - 1].push(next);
  }
  return { pieces: lines.map((line) => ({ line, closed: false, length: lineLength(line) })), shared };
}

/**
 * What an outline and the edge of the board close in between them: a ring for each of its pieces that ends on the edge where it
 * begins. That around the whole part is one of them.
 */
export function bayRings({ pieces }: OutlinePieces, edges: readonly Line[]): Ring[] {
  return pieces
    .filter(({ line, closed }) => !closed && liesOnEdge(line[0], line[line.length - 1], edges))
    .map(({ line }) => line);
}

/**
 * True when the segment lies along one straight edge of the board from end to end. Both ends on the edge are enough only
 * for one and the same edge: a chord across a corner has its ends on two.
 */
function liesOnEdge(a: Point, b: Point, edges: readonly Line[]): boolean {
  return edges.some(
    ([[cx, cy], [dx, dy]]) =>
      distanceToSegment(a[0], a[1], cx, cy, dx, dy) <= ON_EDGE &&
      distanceToSegment(b[0], b[1], cx, cy, dx, dy) <= ON_EDGE,
  );
}
