import type { Curve, Segment } from '../geometry/curve.ts';
import type { Point } from '../geometry/shapes.ts';
import { NumberScanner } from './number-scanner.ts';
import type { UserBox } from './view-box.ts';

/**
 * The basic shapes as the paths SVG 2 section 10 says they equal. Lengths are user units, already resolved. A side
 * or radius of zero paints nothing, which is undefined here.
 */

/**
 * A rectangle, clockwise from the top side, in user units; a radius that is undefined (`auto`) follows the other one,
 * and no radius is more than half its side (section 10.2).
 */
export function rectCurve(
  { x, y, width, height }: UserBox,
  radiusX: number | undefined,
  radiusY: number | undefined,
): Curve | undefined {
  if (!(width > 0 && height > 0)) return undefined;
  const rx = Math.min(radiusX ?? radiusY ?? 0, width / 2);
  const ry = Math.min(radiusY ?? radiusX ?? 0, height / 2);
  const right = x + width;
  const bottom = y + height;
  if (!(rx > 0 && ry > 0))
    return closedLines([
      [x, y],
      [right, y],
      [right, bottom],
      [x, bottom],
    ]);
  const radii: Point = [rx, ry];
  const segments: Segment[] = [
    { kind: 'line', to: [right - rx, y] },
    quarter([right - rx, y + ry], radii, 3, [right, y + ry]),
    { kind: 'line', to: [right, bottom - ry] },
    quarter([right - rx, bottom - ry], radii, 0, [right - rx, bottom]),
    { kind: 'line', to: [x + rx, bottom] },
    quarter([x + rx, bottom - ry], radii, 1, [x, bottom - ry]),
    { kind: 'line', to: [x, y + ry] },
    quarter([x + rx, y + ry], radii, 2, [x + rx, y]),
  ];
  return { start: [x + rx, y], segments: withoutStandstill([x + rx, y], segments), closed: true };
}

/** An ellipse, from its rightmost point clockwise in four quarters (section 10.4); centre and radii in user units. */
export function ellipseCurve(centre: Point, radii: Point): Curve | undefined {
  const [cx, cy] = centre;
  const [rx, ry] = radii;
  if (!(rx > 0 && ry > 0)) return undefined;
  const start: Point = [cx + rx, cy];
  const ends: readonly Point[] = [[cx, cy + ry], [cx - rx, cy], [cx, cy - ry], start];
  return { start, segments: ends.map((to, turn) => quarter(centre, radii, turn, to)), closed: true };
}

/** A straight line; undefined when both ends are one point. */
export function lineCurve(from: Point, to: Point): Curve | undefined {
  if (from[0] === to[0] && from[1] === to[1]) return undefined;
  return { start: from, segments: [{ kind: 'line', to }], closed: false };
}

/** A point list as read, with what stopped the reading. */
export interface PointsReading {
  readonly points: readonly Point[];
  readonly problem: string | undefined;
}

/** Reads the `points` of a polyline or polygon up to the first mistake (section 10.6). */
export function readPoints(text: string): PointsReading {
  const scanner = new NumberScanner(text);
  const numbers: number[] = [];
  scanner.skipSpace();
  let problem: string | undefined;
  while (!scanner.ended && problem === undefined) {
    const value = scanner.number();
    if (Number.isNaN(value)) problem = `"${text.slice(scanner.at, scanner.at + 8)}" is not a number`;
    else numbers.push(value);
    scanner.skipSeparator();
  }
  if (problem === undefined && numbers.length % 2 === 1) problem = 'the last point has no y';
  const points: Point[] = [];
  for (let i = 0; i + 1 < numbers.length; i += 2) points.push([numbers[i], numbers[i + 1]]);
  return { points, problem };
}

/** A polyline or polygon; undefined with fewer than two points. */
export function pointsCurve(points: readonly Point[], closed: boolean): Curve | undefined {
  if (points.length < 2) return undefined;
  if (closed) return closedLines(points);
  return { start: points[0], segments: points.slice(1).map((to) => ({ kind: 'line', to })), closed };
}

function closedLines(points: readonly Point[]): Curve {
  const [start, ...rest] = points;
  const last = points[points.length - 1];
  const ends = last[0] === start[0] && last[1] === start[1] ? rest : [...rest, start];
  return { start, segments: ends.map((to) => ({ kind: 'line', to })), closed: true };
}

/**
 * A quarter of an ellipse that begins `turn` quarters after the rightmost point, clockwise. It ends where the caller
 * says and not where sine and cosine would, so that the next piece joins it to the last bit.
 */
function quarter(centre: Point, [rx, ry]: Point, turn: number, to: Point): Segment {
  const start = (turn * Math.PI) / 2;
  return { kind: 'arc', centre, u: [rx, 0], v: [0, ry], start, sweep: Math.PI / 2, to };
}

/** Straight sides of no length, left over where radii take a whole side, are dropped. */
function withoutStandstill(start: Point, segments: readonly Segment[]): Segment[] {
  let from = start;
  return segments.filter((segment) => {
    const moves = segment.kind !== 'line' || segment.to[0] !== from[0] || segment.to[1] !== from[1];
    from = segment.to;
    return moves;
  });
}
