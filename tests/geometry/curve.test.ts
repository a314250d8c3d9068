import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rotation } from '../../src/geometry/affine.ts';
import {
  arcFromEndpoints,
  type Curve,
  cubicFromQuadratic,
  mapCurve,
  pointAt,
  type Segment,
} from '../../src/geometry/curve.ts';
import { curveLength } from '../../src/geometry/curve-length.ts';
import { flattenCurve, longerHalfAxis } from '../../src/geometry/flatten.ts';
import { lengthBySecondRuler } from '../../src/geometry/path-ruler.ts';
import { distanceToSegment } from '../../src/geometry/ring.ts';
import type { Point } from '../../src/geometry/shapes.ts';
import { curveArea } from '../curve-area.ts';
import { outsideCheck } from '../outside-check.ts';

const ellipse = (rx: number, ry: number): Curve => ({
  start: [rx, 0],
  segments: [
    { kind: 'arc', centre: [0, 0], u: [rx, 0], v: [0, ry], start: 0, sweep: 2 * Math.PI, to: [rx, 0] },
  ],
  closed: true,
});

/**
 * Circumference of an ellipse, 4 a E(e): the complete elliptic integral of the second kind by the
 * arithmetic-geometric mean (Abramowitz and Stegun 1964, section 17.6).
 */
function ellipseCircumference(rx: number, ry: number): number {
  let a = Math.max(rx, ry);
  let b = Math.min(rx, ry);
  const semiMajor = a;
  let c = Math.sqrt(a * a - b * b);
  let sum = (c * c) / 2;
  let power = 1;
  while (Math.abs(c) > 1e-16 * semiMajor) {
    const next = (a + b) / 2;
    c = (a - b) / 2;
    b = Math.sqrt(a * b);
    a = next;
    sum += power * c * c;
    power *= 2;
  }
  return (2 * Math.PI * (semiMajor * semiMajor - sum)) / a;
}

/** Circle, ellipse, rounded rectangle and regular polygon have closed forms: any geometry handbook. */
describe('curveLength and curveArea against closed forms', () => {
  it('circle: 2 pi r and pi r^2', () => {
    outsideCheck({
      what: 'Circle of radius 50 mm: circumference in mm, area in mm2',
      source: 'Closed form: 2 pi r, pi r^2',
      expected: [100 * Math.PI, 2500 * Math.PI],
      found: [curveLength(ellipse(50, 50)), curveArea(ellipse(50, 50))],
      tolerance: 1e-9,
    });
  });

  it.each([
    [50, 30],
    [100, 1],
    [3, 70],
    [10, 10],
  ])('ellipse %d x %d: 4 a E(e) and pi a b', (rx, ry) => {
    outsideCheck({
      what: `Ellipse ${rx} x ${ry} mm: circumference in mm, area in mm2`,
      source: 'Abramowitz and Stegun 1964, section 17.6: 4 a E(e) by the arithmetic-geometric mean; pi a b',
      expected: [ellipseCircumference(rx, ry), Math.PI * rx * ry],
      found: [curveLength(ellipse(rx, ry)), curveArea(ellipse(rx, ry))],
      tolerance: 1e-7,
    });
  });

  it('rounded rectangle: four sides and a circle', () => {
    const [w, h, r] = [80, 50, 12];
    const quarter = (from: Point, to: Point) =>
      arcFromEndpoints(from, { radii: [r, r], tilt: 0, largeArc: false, clockwise: true, to }) as Segment;
    const curve: Curve = {
      start: [r, 0],
      segments: [
        { kind: 'line', to: [w - r, 0] },
        quarter([w - r, 0], [w, r]),
        { kind: 'line', to: [w, h - r] },
        quarter([w, h - r], [w - r, h]),
        { kind: 'line', to: [r, h] },
        quarter([r, h], [0, h - r]),
        { kind: 'line', to: [0, r] },
        quarter([0, r], [r, 0]),
      ],
      closed: true,
    };
    expect(curveLength(curve)).toBeCloseTo(2 * (w + h) - 8 * r + 2 * Math.PI * r, 9);
    expect(curveArea(curve)).toBeCloseTo(w * h - (4 - Math.PI) * r * r, 8);
  });

  it('parabola by a quadratic: closed-form arc length (Gray 1997, parabola)', () => {
    // y = x^2 from 0 to 1 has length sqrt(5)/2 + asinh(2)/4 and area under the chord 1/6.
    const curve: Curve = {
      start: [0, 0],
      segments: [cubicFromQuadratic([0, 0], [0.5, 0], [1, 1])],
      closed: false,
    };
    expect(curveLength(curve)).toBeCloseTo(Math.sqrt(5) / 2 + Math.asinh(2) / 4, 10);
    expect(Math.abs(curveArea({ ...curve, closed: true }))).toBeCloseTo(1 / 6, 12);
  });
});

