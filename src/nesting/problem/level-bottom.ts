import { boundsOf, type Region } from '../../geometry/shapes.ts';
import { clippedToBox, largestOf } from '../../stock/trim.ts';

/** How far above the bottom and to the sides an outline is left as it is, mm. */
const ROOM = 1;

/**
 * A simpler outline around a part, cut off level with the lowest point of the part: what stands on the straight edge of a
 * board is laid with its bottom on that edge, and where the outline hung below it the part would stand that much above.
 *
 * @param around region that holds the part
 */
export function levelBottom(around: Region, part: Region): Region {
  const { maxY: bottom } = boundsOf(part.outline);
  const { minX, minY, maxX, maxY } = boundsOf(around.outline);
  if (maxY <= bottom) return around;
  const above = { minX: minX - ROOM, minY: minY - ROOM, maxX: maxX + ROOM, maxY: bottom };
  // The part is in one piece, and the largest is the one that holds it.
  return largestOf(clippedToBox(around, above));
}
