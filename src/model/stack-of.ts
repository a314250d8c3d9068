import type { LaidBoard } from './layout.ts';

/** Boards sawn at once: those of a stack have names of their own, boards that are sawn alike one after the other have not. */
export function stackOf({ pieces }: Pick<LaidBoard, 'pieces'>): number {
  return pieces?.length ?? 1;
}

/** How often a layout is stuck on and sawn: once for a stack, once for each of boards sawn alike. */
export function timesSawn(board: Pick<LaidBoard, 'copies' | 'pieces'>): number {
  return board.copies / stackOf(board);
}
