import type { LaidBoard } from './layout.ts';

/** True for a board on which parts lie: others are neither drawn, sawn nor paid for. */
export function carriesParts({ placements }: Pick<LaidBoard, 'placements'>): boolean {
  return placements.length > 0;
}
