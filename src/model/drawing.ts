import type { FillRule } from '../geometry/clipper.ts';
import type { Curve } from '../geometry/curve.ts';

/**
 * A drawing as read from a file: a tree of groups and painted shapes, everything in millimetres at the drawn
 * scale, every transform, style, unit and reuse resolved. True curves, not yet flattened.
 */
export interface Drawing {
  /** File name as the caller gave it. */
  readonly file: string;
  /** Page size in mm; undefined when the document states no physical size. */
  readonly page: { readonly width: number; readonly height: number } | undefined;
  readonly root: DrawingGroup;
  /** What became of every element of the file, in the order they were met. */
  readonly account: readonly ElementAccount[];
}

/** What one element of the file became in the drawing, or why it was left out. */
export interface ElementAccount {
  /** The element as a person finds it in the file: `<path id="hull">`. */
  readonly element: string;
  /** Line in the file, from 1; undefined when unknown. */
  readonly line: number | undefined;
  readonly became: 'group' | 'shape' | 'nothing';
  /** Why it became nothing, or what was passed over in it; undefined when it was taken as it is. */
  readonly why: string | undefined;
}

/** A group of the drawing, in painting order. */
export interface DrawingGroup {
  readonly kind: 'group';
  readonly id: string | undefined;
  /** The name a person gave the group in the drawing program. */
  readonly label: string | undefined;
  /** False when the group is switched off in the drawing: nothing in it is painted. */
  readonly visible: boolean;
  /** True when the drawing program marks the group as a layer. */
  readonly isLayer: boolean;
  /** True when the drawing program keeps the group from being edited; it is painted all the same. */
  readonly locked: boolean;
  readonly children: readonly (DrawingGroup | DrawingShape)[];
}

/** One painted shape: an element with its curves. */
export interface DrawingShape {
  readonly kind: 'shape';
  readonly id: string | undefined;
  readonly label: string | undefined;
  /** The element as a person finds it in the file: `<path id="hull">`. */
  readonly element: string;
  /** Line in the file, from 1; undefined when unknown. */
  readonly line: number | undefined;
  readonly curves: readonly Curve[];
  /** The colour of the inside as written, or `none`. */
  readonly fill: string;
  readonly fillRule: Exclude<FillRule, 'positive'>;
  /** The colour of the line as written, or `none`. */
  readonly stroke: string;
  /** Line width in mm. */
  readonly strokeWidth: number;
  /** True where a clip path or the page cuts through it: its curves, and those of the cut, are straight pieces by then. */
  readonly isClipped?: boolean | undefined;
}
