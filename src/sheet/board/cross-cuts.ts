import { boundsOf } from '../../geometry/shapes.ts';
import type { LaidBoard, Section } from '../../model/layout.ts';

/** What of a board beyond its last section is sawn off, mm: less is rounding. */
const SOME_WOOD = 0.01;

/**
 * Where a board is cross-cut to sections, mm along it: the left end of every section but the first, and the right end of
 * the last one where the board goes on by less than the width of a cut.
 */
export function crossCuts({
  sections = [],
  usable,
}: Pick<LaidBoard, 'usable'> & { readonly sections?: readonly Pick<Section, 'from' | 'to'>[] }): number[] {
  const last = sections.at(-1);
  const goesOn = last !== undefined && boundsOf(usable.outline).maxX - last.to > SOME_WOOD;
  return [...sections.slice(1).map(({ from }) => from), ...(goesOn ? [last.to] : [])];
}
