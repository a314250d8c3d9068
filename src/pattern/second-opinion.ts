import { coveredArea } from '../geometry/area-check.ts';
import { curveLength } from '../geometry/curve-length.ts';
import { lengthBySecondRuler } from '../geometry/path-ruler.ts';
import { regionsArea } from '../geometry/ring.ts';
import type { Issue } from '../issues/issue.ts';
import type { Drawing, DrawingShape } from '../model/drawing.ts';
import { paintedShapes } from '../model/painted-shapes.ts';
import type { Pattern } from '../model/pattern.ts';

/** Relative difference of two areas, and of two lengths, that is worth a person's eye. A cusp alone makes 0.6 %. */
const AREA_DIFFERENCE = 1e-4;
const LENGTH_DIFFERENCE = 0.01;

/** Areas that differ by less, mm2, are told with the same figures: the corners of a layer of a few mm2, rounded, make as much. */
const LEAST_AREA_DIFFERENCE = 0.01;

/** Lengths below this, drawn mm, are not compared: rounding alone would tell. */
const SHORTEST = 0.1;

/**
 * Measures again with other libraries than those that made the parts: the area of every layer, and the length of
 * every curve. Two rulers that differ are reported; neither is taken for right.
 */
export function secondOpinion(drawing: Drawing, pattern: Pattern): Issue[] {
  return [
    ...areasAgain(pattern),
    ...[...paintedShapes(drawing.root)].flatMap((shape) => lengthsAgain(shape, drawing.file)),
  ];
}

function areasAgain({ layers, file }: Pattern): Issue[] {
  return layers.flatMap(({ name, parts }): Issue[] => {
    const regions = parts.map(({ region }) => region);
    const area = regionsArea(regions);
    const again = coveredArea(regions).area;
    if (Math.abs(again - area) <= Math.max(AREA_DIFFERENCE * area, LEAST_AREA_DIFFERENCE)) return [];
    return [
      {
        kind: 'areas-differ',
        severity: 'warning',
        message: 'two ways of measuring the area of the layer differ; its parts may overlap or touch',
        expected: `${area.toFixed(2)} mm2`,
        received: `${again.toFixed(2)} mm2`,
        remedy: 'Look for parts that lie on one another, and move or unite them.',
        where: { file, layer: name },
      },
    ];
  });
}

function lengthsAgain(shape: DrawingShape, file: string): Issue[] {
  return shape.curves.flatMap((curve): Issue[] => {
    const length = curveLength(curve, 1e-6);
    const again = length < SHORTEST ? length : lengthBySecondRuler(curve);
    if (Math.abs(again - length) <= LENGTH_DIFFERENCE * length) return [];
    return [
      {
        kind: 'lengths-differ',
        severity: 'warning',
        message: 'two ways of measuring the length of a curve differ; look at its handles',
        expected: `${length.toFixed(2)} mm as drawn`,
        received: `${again.toFixed(2)} mm`,
        remedy: 'Draw the curve again where it comes to a point or turns back on itself.',
        where: { file, element: shape.element, line: shape.line },
      },
    ];
  });
}
