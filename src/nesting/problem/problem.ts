import type { Box, Region } from '../../geometry/shapes.ts';
import type { PairTable } from './pair-table.ts';

/**
 * One nesting problem: shapes with their orientations, the copies to place, and the containers to place them in.
 * Boards of one species and thickness make one problem; a strip is a container whose length may shrink.
 */

/** One outline to place, drawn around the middle of its box so that rotations stay near the origin. */
export interface Shape {
  /** Simplified outward, middle of the box at the origin, mm. */
  readonly region: Region;
  /** Solid area of the true region, mm2. */
  readonly area: number;
  /** Numbers of its orientations in the problem. */
  readonly orientations: readonly number[];
}

/** Degrees, least and most, by which a copy may be turned on from an orientation. */
export type TwistRange = readonly [least: number, most: number];

/** One way a shape may lie: turned over or not, then rotated. */
export interface Orientation {
  readonly shape: number;
  /** Degrees, clockwise as seen. */
  readonly degrees: number;
  readonly turnedOver: boolean;
  /** How far a copy may be turned on from here; [0, 0] where the grain fixes the angle. */
  readonly twist: TwistRange;
  /** Box of the shape in this orientation, around its reference point. */
  readonly box: Box;
  /** True when it has to lie on the straight edge of the board. */
  readonly onEdge: boolean;
}

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
  /** Containers with the same number are sections of one board, paid for once; one by itself when left out. */
  readonly board?: number;
}

/** See the top of the file. */
export interface NestingProblem {
  readonly shapes: readonly Shape[];
  readonly orientations: readonly Orientation[];
  /** Shape of every copy to place. */
  readonly shapeOf: Int32Array;
  readonly containers: readonly Container[];
  /** Distance to keep between shapes, mm. */
  readonly gap: number;
  /** Distance to keep to outlines and defects, mm. */
  readonly margin: number;
  /** Depth fields of pairs, built when first asked for. */
  readonly pairs: PairTable;
}
