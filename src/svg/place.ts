import { type Affine, compose, IDENTITY } from '../geometry/affine.ts';
import type { Box } from '../geometry/shapes.ts';
import { ownValue, type Style } from './cascade.ts';
import type { ClipRegion } from './clip-region.ts';
import type { SvgElement } from './element.ts';
import type { StyledSource } from './element-lengths.ts';
import { quote } from './issue-log.ts';
import {
  about,
  readCssTransform,
  readTransformAttribute,
  readTransformOrigin,
  readTransformStep,
  TRANSFORM_STEPS,
  type TransformReading,
} from './transform-list.ts';
import type { LengthFrame } from './units.ts';
import type { UserBox } from './view-box.ts';

/** Where elements are drawn: all that children take over from their parent. */
export interface Place {
  /** From user units to mm on the page. */
  readonly map: Affine;
  readonly style: Style;
  readonly frame: LengthFrame;
  /** How many groups lie around. */
  readonly depth: number;
  /** False inside a group that is switched off. */
  readonly painted: boolean;
  /** What the clip paths around let through: a shape must lie in all of them. */
  readonly clips: readonly ClipRegion[];
  /** True inside what a `use` draws once more. */
  readonly reused: boolean;
}

/** Tells the bounding box of an element in its own user units, or undefined when it has none. */
export interface BoxTeller {
  boxOf(element: SvgElement, style: Style, frame: LengthFrame): Box | undefined;
}

/** What lengths refer to under a style: em follows its font size. */
export function framed(frame: LengthFrame, { fontSize }: Style): LengthFrame {
  return frame.fontSize === fontSize ? frame : { ...frame, fontSize };
}

/**
 * The map of an element's `translate`, `rotate`, `scale` and `transform`, in this order, about its origin (CSS
 * Transforms Level 2, section 6). A mistaken one changes nothing and is reported.
 */
export function transformOf(source: StyledSource, boxes: BoxTeller): Affine {
  const { style, frame } = source;
  const isStill = TRANSFORM_STEPS.every((step) => ownValue(style, step) === 'none');
  const text = ownValue(style, 'transform');
  if (isStill && text === 'none') return IDENTITY;
  const box = referenceBox(source, boxes);
  const boxFrame = box === undefined ? frame : { ...frame, width: box.width, height: box.height };
  let map = IDENTITY;
  for (const step of TRANSFORM_STEPS) {
    const value = ownValue(style, step);
    if (value !== 'none')
      map = compose(map, carriedOut(readTransformStep(step, value, boxFrame), source, step, value));
  }
  const css = style.fromCss.has('transform');
  const reading = css ? readCssTransform(text, boxFrame) : readTransformAttribute(text);
  map = compose(map, carriedOut(reading, source, css ? 'transform in the style' : 'transform', text));
  // The very object and not its numbers: nothing was carried out, so there is nothing to turn about an origin.
  return map === IDENTITY ? map : aboutOrigin(map, { ...source, frame: boxFrame }, box);
}

function carriedOut(
  reading: TransformReading,
  { element, log }: StyledSource,
  what: string,
  text: string,
): Affine {
  if (reading.ok) return reading.map;
  log.warn('transform-ignored', `the ${what} is ignored: ${reading.problem}`, element, {
    received: quote(text),
    remedy:
      what === 'transform'
        ? 'In the attribute, numbers stand without units: translate(10 5) rotate(90).'
        : 'In a style, lengths and angles need units and commas: translate(10px, 5px) rotate(90deg).',
  });
  return IDENTITY;
}

/**
 * The box that shares and origins of a transform refer to: the element's own where `transform-box` asks for it,
 * undefined for the viewport's.
 */
function referenceBox({ element, style, frame, log }: StyledSource, boxes: BoxTeller): UserBox | undefined {
  const kind = ownValue(style, 'transform-box').toLowerCase();
  if (kind === 'view-box') return undefined;
  // For an element of SVG the content box is the fill box (CSS Transforms Level 1, section 6).
  const box = kind === 'fill-box' || kind === 'content-box' ? boxes.boxOf(element, style, frame) : undefined;
  if (box !== undefined) {
    return { x: box.minX, y: box.minY, width: box.maxX - box.minX, height: box.maxY - box.minY };
  }
  log.warn('style-not-carried-out', `transform-box: ${kind} is not carried out`, element, {
    remedy: 'Apply the transform in the drawing program.',
  });
  return undefined;
}

function aboutOrigin(
  map: Affine,
  { element, style, frame, log }: StyledSource,
  box: UserBox | undefined,
): Affine {
  const text = ownValue(style, 'transform-origin');
  const origin = readTransformOrigin(text, frame);
  if (origin !== undefined) return about(map, origin[0] + (box?.x ?? 0), origin[1] + (box?.y ?? 0));
  log.warn('transform-ignored', 'transform-origin is ignored: it is not a place', element, {
    received: quote(text),
  });
  return map;
}
