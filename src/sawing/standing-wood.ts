import { combineRegions, offsetRegions } from '../geometry/clipper.ts';
import { regionArea, regionBounds } from '../geometry/ring.ts';
import { SegmentGrid } from '../geometry/segment-grid.ts';
import { boxRing, type Point, type Ring } from '../geometry/shapes.ts';
import { snugSize } from '../geometry/snug-size.ts';
import { halfCutBetween, rippedStrips } from '../model/cross-cuts.ts';
import type { LaidBoard, Section } from '../model/layout.ts';
import { isHardToHold } from '../model/small-parts.ts';

/** What of the wood around the parts still stands when all their outlines are sawn: all that a tab can hold by. */

/** Wood narrower than this between two cuts breaks off, mm (common practice, no source). */
const LEAST_WIDTH = 1;

/** How much farther than the kerf the wood may be from the line that it is beside, mm: what grown outlines are off. */
const SLACK = 0.1;

/** How finely grown outlines are drawn, mm. */
const TOLERANCE = 0.05;

/** What a saw leaves between the parts of a board. */
export interface StandingWoodSettings {
  readonly kerf: number;
  /** Pieces of waste smaller than this both ways come loose as the parts do, mm. */
  readonly holdSize: number;
}

/** Whether a point of the outline of a part has such wood on the other side of the cut. */
export type StandsAt = (at: Point) => boolean;

/** Finds it for the parts that lie on a board itself, section by section; of a strip ripped off before there is none. */
export function standingWood(
  { usable, offcuts }: Pick<LaidBoard, 'usable' | 'offcuts'>,
  sections: readonly Section[],
  outlines: readonly Ring[],
  settings: StandingWoodSettings,
): StandsAt {
  const { minY, maxY } = regionBounds(usable);
  const within = settings.kerf + LEAST_WIDTH / 2;
  const parts = outlines.map((outline) => ({ outline, openings: [] }));
  const sawn = offsetRegions(parts, within, TOLERANCE);
  // Ripped off before the board is cross-cut, with half of what the cut takes.
  const half = halfCutBetween(sections);
  const gone = rippedStrips({ usable, offcuts, sections }).map((strip) => ({
    outline: boxRing({ ...strip, minY: strip.minY - half, maxY: strip.maxY + half }),
    openings: [],
  }));
  const left = sections.flatMap(({ from, to }) => {
    const section = { outline: boxRing({ minX: from, minY, maxX: to, maxY }), openings: [] };
    return combineRegions('difference', combineRegions('intersection', [usable], [section]), [
      ...sawn,
      ...gone,
    ]);
  });
  const stout = left.filter(({ outline }) => !isHardToHold({ longest: snugSize(outline).length }, settings));
  // Of a small board no piece is large; the largest is what the maker holds it by.
  const standing =
    stout.length > 0 || left.length === 0
      ? stout
      : [left.reduce((most, region) => (regionArea(region) > regionArea(most) ? region : most))];
  const rings = standing.flatMap(({ outline, openings }) => [outline, ...openings]);
  if (rings.length === 0) return () => false;
  const reach = within + TOLERANCE + SLACK;
  const grid = new SegmentGrid(rings, reach);
  return ([x, y]) => grid.nearest(x, y, reach);
}
