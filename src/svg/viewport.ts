import { type Affine, applyToPoint, compose, IDENTITY } from '../geometry/affine.ts';
import { boxRing, type Ring } from '../geometry/shapes.ts';
import { ownValue } from './cascade.ts';
import type { SvgElement } from './element.ts';
import { type StyledSource, shiftOf, sizeOf } from './element-lengths.ts';
import { type IssueLog, quote } from './issue-log.ts';
import type { LengthFrame } from './units.ts';
import { readViewBox, type ViewBox, type ViewBoxReading, viewBoxMap } from './view-box.ts';

/** A viewport inside the drawing: where its content goes, and what lengths in it refer to. */
export interface Viewport {
  /** From user units inside to those outside. */
  readonly map: Affine;
  /** Its four corners in user units outside; undefined when its size is not known. */
  readonly area: Ring | undefined;
  readonly frame: LengthFrame;
}

/** Size that a `use` gives to the viewport it refers to, as written: shares of it are still of the frame outside. */
export interface SizeGiven {
  readonly width: string;
  readonly height: string;
}

/**
 * The viewport that a nested `svg` or a used `symbol` makes (SVG 2 sections 8.2 and 5.5). Undefined when it has no
 * area, which paints nothing.
 *
 * @param source its frame is what its own x, y, width and height refer to, in user units outside
 */
export function nestedViewport(source: StyledSource, given: SizeGiven): Viewport | undefined {
  const { element, style, frame, log } = source;
  const side = (name: 'width' | 'height'): number | undefined => {
    const text = given[name] === 'auto' ? ownValue(style, name) : given[name];
    return sizeOf(source, name, text === 'auto' ? '100%' : text, name === 'width' ? 'x' : 'y');
  };
  const width = side('width');
  const height = side('height');
  if (width === 0 || height === 0) return undefined;
  const shift = shiftOf(source);
  const area =
    width === undefined || height === undefined
      ? undefined
      : boxRing({ minX: 0, minY: 0, maxX: width, maxY: height }).map((corner) => applyToPoint(shift, corner));
  const reading = reportedViewBox(element, log);
  if (reading.kind === 'empty') return undefined;
  if (reading.kind !== 'box') {
    const size = { width: width ?? frame.width, height: height ?? frame.height };
    return { map: shift, area, frame: { ...frame, ...size } };
  }
  const { box } = reading;
  // A side that is not known is taken as the viewBox's: user units inside are then those outside.
  const map = fittedMap(box, { width: width ?? box.width, height: height ?? box.height }, element, log);
  return { map: compose(shift, map), area, frame: { ...frame, width: box.width, height: box.height } };
}

/** How large a viewport or page is; in user units unless its user says otherwise. */
export interface ViewportSize {
  readonly width: number;
  readonly height: number;
}

/** The viewBox of an element; one that is mistaken is reported and counts as absent (SVG 2 section 8.6). */
export function reportedViewBox(element: SvgElement, log: IssueLog): ViewBoxReading {
  const text = element.attributes.get('viewBox');
  const reading = readViewBox(text);
  if (reading.kind === 'mistaken') {
    log.warn('view-box-ignored', 'the viewBox is not four numbers: ignored', element, {
      expected: 'viewBox="x y width height", such as "0 0 300 200"',
      received: quote(text ?? ''),
    });
  }
  return reading;
}

/**
 * The map from user units of a viewBox to a viewport of the given size at the origin, by the element's
 * `preserveAspectRatio`; one that is mistaken is reported, and the initial one is taken (SVG 2 section 8.7).
 */
export function fittedMap(
  box: ViewBox,
  { width, height }: ViewportSize,
  element: SvgElement,
  log: IssueLog,
): Affine {
  const text = element.attributes.get('preserveAspectRatio');
  const map = viewBoxMap(box, width, height, text);
  if (map !== undefined) return map;
  log.warn('aspect-ratio-ignored', 'preserveAspectRatio is mistaken: the usual one is taken', element, {
    expected: 'none, or such as "xMidYMid meet"',
    received: quote(text ?? ''),
  });
  return viewBoxMap(box, width, height) ?? IDENTITY;
}
