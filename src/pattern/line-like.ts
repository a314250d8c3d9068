import { insidePoint } from '../geometry/inside-point.ts';
import { regionArea, ringsPerimeter } from '../geometry/ring.ts';
import type { Region } from '../geometry/shapes.ts';

/** Parts nowhere wider than this, mm, are lines: 1/16 in, the thinnest neck. Common practice, no source. */
const LINE_WIDTH = 1.6;

/** How much longer than wide a line is. */
const LEAST_LENGTH = 20;

/**
 * How wide a part is at its widest, mm, where it is no more than a line: export filters turn the strokes of a line
 * drawing into filled shapes, and what was to be a part is then the rim around an opening. Undefined for parts with a body.
 */
export function widthOfLine(region: Region): number | undefined {
  const length = ringsPerimeter([region.outline, ...region.openings]) / 2;
  const mean = regionArea(region) / length;
  // The mean width is never above the widest, and quick to have.
  if (mean > LINE_WIDTH || length < LEAST_LENGTH * mean) return undefined;
  const widest = 2 * insidePoint(region).radius;
  return widest <= LINE_WIDTH ? widest : undefined;
}
