import { type Box, boundsOf, boxesOverlap, type Line } from '../../geometry/shapes.ts';
import { isRip, ripsBeside, stripBetween } from '../../model/cross-cuts.ts';
import { keeperCuts } from '../../model/keeper-cuts.ts';
import type { LaidBoard, Offcut } from '../../model/layout.ts';
import { DISTANCE_TOLERANCE } from './tolerances.ts';

/**
 * Whether a keeper can be had of a board that is cross-cut to sections. It is left of one of them, and what frees it is sawn in
 * that one; or rips that go from the end of one section to that of another free a strip along several, before they are parted.
 */
export function isAcrossSections(board: LaidBoard, offcut: Offcut): boolean {
  const { sections = [] } = board;
  if (sections.length === 0) return false;
  const box = boundsOf(offcut.region.outline);
  const long = offcut.lines.filter((line) => !isInOneSection(board, boundsOf(line)));
  if (!long.every((line) => isRipOverSections(board, line) && isInTurn(board, line))) return true;
  return !isInOneSection(board, box) && !isInStrip(board, box, offcut.lines.filter(isRip).map(boundsOf));
}

/** Whether a box lies in one section, or in what a crack parts from the piece of the board that has the sections. */
function isInOneSection({ sections = [], usable }: LaidBoard, { minX, maxX }: Box): boolean {
  const used = boundsOf(usable.outline);
  const pieces = [
    ...sections,
    { from: Number.NEGATIVE_INFINITY, to: used.minX },
    { from: used.maxX, to: Number.POSITIVE_INFINITY },
  ];
  return pieces.some(({ from, to }) => minX >= from - DISTANCE_TOLERANCE && maxX <= to + DISTANCE_TOLERANCE);
}

/** A level cut from the end of one section to that of another: no wood is left that would hold the pieces together. */
function isRipOverSections({ sections = [] }: LaidBoard, line: Line): boolean {
  const { minX, minY, maxX, maxY } = boundsOf(line);
  const isNear = (a: number, b: number) => Math.abs(a - b) <= DISTANCE_TOLERANCE;
  return (
    isNear(minY, maxY) &&
    sections.some(({ from }) => isNear(from, minX)) &&
    sections.some(({ to }) => isNear(to, maxX))
  );
}

/** Whether a rip can be made with all others: where two share a length of the board, one of them goes all along the other. */
function isInTurn(board: LaidBoard, line: Line): boolean {
  const own = boundsOf(line);
  return keeperCuts(board)
    .filter((other) => isRip(other) && !isInOneSection(board, boundsOf(other)))
    .every((other) => {
      const { minX, maxX } = boundsOf(other);
      const isBeside = maxX <= own.minX + DISTANCE_TOLERANCE || minX >= own.maxX - DISTANCE_TOLERANCE;
      const holds = minX >= own.minX - DISTANCE_TOLERANCE && maxX <= own.maxX + DISTANCE_TOLERANCE;
      const isHeld = minX <= own.minX + DISTANCE_TOLERANCE && maxX >= own.maxX - DISTANCE_TOLERANCE;
      return isBeside || holds || isHeld;
    });
}

/** Whether rips part a strip that holds the keeper and no part from what is cross-cut: a rip that ends beside it frees no piece. */
function isInStrip({ usable, placements }: LaidBoard, keeper: Box, rips: readonly Box[]): boolean {
  const isAlong = rips.every(
    (rip) => rip.minX <= keeper.minX + DISTANCE_TOLERANCE && rip.maxX >= keeper.maxX - DISTANCE_TOLERANCE,
  );
  const { above, below } = ripsBeside(rips, keeper);
  const isParted = above.length + below.length > 0;
  const strip = stripBetween(rips, keeper, boundsOf(usable.outline));
  return (
    isAlong && isParted && !placements.some(({ region }) => boxesOverlap(boundsOf(region.outline), strip))
  );
}
