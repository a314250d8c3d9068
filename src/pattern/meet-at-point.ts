import type { Point } from '../geometry/shapes.ts';
import type { DrawingShape } from '../model/drawing.ts';
import type { Solid } from './solids.ts';

/** Pieces of one drawn shape that hang together by a point alone, as the tail of a fish drawn in one line that crosses itself. */
export interface MeetingPieces {
  readonly shape: DrawingShape;
  /** Number of pieces that meet others of the shape so, 2 or more. */
  readonly pieces: number;
  /** The first place where two of them meet, mm. */
  readonly at: Point;
}

/** Finds the shapes whose pieces share a corner: a saw leaves no wood there. */
export function piecesMeetingAtPoint(solids: readonly Solid[]): MeetingPieces[] {
  const ofShape = new Map<DrawingShape, Solid[]>();
  for (const solid of solids) {
    const known = ofShape.get(solid.shape);
    if (known === undefined) ofShape.set(solid.shape, [solid]);
    else known.push(solid);
  }
  return [...ofShape].flatMap(([shape, own]) => (own.length < 2 ? [] : meetingOf(shape, own)));
}

function meetingOf(shape: DrawingShape, solids: readonly Solid[]): MeetingPieces[] {
  const firstWith = new Map<string, Solid>();
  const meeting = new Set<Solid>();
  let at: Point | undefined;
  for (const solid of solids) {
    for (const ring of [solid.region.outline, ...solid.region.openings]) {
      for (const point of ring) {
        const other = firstWith.get(keyOf(point));
        if (other === undefined) firstWith.set(keyOf(point), solid);
        else if (other !== solid) {
          meeting.add(other).add(solid);
          at ??= point;
        }
      }
    }
  }
  return at === undefined ? [] : [{ shape, pieces: meeting.size, at }];
}

/** Where lines cross, both pieces get the same point of the integer grid. */
function keyOf([x, y]: Point): string {
  return `${x.toFixed(4)} ${y.toFixed(4)}`;
}
