import type { Cell } from './tighten-sections.ts';

/** Up to how long pieces of a board are left in one, mm. */
export interface WholeRules {
  /** Longest piece that turns in the saw; longer than any board when all do. */
  readonly longest: number;
  /** An empty piece of at least this length may be kept as it is: it is parted off. */
  readonly keepLength: number;
}

/**
 * The pieces of a board without the cross-cuts that nobody asks for: neighbours that turn in one are not parted, unless
 * one of them is empty and long enough to be kept. Two rests that are too short each may be a keeper in one piece.
 *
 * @param cells from the left
 */
export function withoutNeedlessCuts(
  cells: readonly Cell[],
  { longest, keepLength }: WholeRules,
): { readonly from: number; readonly to: number }[] {
  const partsOff = ({ from, to, carries }: Cell) => carries === undefined && to - from >= keepLength;
  const whole: Cell[] = [];
  for (const cell of cells) {
    const before = whole[whole.length - 1];
    if (before === undefined || partsOff(before) || partsOff(cell) || cell.to - before.from > longest)
      whole.push(cell);
    else
      whole[whole.length - 1] = { from: before.from, to: cell.to, carries: before.carries ?? cell.carries };
  }
  return whole.map(({ from, to }) => ({ from, to }));
}
