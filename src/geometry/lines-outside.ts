import { clipLines } from './clip-lines.ts';
import { offsetRegions } from './clipper.ts';
import { linesLength } from './ring.ts';
import type { Line, Region } from './shapes.ts';

/** What growing and clipping may be wrong by, mm, each. */
const ROUNDING = 0.001;

/**
 * Which of the lines run out of a region, by their places in the list.
 *
 * @param within farthest a line may run outside and still count as within, mm; what is nearer to it than roundings tell
 *   counts as outside
 */
export function linesOutside(lines: readonly Line[], region: Region, within: number): number[] {
  // All at once first: where every line is within, which is nearly always so, one clipping tells.
  if (lines.length === 0 || lengthOutside(lines, region) <= within - ROUNDING) return [];
  // A length that is left beyond the grown region may lead straight away from it, so it has to be next to nothing.
  const grown = offsetRegions([region], within - 3 * ROUNDING, ROUNDING);
  return lines.flatMap((line, i) =>
    grown.every((each) => lengthOutside([line], each) > ROUNDING) ? [i] : [],
  );
}

function lengthOutside(lines: readonly Line[], region: Region): number {
  return linesLength(lines) - linesLength(clipLines(lines, [region]));
}
