import type { LaidBoard } from '../model/layout.ts';

/** What the blade goes through, mm: thinned wood as it comes from the planer, not as it lay in the rack, a stack as a whole. */
export function sawnThickness({
  planeTo,
  thickness,
  pieces,
}: Pick<LaidBoard, 'planeTo' | 'thickness' | 'pieces'>): number {
  return (planeTo ?? thickness) * (pieces?.length ?? 1);
}
