import { lineLength, ringPerimeter } from '../geometry/ring.ts';
import type { Line, Region } from '../geometry/shapes.ts';

/** What the blade travels along the lines of one part: outline, openings and veins, mm. */
export function cutLength({
  region,
  veins,
}: {
  readonly region: Region;
  readonly veins: readonly Line[];
}): number {
  const openings = region.openings.reduce((total, opening) => total + ringPerimeter(opening), 0);
  return (
    ringPerimeter(region.outline) + openings + veins.reduce((total, vein) => total + lineLength(vein), 0)
  );
}
