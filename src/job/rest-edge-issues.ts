import { counted, firstFew } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import type { Demand } from '../model/batch.ts';
import { restEdges } from '../sawing/assembly/rest-edges.ts';

/** So many parts are named, and the others counted. */
const MOST_NAMED = 6;

/**
 * A warning for every layer with parts that are to stand on the straight edge and have hardly a flat bottom: they touch that
 * edge in a point, with no margin, and what was meant to be its straight side is sawn. A boat drawn over a bank takes its flat
 * bottom away.
 */
export function restEdgeIssues(demands: readonly Demand[], file: string): Issue[] {
  const edges = restEdges(demands);
  const rounded = new Map<string, string[]>();
  demands.forEach(({ layer, part, rules }, i) => {
    if (rules.restEdge && edges[i] === undefined) rounded.set(layer, [...(rounded.get(layer) ?? []), part]);
  });
  return [...rounded].map(([layer, parts]): Issue => {
    const names = parts.map((part) => `"${part}"`);
    return {
      kind: 'rest-edge-rounded',
      severity: 'warning',
      message: `${counted(parts.length, 'part')} without a flat bottom ${parts.length === 1 ? 'is' : 'are'} to stand on the straight edge of a board: ${firstFew(names, MOST_NAMED)}`,
      remedy:
        'Draw the bottom level where it is lowest, over a fifth of the width at least or on feet as far apart, or leave out "restEdge" of the layer.',
      where: { file, field: `layers.${layer}.restEdge`, layer },
    };
  });
}