/** An arc of a circle from the origin. */
function roundArc(radius: number, to: Point, largeArc: boolean, clockwise: boolean) {
  const arc = arcFromEndpoints([0, 0], { radii: [radius, radius], tilt: 0, largeArc, clockwise, to });
  if (arc?.kind !== 'arc') throw new Error('not an arc');
  return arc;
}

/** W3C SVG 2, appendix B.2.4 and B.2.5. */
describe('arcFromEndpoints by the rules of SVG 2', () => {
  it('gives the four arcs of one pair of ends', () => {
    const centres = [
      [false, false],
      [false, true],
      [true, false],
      [true, true],
    ].map(([large, sweep]) => {
      const arc = roundArc(5, [6, 0], large, sweep);
      expect(Math.abs(arc.sweep) > Math.PI).toBe(large);
      expect(arc.sweep > 0).toBe(sweep);
      return arc.centre.map((c) => Math.round(c * 1e9) / 1e9 + 0);
    });
    expect(centres).toEqual([
      [3, -4],
      [3, 4],
      [3, 4],
      [3, -4],
    ]);
  });

  it('scales radii up that are too small, to a half turn', () => {
    const arc = roundArc(1, [10, 0], false, true);
    expect(arc.centre[0]).toBeCloseTo(5, 12);
    expect(arc.centre[1]).toBeCloseTo(0, 7);
    expect(longerHalfAxis(arc.u, arc.v)).toBeCloseTo(5, 12);
    expect(arc.sweep).toBeCloseTo(Math.PI, 7);
  });

  it('is a line with a zero radius and nothing between equal ends; negative radii lose their sign', () => {
    expect(
      arcFromEndpoints([0, 0], { radii: [0, 5], tilt: 0, largeArc: false, clockwise: true, to: [10, 0] }),
    ).toEqual({ kind: 'line', to: [10, 0] });
    expect(
      arcFromEndpoints([1, 1], { radii: [5, 5], tilt: 0, largeArc: false, clockwise: true, to: [1, 1] }),
    ).toBeUndefined();
    expect(
      arcFromEndpoints([0, 0], { radii: [-5, 5], tilt: 0, largeArc: false, clockwise: true, to: [6, 0] }),
    ).toEqual(
      arcFromEndpoints([0, 0], { radii: [5, 5], tilt: 0, largeArc: false, clockwise: true, to: [6, 0] }),
    );
  });

  it('starts and ends where it should, for random arcs', () => {
    const number = fc.integer({ min: -10_000, max: 10_000 }).map((n) => n / 100);
    fc.assert(
      fc.property(
        number,
        number,
        number,
        number,
        number,
        number,
        number,
        fc.boolean(),
        fc.boolean(),
        (x, y, rx, ry, tilt, toX, toY, large, sweep) => {
          fc.pre(Math.abs(rx) > 0.01 && Math.abs(ry) > 0.01 && Math.hypot(toX - x, toY - y) > 0.01);
          const arc = arcFromEndpoints([x, y], {
            radii: [rx, ry],
            tilt,
            largeArc: large,
            clockwise: sweep,
            to: [toX, toY],
          });
          if (arc === undefined) throw new Error('no arc');
          const [sx, sy] = pointAt([x, y], arc, 0);
          const [ex, ey] = pointAt([x, y], arc, 1);
          const scale = 1 + Math.max(Math.abs(rx), Math.abs(ry), Math.hypot(toX - x, toY - y));
          expect(Math.hypot(sx - x, sy - y)).toBeLessThan(1e-6 * scale);
          expect(Math.hypot(ex - toX, ey - toY)).toBeLessThan(1e-6 * scale);
        },
      ),
      { seed: 7, numRuns: 500 },
    );
  });
});

