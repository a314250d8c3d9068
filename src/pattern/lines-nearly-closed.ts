import { endsApart, insideRegion, lineLength, ringArea } from '../geometry/ring.ts';
import type { Line, Region } from '../geometry/shapes.ts';
import type { Issue } from '../issues/issue.ts';
import type { DrawingShape } from '../model/drawing.ts';
import type { SourcedLine } from './join-lines.ts';
import type { LayerPlace } from './solids.ts';

/** Ends farther apart than this, mm, are drawn so on purpose. */
const WIDEST_GAP = 2;

/** What is meant as an opening is wider than its line is open; a curl or the two sides of a hair are not. */
const WIDTHS_TO_GAP = 2;

/**
 * A note of lines that were given to parts as veins and all but close: most likely openings whose ends miss one another.
 *
 * @param lines open lines that lie in parts
 * @param parts what they lie in: a line that begins and ends at an edge saws out a bay, whose sides may be near
 */
export function linesNearlyClosed(
  lines: readonly SourcedLine<DrawingShape>[],
  parts: readonly Region[],
  place: LayerPlace,
  joinGap: number,
): Issue[] {
  const found = lines.filter(
    ({ line }) =>
      isNearlyClosed(line, joinGap) &&
      [line[0], line[line.length - 1]].some((end) => parts.some((part) => insideRegion(end, part, joinGap))),
  );
  if (found.length === 0) return [];
  const [{ line, source }] = found;
  const widest = found.reduce((most, each) => Math.max(most, endsApart(each.line)), 0).toFixed(2);
  return [
    {
      kind: 'vein-nearly-closed',
      severity: 'note',
      message:
        found.length === 1
          ? `the ends of a line inside a part are ${widest} mm apart; it is sawn as a vein, not as an opening`
          : `the ends of ${found.length} lines inside parts, this one first, are up to ${widest} mm apart; they are sawn as veins, not as openings`,
      expected: `ends that meet within ${joinGap} mm, where an opening is meant`,
      remedy: `If it is to be sawn out, close it in the drawing, or raise "joinGap" in the job.`,
      where: { ...place, element: source.element, line: source.line, at: line[0] },
    },
  ];
}

function isNearlyClosed(line: Line, joinGap: number): boolean {
  const gap = endsApart(line);
  if (gap <= joinGap || gap > WIDEST_GAP) return false;
  // Twice the area by the length around is the width of a strip, and the radius of a disc.
  return (2 * ringArea(line)) / lineLength(line) >= WIDTHS_TO_GAP * gap;
}
