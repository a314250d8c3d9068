import { UNITS_PER_MM } from '../geometry/integer-grid.ts';
import type { Region } from '../geometry/shapes.ts';
import { boundsOf } from '../geometry/shapes.ts';
import { clippedToBox, largestOf } from './trim.ts';

/** Cross-cutting a board into sections that can be handled and swung in the throat of the saw. */

/** One section of a board. */
export interface SectionPlan {
  /** From 1, from the left end. */
  readonly number: number;
  /** Where it lies along the board, mm; between two sections lies the kerf of the cross-cut. */
  readonly from: number;
  readonly to: number;
  /** What may be used of it. */
  readonly usable: Region;
}

/** What can be swung and handled, mm. */
interface Reach {
  readonly throat: number | undefined;
  readonly longest: number | undefined;
}

/** Sections shorter than this make no sense at any saw, mm: the throat is then taken as its length. */
const SHORTEST = 50;

/**
 * Greatest length in mm of a section of a board `width` mm wide: one that turns fully round any of its points has
 * a diagonal of at most the throat. A board wider than the throat cannot turn fully; its sections are as long as
 * the throat, and {@link swingOf} tells which parts cannot be sawn there.
 */
export function longestSection(width: number, { throat, longest }: Reach): number {
  const handled = longest ?? Number.POSITIVE_INFINITY;
  if (throat === undefined) return handled;
  const turning = Math.sqrt(Math.max(0, throat * throat - width * width));
  return Math.min(handled, turning >= SHORTEST ? turning : throat);
}

/**
 * The sections of a usable board, from the left, each as long as may be and the rest last; none when the board
 * need not be cut.
 *
 * @param kerf width of the cross-cut, mm
 */
export function sectionsOf(usable: Region, reach: Reach, kerf: number): SectionPlan[] {
  const box = boundsOf(usable.outline);
  const longest = onGrid(longestSection(box.maxY - box.minY, reach));
  if (!(box.maxX - box.minX > longest + 1e-6)) return [];
  const sections: SectionPlan[] = [];
  for (let from = box.minX; from < box.maxX; from = onGrid(from + longest + kerf)) {
    const to = Math.min(box.maxX, onGrid(from + longest));
    const piece = largestOf(clippedToBox(usable, from, box.minY, to, box.maxY));
    sections.push({ number: sections.length + 1, from, to, usable: piece });
  }
  return sections;
}

/** Down to the grid that layouts are written on, 1e-4 mm. */
function onGrid(mm: number): number {
  return Math.floor(mm * UNITS_PER_MM + 1e-6) / UNITS_PER_MM;
}

/**
 * How far from the blade the wood reaches while the outlines of a part are sawn, mm: the greatest distance from a
 * point of its outlines to a corner of the section. The part can be sawn in every direction when the throat is at
 * least that.
 */
export function swingOf(part: Region, section: Region): number {
  let farthest = 0;
  for (const ring of [part.outline, ...part.openings]) {
    for (const [x, y] of ring) {
      for (const [cornerX, cornerY] of section.outline)
        farthest = Math.max(farthest, Math.hypot(cornerX - x, cornerY - y));
    }
  }
  return farthest;
}
