import type { Affine } from '../geometry/affine.ts';
import { type Curve, mapCurve } from '../geometry/curve.ts';
import { ellipseCurve, lineCurve, pointsCurve, readPoints, rectCurve } from './basic-shapes.ts';
import { ownValue, type Style } from './cascade.ts';
import type { SvgElement } from './element.ts';
import { type LengthSource, lengthOf, sizeOf } from './element-lengths.ts';
import { type IssueLog, quote } from './issue-log.ts';
import { readPathData } from './path-data.ts';
import type { OwnProperty } from './properties.ts';
import type { LengthAxis, LengthFrame } from './units.ts';

/** What an element needs to become curves. */
interface ShapeSource extends LengthSource {
  readonly style: Style;
}

/** The curves of a shape element, carried by `map` from its user units; an empty list when it paints nothing. */
export function shapeCurves(
  element: SvgElement,
  style: Style,
  frame: LengthFrame,
  map: Affine,
  log: IssueLog,
): Curve[] {
  const source: ShapeSource = { element, style, frame, log };
  if (element.name === 'path') return pathCurves(source, map);
  const curve = basicCurve(source);
  return curve === undefined ? [] : [mapCurve(map, curve)];
}

function basicCurve(source: ShapeSource): Curve | undefined {
  switch (source.element.name) {
    case 'rect':
      return rectCurve(
        property(source, 'x', 'x'),
        property(source, 'y', 'y'),
        property(source, 'width', 'x'),
        property(source, 'height', 'y'),
        radius(source, 'rx', 'x'),
        radius(source, 'ry', 'y'),
      );
    case 'circle': {
      const r = property(source, 'r', 'diagonal');
      return ellipseCurve(property(source, 'cx', 'x'), property(source, 'cy', 'y'), r, r);
    }
    case 'ellipse': {
      const rx = radius(source, 'rx', 'x');
      const ry = radius(source, 'ry', 'y');
      return ellipseCurve(
        property(source, 'cx', 'x'),
        property(source, 'cy', 'y'),
        rx ?? ry ?? 0,
        ry ?? rx ?? 0,
      );
    }
    case 'line':
      return lineCurve(
        [attribute(source, 'x1', 'x'), attribute(source, 'y1', 'y')],
        [attribute(source, 'x2', 'x'), attribute(source, 'y2', 'y')],
      );
    default:
      return polyCurve(source);
  }
}

function pathCurves({ element, log }: ShapeSource, map: Affine): Curve[] {
  const data = element.attributes.get('d') ?? '';
  if (data.trim() === 'none') return [];
  const { curves, problem } = readPathData(data, map);
  if (problem !== undefined) {
    log.warn('path-data-broken', `${problem.message}: drawn up to there`, element, {
      received: `${quote(data.slice(Math.max(0, problem.at - 20), problem.at + 12))} at character ${problem.at + 1}`,
      remedy: 'Check the shape in the drawing program.',
    });
  }
  return curves;
}

function polyCurve({ element, log }: ShapeSource): Curve | undefined {
  const { points, problem } = readPoints(element.attributes.get('points') ?? '');
  if (problem !== undefined) {
    log.warn('points-broken', `${problem}: drawn up to there`, element, {
      remedy: 'Check the shape in the drawing program.',
    });
  }
  return pointsCurve(points, element.name === 'polygon');
}

/** A length property in user units; `auto` and mistakes count as 0, a negative size too. */
function property(source: ShapeSource, name: OwnProperty, axis: LengthAxis): number {
  const text = ownValue(source.style, name);
  if (text === 'auto') return 0;
  const isSize = name === 'width' || name === 'height' || name === 'r';
  return (isSize ? sizeOf : lengthOf)(source, name, text, axis) ?? 0;
}

/** A radius in user units; undefined when it follows the other one, as a mistaken one does. */
function radius(source: ShapeSource, name: 'rx' | 'ry', axis: LengthAxis): number | undefined {
  const text = ownValue(source.style, name);
  return text === 'auto' ? undefined : sizeOf(source, name, text, axis);
}

/** An end of a `line`, in user units: an attribute alone, which no style can set (SVG 2 section 10.5). */
function attribute(source: ShapeSource, name: string, axis: LengthAxis): number {
  const text = source.element.attributes.get(name);
  return text === undefined ? 0 : (lengthOf(source, name, text, axis) ?? 0);
}
