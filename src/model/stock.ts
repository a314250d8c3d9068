import type { Region, Ring } from '../geometry/shapes.ts';

/**
 * One kind of board as it lies on the bench. x runs along the length and the grain, the straight (ripped) edge is
 * the one with the largest y.
 */
export interface Board {
  readonly id: string;
  readonly species: string;
  /** Measured thickness in mm. */
  readonly thickness: number;
  /** Outline in mm, before any trim; a rectangle has four points from (0, 0). */
  readonly outline: Ring;
  /** Knots, cracks, holes: nothing is placed on them. */
  readonly defects: readonly Ring[];
  /** How many such boards there are. */
  readonly quantity: number;
  /** Price of one board in the maker's currency; undefined when not stated. */
  readonly price: number | undefined;
  /** How many such boards, strips then, one that lies on the rack is ripped into before layout; it is not ripped when left out. */
  readonly strips?: number | undefined;
  /** How many lengths such a board, or each strip of it, is cross-cut into before layout; it is not when left out. */
  readonly lengths?: number | undefined;
  /** What a board was before it was cut into strips and lengths, as it is bought; left out when it is not. */
  readonly whole?: WholeBoard | undefined;
  /** What is ripped and cross-cut off before layout; nothing when left out. */
  readonly trim?: Trim | undefined;
  /** Thickness in mm the board is sold by (`4/4` is 25.4 mm); its measured thickness when left out. */
  readonly nominal?: number | undefined;
  /** True for sheet goods: sold by the sheet, not measured in board feet. */
  readonly sheet?: boolean | undefined;
  /**
   * Whether the edge with the smallest y is straight as well, so that parts may stand on it; as trim and sheet have it when
   * left out.
   */
  readonly straightTopEdge?: boolean | undefined;
  /** True for what was kept of an earlier board. */
  readonly keeper?: boolean | undefined;
  /** What taking it counts in the search, in any unit; its price, or else its area, when left out. */
  readonly takingCost?: number | undefined;
  /** True for a board that is filled before boards that are not: whatever lies on it spares those. */
  readonly takenFirst?: boolean | undefined;
}

/** A board in its full width and length, of which an entry counts the strips and lengths. */
export interface WholeBoard {
  /** mm */
  readonly outline: Ring;
  /** Price of one such board in the maker's currency; undefined when not stated. */
  readonly price: number | undefined;
}

/** Strips taken off a board before layout, mm, the trimming saw's kerf included. */
export interface Trim {
  /** Off the edge with the smallest y. */
  readonly topEdge: number;
  /** Off the edge with the largest y; `clean`: just enough for a straight edge along nearly the whole board. */
  readonly straightEdge: number | 'clean';
  /** Off the end with the smallest x. */
  readonly leftEnd: number;
  /** Off the end with the largest x. */
  readonly rightEnd: number;
}

/** What may be used of a board: trimmed outline with the defects as openings, in mm. */
export type Usable = Region;
