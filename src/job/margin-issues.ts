import { boundsOf } from '../geometry/shapes.ts';
import type { Issue } from '../issues/issue.ts';
import { marginsAcross } from '../model/batch.ts';
import { carriesParts } from '../model/carries-parts.ts';
import type { Layout } from '../model/layout.ts';
import { partKey } from '../model/same-part.ts';
import { blanksPerBoard } from '../model/whole-board.ts';

/** Share of the wood that the edge margin takes without a word: more is seldom meant (common practice, no source). */
const MOST_TAKEN = 1 / 3;

/**
 * A warning where the edge margin takes much of the boards that are used: it is kept on both sides of every cross-cut and rip
 * too, and where the throat of the saw asks for short pieces they have hardly any other wood.
 */
export function marginIssues({
  boards,
  edgeMargin,
  setContents,
}: Pick<Layout, 'boards' | 'edgeMargin' | 'setContents'>): Issue[] {
  const standing = new Set(setContents.filter(({ restEdge }) => restEdge).map(partKey));
  const used = boards.filter(carriesParts);
  let all = 0;
  let left = 0;
  for (const { copies, usable, sections, placements, straightTopEdge = false } of used) {
    const { minX, minY, maxX, maxY } = boundsOf(usable.outline);
    const restEdge = placements.every((placement) => standing.has(partKey(placement)));
    const { minY: highest } = boundsOf(placements.flatMap(({ region }) => region.outline));
    // What hangs from the top edge keeps none there either.
    const onBoth = restEdge && straightTopEdge && highest < minY + edgeMargin / 2;
    const kept = onBoth ? 0 : marginsAcross({ restEdge }, edgeMargin);
    const across = Math.max(0, maxY - minY - kept);
    for (const { from, to } of sections ?? [{ from: minX, to: maxX }]) {
      all += copies * (to - from) * (maxY - minY);
      left += copies * Math.max(0, to - from - 2 * edgeMargin) * across;
    }
  }
  const taken = all === 0 ? 0 : 1 - left / all;
  if (taken <= MOST_TAKEN) return [];
  const areParted = used.some((board) => (board.sections ?? []).length > 1 || blanksPerBoard(board) > 1);
  return [
    {
      kind: 'margin-takes-wood',
      severity: 'warning',
      message: `the edge margin takes ${(100 * taken).toFixed(0)} % of the boards that are used${areParted ? ', for it is kept on both sides of every cut between sections, strips and lengths' : ''}`,
      received: `${Number(edgeMargin.toFixed(2))} mm`,
      remedy: 'Lower "edgeMargin" to what your saw and your boards need.',
      where: { field: 'edgeMargin' },
    },
  ];
}
