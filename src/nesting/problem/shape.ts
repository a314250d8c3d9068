import type { Box, Region } from '../../geometry/shapes.ts';
import type { BoardEdge } from './container.ts';

/** What is laid out: outlines, and the ways they may lie. */

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
  /** The edge of the board that it has to stand on; undefined when it may lie anywhere. */
  readonly edge: BoardEdge | undefined;
}

/** The shapes of a problem in outlines of more vertices, copies and orientations numbered as they are there. */
export interface FinerShapes {
  readonly shapes: readonly Shape[];
  readonly orientations: readonly Orientation[];
}
