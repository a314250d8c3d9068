import { clipLines, offsetRegions } from './clipper.ts';
import { lineLength } from './ring.ts';
import type { Line, Region } from './shapes.ts';

/** Farthest a line may run outside and still count as within, mm: it may end on the outline, and run along it. */
const WITHIN = 0.05;

/** Which of the lines run out of a region, by their places in the list. */
export function linesOutside(lines: readonly Line[], region: Region): number[] {
  // All at once first: where every line is within, which is nearly always so, one clipping tells.
  if (lines.length === 0 || lengthOutside(lines, region) <= WITHIN) return [];
  // Grown, so that what lies on the edge is not lost to rounding.
  const grown = offsetRegions([region], WITHIN);
  return lines.flatMap((line, i) => (grown.every((each) => lengthOutside([line], each) > WITHIN) ? [i] : []));
}

function lengthOutside(lines: readonly Line[], region: Region): number {
  return lengthOf(lines) - lengthOf(clipLines(lines, [region]));
}

function lengthOf(lines: readonly Line[]): number {
  return lines.reduce((sum, line) => sum + lineLength(line), 0);
}
