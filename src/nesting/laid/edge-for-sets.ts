import { boundsOf, type Region } from '../../geometry/shapes.ts';
import type { Batch } from '../../model/batch.ts';
import { marginOf } from '../groups/board-margin.ts';
import { boardNameOf, type Group, gapOf } from '../groups/group.ts';
import { OVERLONG_SET } from './laid-issues.ts';

/** Whether the straight edges of a board are long enough for the parts of a set that stand on it. */

/**
 * Says that the rest edges of one set are longer side by side than the straight edges of any board; nothing where they are
 * not. Lengths are those of the boxes of the parts: an overhang that would lie over a lower part is not looked at.
 */
export function shortEdge(batch: Batch, { demands, pieces }: Group): string {
  const gap = gapOf(batch);
  const margins = 2 * marginOf(batch);
  const standing = demands
    .filter(({ rules }) => rules.restEdge)
    .reduce((sum, { region, copiesPerSet }) => sum + copiesPerSet * (lengthOf(region) + gap), 0);
  const edges = new Map<string, number>();
  for (const piece of pieces) {
    const name = boardNameOf(piece);
    const edge = Math.max(0, lengthOf(piece.usable) - margins) + gap;
    const room = piece.kind.edges.straightTop === undefined ? edge : 2 * edge;
    edges.set(name, (edges.get(name) ?? 0) + room);
  }
  const longest = Math.max(...edges.values());
  if (standing <= longest) return '';
  const told = (length: number) => `${Number((length - gap).toFixed(1))} mm`;
  return `${OVERLONG_SET} ${told(standing)} side by side, and no board has more than ${told(longest)} of straight edge for them`;
}

function lengthOf({ outline }: Region): number {
  const { minX, maxX } = boundsOf(outline);
  return maxX - minX;
}
