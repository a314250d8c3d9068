import { type Box, boundsOf, type Point, type Region } from '../../geometry/shapes.ts';
import { LEVEL } from '../../stock/sound-edges.ts';

/** What is laid on: boards, sections of them, strips, and what is in the way there. */

/** Something fixed in a container: a defect, or everything outside an outline that is not a box. */
export interface Hazard {
  readonly region: Region;
  /** True when shapes have to stay inside the region's outline instead of off it. */
  readonly frame: boolean;
  /** Distance shapes keep to it, mm; the margin when left out. */
  readonly distance?: number;
}

/** A board or strip. */
export interface Container {
  /** Box around the usable outline, mm. */
  readonly box: Box;
  readonly hazards: readonly Hazard[];
  /** Usable area, mm2. */
  readonly area: number;
  /** What taking the board it belongs to costs, in any unit; the search keeps the sum low. */
  readonly cost: number;
  /** True when it is filled before others: see {@link Board.takenFirst}. */
  readonly first?: boolean;
  /** Containers of one kind are interchangeable. */
  readonly kind: number;
  /** False for a section that ends above the straight edge of its board: nothing stands on its lower edge. */
  readonly hasStraightEdge?: boolean;
  /** True where parts may stand on the top edge as well, head to foot with those on the straight one. */
  readonly hasStraightTop?: boolean;
  /** Containers with the same number are sections of one board, paid for once; one by itself when left out. */
  readonly board?: number;
}

/** The edges of a board that parts may stand on: the straight one, with the largest y, and the top one where that is straight too. */
export const BOARD_EDGES = ['straight', 'top'] as const;

/** One of them. */
export type BoardEdge = (typeof BOARD_EDGES)[number];

/**
 * A frame with one edge moved out by the margin (mm): parts with a rest edge may touch the edge of the board that they
 * stand on, which for all others is the margin away. A slanting edge beside it stays where it is.
 */
export function withoutMargin({ outline, openings }: Region, margin: number, edge: BoardEdge): Region {
  const { minY, maxY } = boundsOf(outline);
  const isLevel = ([, y]: Point) => (edge === 'straight' ? y > maxY - LEVEL : y < minY + LEVEL);
  const out = edge === 'straight' ? margin : -margin;
  const moved = outline.flatMap((corner, i): Point[] => {
    const beside = [outline.at(i - 1)!, outline[(i + 1) % outline.length]];
    // Nothing stands on a corner alone.
    if (!isLevel(corner) || !beside.some(isLevel)) return [corner];
    const [x, y] = corner;
    const [before, after] = beside.map((next) => (isLevel(next) || next[0] === x ? [] : [corner]));
    return [...before, [x, y + out], ...after];
  });
  return { outline: moved, openings };
}
