import { applyToRegion, placementMap } from '../geometry/affine.ts';
import type { Region } from '../geometry/shapes.ts';
import type { Demand, Pin } from './batch.ts';

/** What a pinned copy covers of its board, mm. */
export function pinnedRegion({ x, y, rotation, turnedOver = false }: Pin, { region }: Demand): Region {
  return applyToRegion(placementMap([x, y], rotation, turnedOver), region);
}
