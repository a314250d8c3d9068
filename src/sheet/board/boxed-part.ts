import { regionBounds } from '../../geometry/ring.ts';
import type { Box } from '../../geometry/shapes.ts';
import type { Placement } from '../../model/layout.ts';

/** A placed part with the box around it. */
export interface BoxedPart {
  readonly placement: Placement;
  readonly box: Box;
}

/** Placed parts with their boxes, mm of the board: found once, for labels look for room beside every one of them. */
export function boxedParts(placements: readonly Placement[]): BoxedPart[] {
  return placements.map((placement) => ({ placement, box: regionBounds(placement.region) }));
}
