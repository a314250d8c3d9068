import { regionArea, ringsPerimeter } from '../geometry/ring.ts';
import { boundsOf, type Region } from '../geometry/shapes.ts';
import { greatestWidth } from '../geometry/widths.ts';

/** Parts nowhere wider than this, mm, are lines: 1/16 in, the thinnest neck. Common practice, no source. */
const LINE_WIDTH = 1.6;

/** How far the width may be off, mm. */
const PRECISION = 0.1;

/** Distance of the points of the outline at which the width is measured, mm. */
const SPACING = 0.2;

/** How much longer than wide a line is. */
const LEAST_LENGTH = 20;

/** True for a part that is no larger than a line is wide, however it is measured along the page: a dot, and no piece of wood. */
export function isSpeck({ outline }: Region): boolean {
  const { minX, minY, maxX, maxY } = boundsOf(outline);
  return Math.max(maxX - minX, maxY - minY) <= LINE_WIDTH;
}

/**
 * How wide a part is at its widest, mm, where it is no more than a line: export filters turn the strokes of a line
 * drawing into filled shapes, and what was to be a part is then the rim around an opening. Undefined for parts with a body.
 */
export function widthOfLine(region: Region): number | undefined {
  const length = ringsPerimeter([region.outline, ...region.openings]) / 2;
  const mean = regionArea(region) / length;
  // The mean width is never above the widest, and quick to have.
  if (mean > LINE_WIDTH || length < LEAST_LENGTH * mean) return undefined;
  const { minX, minY, maxX, maxY } = boundsOf(region.outline);
  const ofBox = Math.min(maxX - minX, maxY - minY);
  // Nor is the box ever narrower: between the two the width is known well enough, as of lines along the page, where to
  // look for the widest place takes longest.
  if (ofBox <= LINE_WIDTH && ofBox - mean <= PRECISION) return ofBox;
  const widest = greatestWidth(region, LINE_WIDTH, SPACING);
  return widest < LINE_WIDTH ? widest : undefined;
}
