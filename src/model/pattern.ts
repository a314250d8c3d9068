import type { Box, Line, Region } from '../geometry/shapes.ts';

/** A pattern: the layers of parts of one finished piece, at finished size in mm. */
export interface Pattern {
  /** File name of the drawing. */
  readonly file: string;
  /** Factor from the drawing's millimetres to finished millimetres. */
  readonly scale: number;
  /** Greatest distance in mm between the flattened outlines and the true curves; 0 where all lines are straight and none is cut by a clip path. */
  readonly tolerance: number;
  /** From the back of the drawing to its front. */
  readonly layers: readonly Layer[];
  /** Groups of the drawing that make no layer; not stated when there are none. */
  readonly leftOut?: readonly LeftOutLayer[];
}

/** A group of the drawing that could have been a layer, and why it is none. */
export interface LeftOutLayer {
  readonly name: string;
  /** It is switched off in the drawing, or holds nothing that can be cut. */
  readonly why: 'switched off' | 'no parts';
}

/** A group of the pattern, all cut from one species and thickness. */
export interface Layer {
  readonly name: string;
  readonly parts: readonly Part[];
}

/** One closed piece to cut. */
export interface Part {
  /** Name that is unique in its layer. */
  readonly name: string;
  /** Name of the layer. */
  readonly layer: string;
  /** The element it was read from, `<path id="hull">`. */
  readonly element: string;
  /** Outline and openings, flattened, in finished mm in the frame of the drawing. */
  readonly region: Region;
  /** Open lines sawn with a single pass, in the same frame. */
  readonly veins: readonly Line[];
}

/** What measuring gives for a part, a layer or a set. Lengths in mm, areas in mm2. */
export interface Measures {
  /** Solid area: outlines less openings. */
  readonly area: number;
  /** Length of the outlines. */
  readonly perimeter: number;
  /** What the blade travels: outlines, openings and veins. */
  readonly cutLength: number;
  /** Number of openings: holes to drill and blades to thread. */
  readonly openings: number;
  readonly veins: number;
  readonly bounds: Box;
}
