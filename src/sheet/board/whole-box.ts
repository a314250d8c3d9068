import { type Box, boundsOf } from '../../geometry/shapes.ts';
import type { LaidBoard } from '../../model/layout.ts';

/** The box around a board as it is before any trim, mm: what is written beside a board stands off all of it. */
export function wholeBox({ usable, outline = [] }: Pick<LaidBoard, 'usable' | 'outline'>): Box {
  return boundsOf([...usable.outline, ...outline]);
}