const coordinate = fc.double({ min: -80, max: 80, noNaN: true });
const anyPoint = fc.tuple(coordinate, coordinate);
const cubicCurve = fc
  .tuple(anyPoint, anyPoint, anyPoint, anyPoint)
  .map(([start, c1, c2, to]): Curve => ({ start, segments: [{ kind: 'cubic', c1, c2, to }], closed: false }));
const arcCurve = fc
  .tuple(
    anyPoint,
    anyPoint,
    anyPoint,
    fc.double({ min: -6, max: 6, noNaN: true }),
    fc.double({ min: -6.2, max: 6.2, noNaN: true }),
  )
  .map(([centre, u, v, start, sweep]): Curve => {
    const arc = { kind: 'arc', centre, u, v, start, sweep, to: [0, 0] } as const;
    return {
      start: pointAt([0, 0], arc, 0),
      segments: [{ ...arc, to: pointAt([0, 0], arc, 1) }],
      closed: false,
    };
  });

describe('flattenCurve', () => {
  it.each([1, 0.1, 0.01, 0.001])(
    'keeps within a tolerance of %d mm on random cubics and arcs',
    (tolerance) => {
      fc.assert(
        fc.property(fc.oneof(cubicCurve, arcCurve), (curve) => {
          const points = flattenCurve(curve, tolerance);
          let farthest = 0;
          for (let i = 0; i <= 200; i++) {
            const [x, y] = pointAt(curve.start, curve.segments[0], i / 200);
            let nearest = Number.POSITIVE_INFINITY;
            for (let j = 1; j < points.length; j++) {
              nearest = Math.min(
                nearest,
                distanceToSegment(x, y, points[j - 1][0], points[j - 1][1], points[j][0], points[j][1]),
              );
            }
            farthest = Math.max(farthest, nearest);
          }
          expect(farthest).toBeLessThanOrEqual(tolerance * (1 + 1e-9) + 1e-9);
        }),
        { seed: 11, numRuns: 60 },
      );
    },
  );

  it('spends few points: within 1.5 times the fewest for a circle', () => {
    // A chord with sagitta s spans 2 acos(1 - s/r): the fewest chords that keep the tolerance.
    const fewest = Math.PI / Math.acos(1 - 0.01 / 50);
    expect(flattenCurve(ellipse(50, 50), 0.01).length).toBeLessThan(1.5 * fewest);
    expect(flattenCurve(ellipse(50, 50), 0.01).length).toBeGreaterThanOrEqual(fewest);
  });
});

describe('two rulers for one curve', () => {
  it('agree on smooth cubics and arcs (svg-path-properties)', () => {
    const smooth: Curve = {
      start: [0, 0],
      segments: [
        { kind: 'cubic', c1: [20, -30], c2: [60, 40], to: [90, 5] },
        { kind: 'line', to: [100, 30] },
      ],
      closed: true,
    };
    expect(lengthBySecondRuler(smooth) / curveLength(smooth)).toBeCloseTo(1, 5);
    expect(lengthBySecondRuler(ellipse(50, 30)) / curveLength(ellipse(50, 30))).toBeCloseTo(1, 5);
  });

  it('length and area do not change when the curve is turned, and scale as they should', () => {
    fc.assert(
      fc.property(
        fc.oneof(cubicCurve, arcCurve),
        fc.double({ min: 0, max: 360, noNaN: true }),
        (curve, degrees) => {
          const turned = mapCurve(rotation(degrees), curve);
          expect(curveLength(turned)).toBeCloseTo(curveLength(curve), 5);
          expect(
            Math.abs(curveArea({ ...turned, closed: true }) - curveArea({ ...curve, closed: true })),
          ).toBeLessThan(1e-6);
          const doubled = mapCurve([2, 0, 0, 2, 0, 0], curve);
          expect(curveLength(doubled)).toBeCloseTo(2 * curveLength(curve), 5);
        },
      ),
      { seed: 5, numRuns: 100 },
    );
  });
});
