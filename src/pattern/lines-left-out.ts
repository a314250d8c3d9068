import { endsApart, locateInRing } from '../geometry/ring.ts';
import type { Line, Point, Region, Ring } from '../geometry/shapes.ts';
import type { Issue } from '../issues/issue.ts';
import type { DrawingShape } from '../model/drawing.ts';
import type { Layer } from '../model/pattern.ts';
import type { SourcedLine } from './join-lines.ts';
import { type LayerPlace, TOUCHING_DEPTH } from './solids.ts';

/** Lines told one by one, each with its place, for each is to be mended; of a hatching without end they say all there is. */
const MOST_TOLD = 20;

/** Ends of lines up to this many times the join gap apart may be meant to meet. */
const NEARLY_JOINED = 10;

/** Warnings of open lines of a layer that lie in none of its parts and close no outline. */
export function linesLeftOut(
  lines: readonly SourcedLine<DrawingShape>[],
  place: LayerPlace,
  joinGap: number,
): Issue[] {
  const told = lines.length > MOST_TOLD ? lines.slice(0, MOST_TOLD - 1) : lines;
  return lines.slice(0, told.length + 1).map(({ line, source }, i): Issue => {
    const more = i < told.length ? 0 : lines.length - told.length;
    return {
      kind: 'open-line-left-out',
      severity: 'warning',
      message:
        more === 0
          ? 'an open line lies in no part and closes no outline; it is not cut'
          : `${more} more open lines, this one first, lie in no part and close no outline; they are not cut`,
      expected: `ends that meet within ${joinGap} mm, or a line inside a part`,
      received: `ends ${endsApart(line).toFixed(2)} mm apart${gapToOthers(line, lines, joinGap)}`,
      remedy:
        'Close the outline in the drawing, or raise "joinGap" in the job. A line that two parts share is to be drawn for each.',
      where: { ...place, element: source.element, line: source.line, at: line[0] },
    };
  });
}

/**
 * How far off the ends of other lines are, in words, where it is the gap there that keeps an outline in several pieces from
 * closing: nothing else tells how much to raise `joinGap`.
 */
function gapToOthers(line: Line, lines: readonly SourcedLine<DrawingShape>[], joinGap: number): string {
  const others = lines.flatMap((other) => (other.line === line ? [] : endsOf(other.line)));
  const [first, last] = endsOf(line).map((end) => nearestOf(end, others));
  const gap = Math.max(first, last);
  if (gap <= joinGap || gap > NEARLY_JOINED * joinGap || gap >= endsApart(line)) return '';
  return `, up to ${gap.toFixed(2)} mm from those of other open lines`;
}

function endsOf(line: Line): Point[] {
  return [line[0], line[line.length - 1]];
}

function nearestOf([x, y]: Point, points: readonly Point[]): number {
  return points.reduce((least, point) => Math.min(least, Math.hypot(point[0] - x, point[1] - y)), Infinity);
}

/** The same warnings, with the part of another layer in which such a line begins: it may be meant as a vein of that. */
export function withPartsOfOthers(issues: readonly Issue[], layers: readonly Layer[]): Issue[] {
  return issues.map((issue) => {
    const { at, layer } = issue.where ?? {};
    if (issue.kind !== 'open-line-left-out' || at === undefined) return issue;
    const others = layers.filter(({ name }) => name !== layer);
    // Later layers lie on top: of several the one that is seen there is meant.
    const part = others.flatMap(({ parts }) => parts).findLast(({ region }) => holds(region, at));
    if (part === undefined) return issue;
    const hint = `If it is a vein of "${part.name}" of the layer "${part.layer}", put the two into one layer.`;
    return { ...issue, remedy: `${issue.remedy} ${hint}` };
  });
}

/** Its edge counted, for veins begin there. */
function holds({ outline, openings }: Region, at: Point): boolean {
  const isIn = (ring: Ring) => locateInRing(at, ring, TOUCHING_DEPTH);
  return isIn(outline) >= 0 && openings.every((opening) => isIn(opening) <= 0);
}
