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
  /** Outline in mm; a rectangle has four points from (0, 0). */
  readonly outline: Ring;
  /** Knots, cracks, holes: nothing is placed on them. */
  readonly defects: readonly Ring[];
  /** How many such boards there are. */
  readonly quantity: number;
  /** Price of one board in the maker's currency; undefined when not stated. */
  readonly price: number | undefined;
}

/** What may be used of a board: outline with the defects as openings, in mm. */
export type Usable = Region;
