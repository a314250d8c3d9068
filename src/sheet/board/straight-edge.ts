import { heightsWithin } from '../../geometry/heights-within.ts';
import { regionBounds } from '../../geometry/ring.ts';
import { boundsOf, type Line, type Ring } from '../../geometry/shapes.ts';
import type { LaidBoard, Placement } from '../../model/layout.ts';

/** A side at least this long is straight, mm: of a curve that bends away by a millimetre in it none is left so long. */
const STRAIGHT_SIDE = 50;

/** How far off an edge a part that stands on it may lie by rounding, mm: half of what others keep at least. */
export const STANDING = 0.005;

/** How far a part that hangs from the top edge may be off half a turn, degrees: by rounding, and no more. */
const HEAD_DOWN = 1e-3;

/** How far off the height of an edge its sides may lie, mm: sawn and planed edges are straight to a few tenths over a board. */
const NEAR_ENOUGH = 0.5;

/**
 * The sides of the straight edge along the grain with the largest y; undefined for a sloping board, for one with a defect all
 * along that edge, and for a waney one, which is level as well where it is lowest, for a while, in many short sides.
 */
export function straightEdge({
  usable,
  outline = usable.outline,
  trimmed,
}: Pick<LaidBoard, 'usable' | 'outline' | 'trimmed'>): Line[] | undefined {
  const { minX, maxX, maxY } = boundsOf(usable.outline);
  // What is cross-cut off the ends may have reached farther.
  const [, lowest] = heightsWithin(outline, minX, maxX);
  return lowest - (trimmed?.straightEdge ?? 0) - maxY > NEAR_ENOUGH
    ? undefined
    : straightAt(usable.outline, maxY);
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
    straightTopEdge &&
    placements.some((each) => isHeadDown(each) && regionBounds(each.region).minY < minY + STANDING);
  return isStoodOn ? straightAt(usable.outline, minY) : undefined;
}

function isHeadDown({ rotation }: Placement): boolean {
  return Math.abs(Math.abs(rotation % 360) - 180) < HEAD_DOWN;
}

function straightAt(outline: Ring, height: number): Line[] | undefined {
  const { minX, maxX } = boundsOf(outline);
  const sides = outline.flatMap((from, i): Line[] => {
    const to = outline[(i + 1) % outline.length];
    const lies = Math.abs(from[1] - height) < NEAR_ENOUGH && Math.abs(to[1] - height) < NEAR_ENOUGH;
    return lies ? [[from, to]] : [];
  });
  const lengths = sides.map(([from, to]) => Math.abs(to[0] - from[0]));
  const whole = lengths.reduce((sum, length) => sum + length, 0);
  const isStraight = whole > (maxX - minX) / 2 || lengths.some((length) => length >= STRAIGHT_SIDE);
  return isStraight ? sides : undefined;
}
