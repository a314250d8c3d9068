import { boundsOf, type Line, type Region, type Ring } from '../../geometry/shapes.ts';
import type { LaidBoard, Placement } from '../../model/layout.ts';
import { outlineBox } from './outline-box.ts';

/** A side at least this long is straight, mm: of a curve that bends away by a millimetre in it none is left so long. */
const STRAIGHT_SIDE = 50;

/** How far off an edge a part that stands on it may lie by rounding, mm: half of what others keep at least. */
export const STANDING = 0.005;

/** How far a part that hangs from the top edge may be off half a turn, degrees: by rounding, and no more. */
const HEAD_DOWN = 1e-3;

/**
 * The sides of the straight edge along the grain with the largest y; undefined for a sloping board, and for a waney one, which
 * is level as well where it is lowest, for a while, in many short sides.
 */
export function straightEdge({ outline }: Region): Line[] | undefined {
  return straightAt(outline, boundsOf(outline).maxY);
}

/**
 * The sides of the top edge where it is straight too and a part stands on it, head down; undefined elsewhere. Without an edge
 * margin others may touch it as well, which asks nothing of it.
 */
export function topEdgeStoodOn({
  usable,
  straightTopEdge = false,
  placements,
}: LaidBoard): Line[] | undefined {
  const { minY } = boundsOf(usable.outline);
  const isStoodOn =
    straightTopEdge && placements.some((each) => isHeadDown(each) && outlineBox(each).minY < minY + STANDING);
  return isStoodOn ? straightAt(usable.outline, minY) : undefined;
}

function isHeadDown({ rotation }: Placement): boolean {
  return Math.abs(Math.abs(rotation % 360) - 180) < HEAD_DOWN;
}

function straightAt(outline: Ring, height: number): Line[] | undefined {
  const { minX, maxX } = boundsOf(outline);
  const sides = outline.flatMap((from, i): Line[] => {
    const to = outline[(i + 1) % outline.length];
    // Sawn and planed edges are straight to a few tenths over a board: near enough counts.
    const lies = Math.abs(from[1] - height) < 0.5 && Math.abs(to[1] - height) < 0.5;
    return lies ? [[from, to]] : [];
  });
  const lengths = sides.map(([from, to]) => Math.abs(to[0] - from[0]));
  const whole = lengths.reduce((sum, length) => sum + length, 0);
  const isStraight = whole > (maxX - minX) / 2 || lengths.some((length) => length >= STRAIGHT_SIDE);
  return isStraight ? sides : undefined;
}
