import { locateInRing } from '../geometry/ring.ts';
import { boundsOf, type Line, type Point, type Region, type Ring } from '../geometry/shapes.ts';
import type { SourcedLine } from './join-lines.ts';
import { areNear } from './same-rings.ts';
import { TOUCHING_DEPTH } from './solids.ts';

/** An open line that is drawn once more, and the line before that it is alike. */
export interface Twin<Source> {
  readonly twin: SourcedLine<Source>;
  readonly of: SourcedLine<Source>;
}

/**
 * Open lines that are drawn twice: export filters write the side that two shapes share once for each, and a fill and its
 * line apart. Joined end to end, two alike would close a ring around nothing.
 */
export function linesOnce<Source>(lines: readonly SourcedLine<Source>[]): {
  kept: SourcedLine<Source>[];
  twins: Twin<Source>[];
} {
  const boxes = lines.map(({ line }) => boundsOf(line));
  const byLeft = lines.map((_, i) => i).sort((a, b) => boxes[a].minX - boxes[b].minX || a - b);
  const twinOf = new Map<number, number>();
  byLeft.forEach((i, at) => {
    if (twinOf.has(i)) return;
    for (let next = at + 1; next < byLeft.length; next++) {
      const j = byLeft[next];
      if (boxes[j].minX - boxes[i].minX > TOUCHING_DEPTH) break;
      if (areNear(boxes[i], boxes[j]) && areSameLine(lines[i].line, lines[j].line)) twinOf.set(j, i);
    }
  });
  return {
    kept: lines.filter((_, i) => !twinOf.has(i)),
    twins: lines.flatMap((twin, i) => {
      const of = twinOf.get(i);
      return of === undefined ? [] : [{ twin, of: lines[of] }];
    }),
  };
}

/** True when every vertex of each lies on the other. */
function areSameLine(a: Line, b: Line): boolean {
  // There and back again: a line taken for a ring would be closed by its chord.
  const runsOn = (line: Line, other: Line) => runsAlongRing(line, [...other, ...[...other].reverse()]);
  return runsOn(a, b) && runsOn(b, a);
}

/** True when a line lies wholly on the outline of a region or on that of one of its openings. */
export function runsAlongEdge(line: Line, { outline, openings }: Region): boolean {
  return [outline, ...openings].some((ring) => runsAlongRing(line, ring));
}

/** True for a line all of whose vertices, and the middles between them, lie on a ring. */
function runsAlongRing(line: Line, ring: Ring): boolean {
  const isOn = (point: Point) => locateInRing(point, ring, TOUCHING_DEPTH) === 0;
  return line.every(
    ([x, y], i) => isOn([x, y]) && (i === 0 || isOn([(x + line[i - 1][0]) / 2, (y + line[i - 1][1]) / 2])),
  );
}
