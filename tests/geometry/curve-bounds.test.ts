import { describe, expect, it } from 'vitest';
import { arcFromEndpoints, type Curve, pointAt, type Segment } from '../../src/geometry/curve.ts';
import { boundsOfCurves } from '../../src/geometry/curve-bounds.ts';
import { curveHullBounds, segmentHull } from '../../src/geometry/segment-hull.ts';
import { type Box, boundsOf, boxHolds, grownBox, type Point } from '../../src/geometry/shapes.ts';
import { seeded } from '../seeded.ts';

const random = seeded(11);
const somewhere = (): Point => [200 * random() - 100, 200 * random() - 100];

function randomSegment(from: Point): Segment {
  const kind = random();
  if (kind < 0.2) return { kind: 'line', to: somewhere() };
  if (kind < 0.6) return { kind: 'cubic', c1: somewhere(), c2: somewhere(), to: somewhere() };
  const radii: Point = [20 + 100 * random(), 20 + 100 * random()];
  return arcFromEndpoints(from, {
    radii,
    tilt: 360 * random(),
    largeArc: random() < 0.5,
    clockwise: random() < 0.5,
    to: somewhere(),
  })!;
}

function curveOf(start: Point, ...segments: Segment[]): Curve {
  return { start, segments, closed: false };
}

/** The box by walking along the curve in small steps: never larger than the true one. */
function walked({ start, segments }: Curve, steps = 2000): Box {
  const points: Point[] = [start];
  let from = start;
  for (const segment of segments) {
    for (let i = 1; i <= steps; i++) points.push(pointAt(from, segment, i / steps));
    from = segment.to;
  }
  return boundsOf(points);
}

const sides = ({ minX, minY, maxX, maxY }: Box) => [minX, minY, maxX, maxY];

describe('the tight box around curves', () => {
  it('is that of a walk along them, over random curves', () => {
    for (let round = 0; round < 60; round++) {
      const start = somewhere();
      const first = randomSegment(start);
      const curve = curveOf(start, first, randomSegment(first.to));
      const tight = sides(boundsOfCurves([curve]));
      // Between two steps a curve turns back within a few thousandths.
      sides(walked(curve)).forEach((side, i) => {
        expect(Math.abs(tight[i] - side), `round ${round}`).toBeLessThan(4e-3);
      });
      expect(boxHolds(grownBox(boundsOfCurves([curve]), 1e-9), walked(curve, 50))).toBe(true);
    }
  });

  it('is that of the closed form for circles, ellipses and a symmetric cubic', () => {
    const right: Point = [5, 0];
    const half = (sweep: boolean, to: Point, from: Point) =>
      arcFromEndpoints(from, { radii: [5, 3], tilt: 0, largeArc: false, clockwise: sweep, to })!;
    const ellipse = curveOf(right, half(true, [-5, 0], right), half(true, right, [-5, 0]));
    expect(sides(boundsOfCurves([ellipse])).map((side) => Number(side.toFixed(9)))).toEqual([-5, -3, 5, 3]);
    expect(boundsOfCurves([curveOf(right, half(false, [-5, 0], right))]).minY).toBeCloseTo(-3, 9);
    expect(boundsOfCurves([curveOf(right, half(false, [-5, 0], right))]).maxY).toBeCloseTo(0, 9);
    // x = 3t(1 - t)((1 - t) 9 - t 9): greatest at t = (3 - sqrt 3)/6, where it is 9/(2 sqrt 3) = 1.5 sqrt 3.
    const wave = curveOf([0, 0], { kind: 'cubic', c1: [9, 1], c2: [-9, 2], to: [0, 3] });
    expect(boundsOfCurves([wave]).maxX).toBeCloseTo(1.5 * Math.sqrt(3), 9);
    expect(boundsOfCurves([wave]).minX).toBeCloseTo(-1.5 * Math.sqrt(3), 9);
  });

  it('of an ellipse tilted by 30 degrees reaches sqrt(a^2 cos^2 + b^2 sin^2)', () => {
    const u: Point = [8 * Math.cos(Math.PI / 6), 8 * Math.sin(Math.PI / 6)];
    const v: Point = [-2 * Math.sin(Math.PI / 6), 2 * Math.cos(Math.PI / 6)];
    const start: Point = [1 + u[0], 2 + u[1]];
    const full: Segment = { kind: 'arc', centre: [1, 2], u, v, start: 0, sweep: -2 * Math.PI, to: start };
    const reachX = Math.sqrt(64 * 0.75 + 4 * 0.25);
    const reachY = Math.sqrt(64 * 0.25 + 4 * 0.75);
    for (const box of [boundsOfCurves([curveOf(start, full)]), curveHullBounds(curveOf(start, full))]) {
      [1 - reachX, 2 - reachY, 1 + reachX, 2 + reachY].forEach((side, i) => {
        expect(sides(box)[i]).toBeCloseTo(side, 9);
      });
    }
  });

  it('holds all curves, and is inside out for none', () => {
    const line = (from: Point, to: Point) => curveOf(from, { kind: 'line', to });
    expect(sides(boundsOfCurves([line([1, 2], [3, 4]), line([-5, 9], [0, 0])]))).toEqual([-5, 0, 3, 9]);
    expect(boundsOfCurves([]).minX).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('the points around a segment', () => {
  it('hold it, over random segments, and the start is no part of them', () => {
    for (let round = 0; round < 60; round++) {
      const start = somewhere();
      const curve = curveOf(start, randomSegment(start));
      const rough = curveHullBounds(curve);
      expect(boxHolds(grownBox(rough, 1e-9), walked(curve, 200)), `round ${round}`).toBe(true);
      expect(sides(rough)).toEqual(sides(boundsOf([start, ...segmentHull(curve.segments[0])])));
    }
    expect(segmentHull({ kind: 'line', to: [3, 4] })).toEqual([[3, 4]]);
  });
});
