import { combineRegions, offsetRegions } from '../../geometry/clipper.ts';
import { regionArea } from '../../geometry/ring.ts';
import type { Region } from '../../geometry/shapes.ts';

/** How exactly rounded corners are followed, mm. */
const ROUNDING = 0.02;

/**
 * The region with bays, and openings, filled where they are so narrow that nothing which keeps a distance from it can
 * reach in: between the needles of a spruce, or the teeth of a jagged line. What may lie around it stays the same: a
 * region that is closed with a disc (grown by its radius, then shrunk by it; Serra 1982, Image Analysis and
 * Mathematical Morphology), and then grown by any distance from that radius on, is the region grown by that distance.
 *
 * @param distance what everything else keeps from the region, mm
 */
export function withoutNarrowBays(region: Region, distance: number): Region {
  if (distance <= 2 * ROUNDING) return region;
  // Rounded so that it is rather too little: no bay is filled that something could reach into.
  const grown = offsetRegions([region], distance - ROUNDING, ROUNDING);
  const closed = offsetRegions(grown, -distance, ROUNDING);
  const filled = combineRegions('union', [region], closed);
  // What rounding leaves of the corners lies by itself; the part is by far the largest piece.
  return filled.reduce((a, b) => (regionArea(b) > regionArea(a) ? b : a), region);
}
