import { isBox } from '../geometry/ring.ts';
import { type Box, boundsOf, type Region } from '../geometry/shapes.ts';
import { earliestEnd, latestStart, onGrid, SHORTEST } from './sections.ts';

/**
 * Part lines drawn after a layout: what no part needs goes to the empty pieces of a board, so that one large piece is
 * left to keep and not a bit of every section.
 */

/** A piece of a board between two cross-cuts, mm along the board. */
export interface Cell {
  readonly from: number;
  readonly to: number;
  /** Ends of what lies in it; undefined when nothing does. */
  readonly carries: { readonly minX: number; readonly maxX: number } | undefined;
}

/** A cell whose ends have been moved, and how far what lies in it moves along the board, mm. */
export interface TightCell extends Cell {
  readonly shift: number;
}

/** How cells may be tightened, mm. */
export interface TightenRules {
  /** Left between what lies in a cell and its ends. */
  readonly margin: number;
  /** Width of a cross-cut. */
  readonly kerf: number;
  /** False when something must stay where it is. */
  readonly mayShift: boolean;
}

/**
 * The cells of a board drawn together. On a plain rectangle everything moves to the left and the rest gathers at the
 * right end; on any other board, where wood differs from place to place, only lines beside empty room move.
 *
 * @param cells from the left; neighbours that carry nothing are one cell
 */
export function tightened(usable: Region, cells: readonly Cell[], rules: TightenRules): TightCell[] {
  if (cells.length < 2) return cells.map((cell) => ({ ...cell, shift: 0 }));
  return rules.mayShift && isPlain(usable)
    ? closedUp(boundsOf(usable.outline), cells, rules)
    : withMovedLines(cells, rules);
}

function isPlain({ outline, openings }: Region): boolean {
  return openings.length === 0 && isBox(outline);
}

function closedUp({ minX, maxX }: Box, cells: readonly Cell[], { margin, kerf }: TightenRules): TightCell[] {
  const longest = Math.max(...cells.map(({ from, to }) => to - from));
  const tight: TightCell[] = [];
  let from = minX;
  for (const { from: was, to, carries } of cells) {
    if (carries === undefined) continue;
    // Never to the right: a cell that is as tight as it can be stays where it is.
    const start = Math.min(from, was);
    const shift = Math.min(0, -onGrid(carries.minX - margin - start));
    const moved = { from: start, carries: { minX: carries.minX + shift, maxX: carries.maxX + shift } };
    const end = Math.min(to + (start - was), earliestEnd(start, moved.carries.maxX, margin));
    tight.push({ ...moved, to: end, shift });
    from = onGrid(end + kerf);
  }
  const last = tight[tight.length - 1];
  if (maxX - from < SHORTEST && maxX - last.from <= longest)
    return [...tight.slice(0, -1), { ...last, to: maxX }];
  // What is no wider than the cut falls away with it.
  if (maxX - from <= 0) return tight;
  return [...tight, { from, to: maxX, carries: undefined, shift: 0 }];
}

function withMovedLines(cells: readonly Cell[], { margin, kerf }: TightenRules): TightCell[] {
  const tight = cells.map((cell) => ({ ...cell, shift: 0 }));
  for (let i = 0; i + 1 < tight.length; i++) {
    const left = tight[i];
    const right = tight[i + 1];
    // Where what the two carry lets them end and begin; an empty one has no say.
    const end = left.carries && Math.min(left.to, earliestEnd(left.from, left.carries.maxX, margin));
    const start = right.carries && Math.max(right.from, latestStart(right.to, right.carries.minX, margin));
    if (end !== undefined && start === undefined) {
      left.to = end;
      right.from = onGrid(end + kerf);
    } else if (end === undefined && start !== undefined) {
      right.from = start;
      left.to = onGrid(start - kerf);
    } else if (
      end !== undefined &&
      start !== undefined &&
      left.to - end >= SHORTEST &&
      start - right.from >= SHORTEST
    ) {
      // Two rests that meet at a line are worth more in one piece: with a line at either end instead of one between.
      left.to = end;
      right.from = start;
      const between = { from: onGrid(end + kerf), to: onGrid(start - kerf), carries: undefined, shift: 0 };
      tight.splice(++i, 0, between);
    }
  }
  return tight;
}
