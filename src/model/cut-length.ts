import { linesLength, ringPerimeter, ringsPerimeter } from '../geometry/ring.ts';
import type { Line, Region } from '../geometry/shapes.ts';

/** What the blade travels along the lines of one part: outline, openings and veins, mm. */
export function cutLength({
  region,
  veins,
}: {
  readonly region: Region;
  readonly veins: readonly Line[];
}): number {
  return ringPerimeter(region.outline) + ringsPerimeter(region.openings) + linesLength(veins);
}
