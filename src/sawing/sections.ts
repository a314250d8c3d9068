import type { Region } from '../geometry/shapes.ts';
import { boundsOf } from '../geometry/shapes.ts';
import type { BoardSection } from '../model/cut-plan.ts';

/** Room a cross-cut needs between parts, mm: a common saw's kerf and a little. Common practice, no source. */
const CROSS_CUT = 4;

/**
 * Longest section that turns fully in the throat at any point: its diagonal is at most the throat, so
 * sqrt(T^2 - W^2); undefined when even a square would not. Lengths in mm.
 */
export function longestSection(throat: number, width: number): number | undefined {
  return width < throat ? Math.sqrt(throat * throat - width * width) : undefined;
}

/**
 * Cross-cuts a board between its parts into the fewest sections that are no longer than `longest`; where no
 * straight cut is free, the section is longer. Cutting as far on as possible each time is the fewest.
 */
export function sectionsOf(
  usable: Region,
  parts: readonly Region[],
  longest: number,
): readonly BoardSection[] {
  const { minX, maxX } = boundsOf(usable.outline);
  const free = freeCrossCuts(parts);
  const sections: BoardSection[] = [];
  let from = minX;
  while (maxX - from > longest) {
    const ahead = free.filter((x) => x > from);
    const within = ahead.filter((x) => x - from <= longest);
    const to = within.length > 0 ? within[within.length - 1] : ahead[0];
    if (to === undefined) break;
    sections.push({ from, to });
    from = to;
  }
  return [...sections, { from, to: maxX }];
}

/** The middles of the gaps between the parts, seen along the board, from left to right. */
function freeCrossCuts(parts: readonly Region[]): number[] {
  const spans = parts.map(({ outline }) => boundsOf(outline)).sort((a, b) => a.minX - b.minX);
  const cuts: number[] = [];
  let reach = spans[0]?.maxX ?? 0;
  for (const { minX, maxX } of spans) {
    if (minX - reach >= CROSS_CUT) cuts.push((reach + minX) / 2);
    reach = Math.max(reach, maxX);
  }
  // The last cut takes the free end of the board off.
  return spans.length === 0 ? [] : [...cuts, reach + CROSS_CUT];
}
