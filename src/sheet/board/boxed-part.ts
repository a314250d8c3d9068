import { regionBounds } from '../../geometry/ring.ts';
import type { Box } from '../../geometry/shapes.ts';
import type { Placement } from '../../model/layout.ts';

/** A placed part with the box around it. */
export interface BoxedPart {
  readonly placement: Placement;
  readonly box: Box;
}

export function boxedParts(placements: readonly Placement[]): BoxedPart[] {
  return placements.map((placement) => ({ placement, box: regionBounds(placement.region) }));
}
