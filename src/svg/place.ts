import { type Affine, compose, IDENTITY } from '../geometry/affine.ts';
import type { Point } from '../geometry/shapes.ts';
import { ownValue, type Style } from './cascade.ts';
import type { ClipRegion } from './clip-region.ts';
import type { SvgElement } from './element.ts';
import { type IssueLog, quote } from './issue-log.ts';
import { about, readCssTransform, readTransformAttribute, readTransformOrigin } from './transform-list.ts';
import { type LengthFrame, readLength } from './units.ts';
import { readViewBox, viewBoxMap } from './view-box.ts';

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

/** The map of an element's `transform` with its origin; the identity, and a warning, when it is mistaken. */
export function transformOf(element: SvgElement, style: Style, frame: LengthFrame, log: IssueLog): Affine {
  const text = ownValue(style, 'transform');
  if (text === 'none') return IDENTITY;
  const css = style.fromCss.has('transform');
  const reading = css ? readCssTransform(text, frame) : readTransformAttribute(text);
  if (!reading.ok) {
    log.add('warning', 'transform-ignored', `the transform is ignored: ${reading.problem}`, element, {
      received: quote(text),
      remedy: css
        ? 'In a style, lengths and angles need units and commas: translate(10px, 5px) rotate(90deg).'
        : 'In the attribute, numbers stand without units: translate(10 5) rotate(90).',
    });
    return IDENTITY;
  }
  return aboutOrigin(reading.map, element, style, frame, log);
}

function aboutOrigin(
  map: Affine,
  element: SvgElement,
  style: Style,
  frame: LengthFrame,
  log: IssueLog,
): Affine {
  const box = ownValue(style, 'transform-box');
  if (box !== 'view-box' && style.own.has('transform-origin')) {
    log.add('warning', 'style-not-carried-out', `transform-box: ${box} is not carried out`, element, {
      remedy: 'Apply the transform in the drawing program.',
    });
  }
  const text = ownValue(style, 'transform-origin');
  const origin = readTransformOrigin(text, frame);
  if (origin !== undefined) return about(map, origin[0], origin[1]);
  log.add('warning', 'transform-ignored', 'transform-origin is ignored: it is not a place', element, {
    received: quote(text),
  });
  return map;
}

/** A viewport inside the drawing: where its content goes, and what lengths in it refer to. */
export interface Viewport {
  /** From user units inside to those outside. */
  readonly map: Affine;
  /** Its four corners in user units outside; undefined when its size is not known. */
  readonly area: readonly Point[] | undefined;
  readonly frame: LengthFrame;
}

/** Size that a `use` gives to the viewport it refers to, as written. */
export interface SizeGiven {
  readonly width: string;
  readonly height: string;
}

/**
 * The viewport that a nested `svg` or a used `symbol` makes (SVG 2 sections 8.2 and 5.5). Undefined when it has no
 * area, which paints nothing.
 */
export function nestedViewport(
  element: SvgElement,
  style: Style,
  frame: LengthFrame,
  given: SizeGiven,
  log: IssueLog,
): Viewport | undefined {
  const side = (name: 'width' | 'height'): number | undefined => {
    const text = given[name] === 'auto' ? ownValue(style, name) : given[name];
    return lengthIn(text === 'auto' ? '100%' : text, name === 'width' ? 'x' : 'y', name, element, frame, log);
  };
  const width = side('width');
  const height = side('height');
  if (width === 0 || height === 0) return undefined;
  const shift: Affine = [
    1,
    0,
    0,
    1,
    lengthOr0('x', element, style, frame, log),
    lengthOr0('y', element, style, frame, log),
  ];
  const area = width === undefined || height === undefined ? undefined : corners(shift, width, height);
  const reading = readViewBox(element.attributes.get('viewBox'));
  if (reading.kind === 'empty') return undefined;
  if (reading.kind !== 'box') {
    if (reading.kind === 'mistaken') warnViewBox(element, log);
    return {
      map: shift,
      area,
      frame: { ...frame, width: width ?? frame.width, height: height ?? frame.height },
    };
  }
  const { box } = reading;
  const text = element.attributes.get('preserveAspectRatio');
  const fit = viewBoxMap(box, width ?? box.width, height ?? box.height, text);
  if (fit === undefined) warnAspect(element, text ?? '', log);
  const map = fit ?? viewBoxMap(box, width ?? box.width, height ?? box.height) ?? IDENTITY;
  return { map: compose(shift, map), area, frame: { ...frame, width: box.width, height: box.height } };
}

function corners([, , , , x, y]: Affine, width: number, height: number): Point[] {
  return [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ];
}

/** The x or y of an element in user units. */
export function lengthOr0(
  name: 'x' | 'y',
  element: SvgElement,
  style: Style,
  frame: LengthFrame,
  log: IssueLog,
): number {
  return lengthIn(ownValue(style, name), name, name, element, frame, log) ?? 0;
}

function lengthIn(
  text: string,
  axis: 'x' | 'y',
  name: string,
  element: SvgElement,
  frame: LengthFrame,
  log: IssueLog,
): number | undefined {
  const reading = readLength(text, axis, frame);
  if (reading.ok && reading.value < 0 && name.length > 1) {
    log.add('warning', 'length-ignored', `${name} is ignored: it is negative`, element, {
      received: quote(text),
    });
    return undefined;
  }
  if (reading.ok) return reading.value;
  log.add('warning', 'length-ignored', `${name} is ignored: ${reading.problem}`, element, {
    received: quote(text),
  });
  return undefined;
}

function warnViewBox(element: SvgElement, log: IssueLog): void {
  log.add('warning', 'view-box-ignored', 'the viewBox is not four numbers: ignored', element, {
    received: quote(element.attributes.get('viewBox') ?? ''),
  });
}

function warnAspect(element: SvgElement, text: string, log: IssueLog): void {
  log.add(
    'warning',
    'aspect-ratio-ignored',
    'preserveAspectRatio is mistaken: the usual one is taken',
    element,
    {
      received: quote(text),
    },
  );
}
