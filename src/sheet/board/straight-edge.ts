import { boundsOf, type Line, type Region } from '../../geometry/shapes.ts';

/** A side at least this long is straight, mm: of a curve that bends away by a millimetre in it none is left so long. */
const STRAIGHT_SIDE = 50;

/**
 * The sides of the straight edge along the grain with the largest y; undefined for a sloping board, and for a waney one, which
 * is level as well where it is lowest, for a while, in many short sides.
 */
export function straightEdge({ outline }: Region): Line[] | undefined {
  const { minX, maxX, maxY } = boundsOf(outline);
  const sides = outline.flatMap((from, i): Line[] => {
    const to = outline[(i + 1) % outline.length];
    // Sawn and planed edges are straight to a few tenths over a board: near enough counts.
    const lies = Math.abs(from[1] - maxY) < 0.5 && Math.abs(to[1] - maxY) < 0.5;
    return lies ? [[from, to]] : [];
  });
  const lengths = sides.map(([from, to]) => Math.abs(to[0] - from[0]));
  const whole = lengths.reduce((sum, length) => sum + length, 0);
  const isStraight = whole > (maxX - minX) / 2 || lengths.some((length) => length >= STRAIGHT_SIDE);
  return isStraight ? sides : undefined;
}
