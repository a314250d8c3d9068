import { boundsOf } from '../geometry/shapes.ts';
import type { LaidBoard, Section } from './layout.ts';

/** What of a board beyond its last section is sawn off, mm: less is rounding. */
const SOME_WOOD = 0.01;

/**
 * Where a board is cross-cut to sections, mm along it: the middle of what each cut takes, as a keeper's lines are the middle
 * of theirs. Whoever saw along the line then takes the same of either side, and no part of a section. After the last section
 * there is a cut where the board goes on by less than its width.
 */
export function crossCuts({
  sections = [],
  usable,
}: Pick<LaidBoard, 'usable'> & { readonly sections?: readonly Pick<Section, 'from' | 'to'>[] }): number[] {
  const end = boundsOf(usable.outline).maxX;
  return sections.flatMap(({ to }, i) => {
    const next = i + 1 < sections.length ? sections[i + 1].from : end;
    return i + 1 === sections.length && next - to <= SOME_WOOD ? [] : [(to + next) / 2];
  });
}
