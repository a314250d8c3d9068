import { distanceToSegment, lineLength, ringPerimeter } from '../geometry/ring.ts';
import type { Line, Point, Ring } from '../geometry/shapes.ts';

/** How far a point of an outline may lie from the edge of the board and still be on it, mm. */
const ON_EDGE = 0.01;

/** The parts of an outline that are sawn, and how much of it is edge of the board already. */
export interface OutlinePieces {
  /** One closed piece, or the open ones between the stretches that lie on the board's edge. */
  readonly pieces: readonly { readonly line: Line; readonly closed: boolean; readonly length: number }[];
  /** mm */
  readonly shared: number;
}

/**
 * Splits an outline where it runs along the edge of the board: a rest edge laid on the ripped edge is not sawn
 * again.
 */
export function outlinePieces(outline: Ring, boardEdge: Ring): OutlinePieces {
  const count = outline.length;
  const onEdge = outline.map((point, i) => liesOnEdge(point, outline[(i + 1) % count], boardEdge));
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
 * True when the segment lies along one straight edge of the board from end to end. Both ends on the edge are enough only
 * for one and the same edge: a chord across a corner has its ends on two.
 */
function liesOnEdge(a: Point, b: Point, boardEdge: Ring): boolean {
  return boardEdge.some(([cx, cy], i) => {
    const [dx, dy] = boardEdge[(i + 1) % boardEdge.length];
    return (
      distanceToSegment(a[0], a[1], cx, cy, dx, dy) <= ON_EDGE &&
      distanceToSegment(b[0], b[1], cx, cy, dx, dy) <= ON_EDGE
    );
  });
}
