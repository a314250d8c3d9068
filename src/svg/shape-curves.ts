import type { Affine } from '../geometry/affine.ts';
import { type Curve, mapCurve } from '../geometry/curve.ts';
import type { Point } from '../geometry/shapes.ts';
import { ellipseCurve, lineCurve, pointsCurve, readPoints, rectCurve } from './basic-shapes.ts';
import { ownValue } from './cascade.ts';
import { lengthOf, type StyledSource, sizeOf } from './element-lengths.ts';
import { quote } from './issue-log.ts';
import { readPathData } from './path-data.ts';
import type { OwnProperty } from './properties.ts';
import type { LengthAxis } from './units.ts';

/** The curves of a shape element, carried by `map` from its user units; an empty list when it paints nothing. */
export function shapeCurves(source: StyledSource, map: Affine): Curve[] {
  // Path data carries itself out to the page: mapped afterwards, each of its thousands of segments would be made twice.
  if (source.element.name === 'path') return pathCurves(source, map);
  const curve = basicCurve(source);
  return curve === undefined ? [] : [mapCurve(map, curve)];
}

function basicCurve(source: StyledSource): Curve | undefined {
  switch (source.element.name) {
    case 'rect':
      return rectCurve(
        {
          x: property(source, 'x', 'x'),
          y: property(source, 'y', 'y'),
          width: property(source, 'width', 'x'),
          height: property(source, 'height', 'y'),
        },
        radius(source, 'rx', 'x'),
        radius(source, 'ry', 'y'),
      );
    case 'circle': {
      const r = property(source, 'r', 'diagonal');
      return ellipseCurve(centre(source), [r, r]);
    }
    case 'ellipse': {
      const rx = radius(source, 'rx', 'x');
      const ry = radius(source, 'ry', 'y');
      return ellipseCurve(centre(source), [rx ?? ry ?? 0, ry ?? rx ?? 0]);
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

function pathCurves({ element, log }: StyledSource, map: Affine): Curve[] {
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

function polyCurve({ element, log }: StyledSource): Curve | undefined {
  const { points, problem } = readPoints(element.attributes.get('points') ?? '');
  if (problem !== undefined) {
    log.warn('points-broken', `${problem}: drawn up to there`, element, {
      remedy: 'Check the shape in the drawing program.',
    });
  }
  return pointsCurve(points, element.name === 'polygon');
}

function centre(source: StyledSource): Point {
  return [property(source, 'cx', 'x'), property(source, 'cy', 'y')];
}

/** A length property in user units; `auto` and mistakes count as 0, a negative size too. */
function property(source: StyledSource, name: OwnProperty, axis: LengthAxis): number {
  const text = ownValue(source.style, name);
  if (text === 'auto') return 0;
  const isSize = name === 'width' || name === 'height' || name === 'r';
  return (isSize ? sizeOf : lengthOf)(source, name, text, axis) ?? 0;
}

/** A radius in user units; undefined when it follows the other one, as a mistaken one does. */
function radius(source: StyledSource, name: 'rx' | 'ry', axis: LengthAxis): number | undefined {
  const text = ownValue(source.style, name);
  return text === 'auto' ? undefined : sizeOf(source, name, text, axis);
}

/** An end of a `line`, in user units: an attribute alone, which no style can set (SVG 2 section 10.5). */
function attribute(source: StyledSource, name: string, axis: LengthAxis): number {
  const text = source.element.attributes.get(name);
  return text === undefined ? 0 : (lengthOf(source, name, text, axis) ?? 0);
}
