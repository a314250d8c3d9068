import type { LaidBoard } from '../../model/layout.ts';

/** Where a board is cross-cut to sections, mm along it: the left end of every section but the first. */
export function crossCuts({ sections = [] }: LaidBoard): number[] {
  return sections.slice(1).map(({ from }) => from);
}
