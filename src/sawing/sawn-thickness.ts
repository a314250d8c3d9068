import type { LaidBoard } from '../model/layout.ts';
import { stackOf } from '../model/stack-of.ts';

/** What the blade goes through, mm: thinned wood as it comes from the planer, not as it lay in the rack, a stack as a whole. */
export function sawnThickness(board: Pick<LaidBoard, 'planeTo' | 'thickness' | 'pieces'>): number {
  return (board.planeTo ?? board.thickness) * stackOf(board);
}
