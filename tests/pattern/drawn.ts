import type { Curve } from '../../src/geometry/curve.ts';
import type { Point } from '../../src/geometry/shapes.ts';
import type { Drawing, DrawingGroup, DrawingShape } from '../../src/model/drawing.ts';

/** Small drawings typed by hand, as the SVG reader would give them. */

export function polygon(...points: Point[]): Curve {
  const [start, ...rest] = points;
  return { start, segments: [...rest, start].map((to) => ({ kind: 'line', to })), closed: true };
}

export function polyline(...points: Point[]): Curve {
  const [start, ...rest] = points;
  return { start, segments: rest.map((to) => ({ kind: 'line', to })), closed: false };
}

export function box(x: number, y: number, width: number, height: number): Curve {
  return polygon([x, y], [x + width, y], [x + width, y + height], [x, y + height]);
}

/** Two blocks of 60 x 60 joined by a bar 20 mm long and so many mm wide, lying along x. */
export function blocksJoinedBy(width: number): Curve {
  return polygon(
    [0, 0],
    [60, 0],
    [60, 29],
    [80, 29],
    [80, 0],
    [140, 0],
    [140, 60],
    [80, 60],
    [80, 29 + width],
    [60, 29 + width],
    [60, 60],
    [0, 60],
  );
}

export function circle(cx: number, cy: number, r: number): Curve {
  const start: Point = [cx + r, cy];
  return {
    start,
    segments: [
      { kind: 'arc', centre: [cx, cy], u: [r, 0], v: [0, r], start: 0, sweep: 2 * Math.PI, to: start },
    ],
    closed: true,
  };
}

let serial = 0;

export function shape(curves: Curve[], change: Partial<DrawingShape> = {}): DrawingShape {
  serial++;
  return {
    kind: 'shape',
    id: undefined,
    label: undefined,
    element: `<path #${serial}>`,
    line: undefined,
    curves,
    fill: 'black',
    fillRule: 'nonzero',
    stroke: 'none',
    strokeWidth: 0.5,
    ...change,
  };
}

/** A shape drawn as a line only. */
export function drawn(curves: Curve[], change: Partial<DrawingShape> = {}): DrawingShape {
  return shape(curves, { fill: 'none', stroke: 'black', ...change });
}

export function group(children: DrawingGroup['children'], change: Partial<DrawingGroup> = {}): DrawingGroup {
  return {
    kind: 'group',
    id: undefined,
    label: undefined,
    visible: true,
    locked: false,
    isLayer: false,
    children,
    ...change,
  };
}

export function drawing(children: DrawingGroup['children']): Drawing {
  return { file: 'hand.svg', page: { width: 100, height: 100 }, root: group(children), account: [] };
}
