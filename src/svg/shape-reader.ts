import { determinant } from '../geometry/affine.ts';
import { FARTHEST_MM } from '../geometry/integer-grid.ts';
import type { DrawingShape } from '../model/drawing.ts';
import { ownValue } from './cascade.ts';
import { describeElement, type SvgElement } from './element.ts';
import { type IssueLog, quote } from './issue-log.ts';
import { labelOf } from './names.ts';
import { fillRuleOf, isPainted, isVisible, visiblePaint } from './paint.ts';
import type { Place } from './place.ts';
import { isWithinReach } from './reach.ts';
import { shapeCurves } from './shape-curves.ts';
import { readLength } from './units.ts';

/** A painted shape, or why nothing of it is painted; it is unseen when there is something that could be. */
export type ShapeReading =
  | { readonly ok: true; readonly shape: DrawingShape }
  | { readonly ok: false; readonly why: string; readonly isUnseen: boolean };

/** Reads a shape element where it stands; `place` is its own user space and style. */
export function readShape(
  element: SvgElement,
  place: Place,
  byId: ReadonlyMap<string, SvgElement>,
  log: IssueLog,
): ShapeReading {
  const { style, map } = place;
  if (!isPainted(style)) return unseen('switched off');
  if (!isVisible(style)) return unseen('hidden');
  const paints = paintsOf(element, place, byId, log);
  if (paints.fill === 'none' && paints.stroke === 'none') return unseen('neither filled nor stroked');
  // Asked before the curves are read: a flattened shape would come out as a line to saw along twice.
  if (determinant(map) === 0) return unseen('its transform flattens it to nothing');
  const curves = shapeCurves({ element, style, frame: place.frame, log }, map);
  if (curves.length === 0) return { ok: false, why: 'it has no extent', isUnseen: false };
  if (!curves.every(isWithinReach) || !(paints.strokeWidth <= FARTHEST_MM))
    return { ok: false, why: reportFarOff(element, log), isUnseen: false };
  const shape: DrawingShape = {
    kind: 'shape',
    id: element.attributes.get('id'),
    label: labelOf(element),
    element: describeElement(element),
    line: element.line,
    curves,
    ...paints,
  };
  return { ok: true, shape };
}

function unseen(why: string): ShapeReading {
  return { ok: false, why, isUnseen: true };
}

function paintsOf(
  element: SvgElement,
  place: Place,
  byId: ReadonlyMap<string, SvgElement>,
  log: IssueLog,
): Pick<DrawingShape, 'fill' | 'fillRule' | 'stroke' | 'strokeWidth'> {
  const { inherited } = place.style;
  const paint = (name: 'fill' | 'stroke'): string =>
    visiblePaint(inherited[name], inherited.color, inherited[`${name}-opacity`], byId);
  const strokeWidth = strokeWidthOf(element, place, log);
  return {
    // A line has no inside.
    fill: element.name === 'line' ? 'none' : paint('fill'),
    fillRule: fillRuleOf(inherited['fill-rule']),
    stroke: strokeWidth > 0 ? paint('stroke') : 'none',
    strokeWidth,
  };
}

/** Line width in mm; under unequal scaling the width of a circle of the same area. */
function strokeWidthOf(element: SvgElement, { style, frame, map }: Place, log: IssueLog): number {
  const text = style.inherited['stroke-width'];
  const reading = readLength(text, 'diagonal', frame);
  if (!reading.ok) {
    log.warn('length-ignored', `stroke-width is taken as 1: ${reading.problem}`, element, {
      received: quote(text),
    });
  }
  const width = reading.ok ? Math.max(0, reading.value) : 1;
  const fixed = ownValue(style, 'vector-effect') === 'non-scaling-stroke';
  // The root of the determinant is the factor of lengths of a map that turns and scales alike both ways.
  return width * (fixed ? frame.mmPerPx : Math.sqrt(Math.abs(determinant(map))));
}

function reportFarOff(element: SvgElement, log: IssueLog): string {
  const why = `it lies farther than ${FARTHEST_MM / 1000} m from the page`;
  log.warn('shape-out-of-range', `the shape is left out: ${why}`, element, {
    remedy: 'Delete it or move it onto the page.',
  });
  return why;
}
