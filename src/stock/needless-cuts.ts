import type { Cell } from './tighten-sections.ts';

/** Up to how long pieces of a board are left in one, mm. */
export interface WholeRules {
  /** Longest piece that turns in the saw; longer than any board when all do. */
  readonly longest: number;
  /** An empty piece of at least this length may be kept as it is: it is parted off. */
  readonly keepLength: number;
  /** Distance between what lies in one piece, mm: what a cross-cut parts may lie nearer. */
  readonly gap: number;
}

/**
 * The pieces of a board without the cross-cuts that nobody asks for: neighbours that turn in one are not parted, unless
 * one of them is empty and long enough to be kept, or what lies on either side of the cut would be too near in one piece.
 *
 * @param cells from the left
 */
export function withoutNeedlessCuts(
  cells: readonly Cell[],
  { longest, keepLength, gap }: WholeRules,
): { readonly from: number; readonly to: number }[] {
  const partsOff = ({ from, to, carries }: Cell) => carries === undefined && to - from >= keepLength;
  const areTooNear = (left: Cell['carries'], right: Cell['carries']) =>
    left !== undefined && right !== undefined && right.minX - left.maxX < gap;
  const whole: Cell[] = [];
  for (const cell of cells) {
    const before = whole[whole.length - 1];
    if (
      before === undefined ||
      partsOff(before) ||
      partsOff(cell) ||
      areTooNear(before.carries, cell.carries) ||
      cell.to - before.from > longest
    )
      whole.push(cell);
    else whole[whole.length - 1] = { from: before.from, to: cell.to, carries: allOf(before, cell) };
  }
  return whole.map(({ from, to }) => ({ from, to }));
}

/** Ends of what lies in two neighbours, the left one first. */
function allOf({ carries: left }: Cell, { carries: right }: Cell): Cell['carries'] {
  if (left === undefined || right === undefined) return left ?? right;
  return { minX: left.minX, maxX: right.maxX };
}
