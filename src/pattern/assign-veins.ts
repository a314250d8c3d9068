import type { Line, Region } from '../geometry/shapes.ts';
import type { Issue } from '../issues/issue.ts';
import type { DrawingShape } from '../model/drawing.ts';
import type { SourcedLine } from './join-lines.ts';
import { about, alongEdge } from './layer-issues.ts';
import { linesLeftOut } from './lines-left-out.ts';
import { linesNearlyClosed } from './lines-nearly-closed.ts';
import type { LayerPlace, Solid } from './solids.ts';
import { veinFinder } from './veins.ts';

/** Gives open lines to the parts they lie in; what lies in none is told, for it may be an outline that does not close. */
export function assignVeins(
  lines: readonly SourcedLine<DrawingShape>[],
  solids: readonly Solid[],
  place: LayerPlace,
  joinGap: number,
): { veins: ReadonlyMap<Region, Line[]>; issues: readonly Issue[] } {
  const issues: Issue[] = [];
  const regions = solids.map(({ region }) => region);
  const piecesOf = veinFinder(regions);
  const veins = new Map<Region, Line[]>();
  const along: DrawingShape[] = [];
  const inNone: SourcedLine<DrawingShape>[] = [];
  const inParts: SourcedLine<DrawingShape>[] = [];
  for (const { line, source } of lines) {
    const found = piecesOf(line);
    if (found === undefined) {
      along.push(source);
      continue;
    }
    const { pieces, outside } = found;
    for (const [region, inRegion] of pieces) {
      const known = veins.get(region);
      if (known === undefined) veins.set(region, inRegion);
      else for (const piece of inRegion) known.push(piece);
    }
    (pieces.size === 0 ? inNone : inParts).push({ line, source });
    if (pieces.size > 0 && outside > 2 * joinGap) {
      // A vein drawn over the edge by no more than a join gap at either end only means to reach it: nothing is lost.
      issues.push({
        kind: 'vein-clipped',
        severity: 'note',
        message: `a vein runs ${outside.toFixed(1)} mm outside its part; that piece is not cut`,
        where: { ...place, element: source.element, line: source.line, at: line[0] },
      });
    }
  }
  issues.push(
    ...linesNearlyClosed(inParts, regions, place, joinGap),
    ...linesLeftOut(inNone, place, joinGap),
  );
  if (along.length > 0) issues.push(about(along[0], place, alongEdge(along.length)));
  return { veins, issues };
}
