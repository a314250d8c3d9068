import { type Affine, applyToPoint, applyToVector } from './affine.ts';
import type { Point } from './shapes.ts';

/**
 * True curves, before flattening. A quadratic is stored as the cubic that equals it. An arc stays an arc: it is
 * kept as centre and two conjugate half-diameters, p(t) = centre + u cos t + v sin t, a form that every affine
 * map carries over exactly (a skewed circle is still this formula).
 */
export type Segment =
  | { readonly kind: 'line'; readonly to: Point }
  | { readonly kind: 'cubic'; readonly c1: Point; readonly c2: Point; readonly to: Point }
  | {
      readonly kind: 'arc';
      readonly centre: Point;
      readonly u: Point;
      readonly v: Point;
      /** Parameter at the start and how far it runs, radians; the sign of `sweep` is the direction. */
      readonly start: number;
      readonly sweep: number;
      readonly to: Point;
    };

/** One continuous run of segments: a subpath. A closed curve ends where it starts. */
export interface Curve {
  readonly start: Point;
  readonly segments: readonly Segment[];
  readonly closed: boolean;
}

/** Moves a segment; exact for every kind. */
export function mapSegment(m: Affine, segment: Segment): Segment {
  const to = applyToPoint(m, segment.to);
  switch (segment.kind) {
    case 'line':
      return { kind: 'line', to };
    case 'cubic':
      return { kind: 'cubic', c1: applyToPoint(m, segment.c1), c2: applyToPoint(m, segment.c2), to };
    case 'arc':
      return {
        kind: 'arc',
        centre: applyToPoint(m, segment.centre),
        u: applyToVector(m, segment.u),
        v: applyToVector(m, segment.v),
        start: segment.start,
        sweep: segment.sweep,
        to,
      };
  }
}

/** Moves a curve; exact for every kind of segment. */
export function mapCurve(m: Affine, curve: Curve): Curve {
  return {
    start: applyToPoint(m, curve.start),
    segments: curve.segments.map((segment) => mapSegment(m, segment)),
    closed: curve.closed,
  };
}

/** Where a segment that starts at `from` is at parameter t, a fraction 0 to 1; in the unit of its points, mm. */
export function pointAt(from: Point, segment: Segment, t: number): Point {
  switch (segment.kind) {
    case 'line':
      return [from[0] + t * (segment.to[0] - from[0]), from[1] + t * (segment.to[1] - from[1])];
    case 'cubic': {
      const s = 1 - t;
      const a = s * s * s;
      const b = 3 * s * s * t;
      const c = 3 * s * t * t;
      const d = t * t * t;
      const { c1, c2, to } = segment;
      return [
        a * from[0] + b * c1[0] + c * c2[0] + d * to[0],
        a * from[1] + b * c1[1] + c * c2[1] + d * to[1],
      ];
    }
    case 'arc': {
      const angle = segment.start + t * segment.sweep;
      const cos = Math.cos(angle);
      const sin = Math.sin(angle);
      const { centre, u, v } = segment;
      return [centre[0] + u[0] * cos + v[0] * sin, centre[1] + u[1] * cos + v[1] * sin];
    }
  }
}

/** The cubic equal to the quadratic from `from` by control point `control` to `to` (degree elevation, exact). */
export function cubicFromQuadratic(from: Point, control: Point, to: Point): Segment {
  const third = (p: Point, q: Point): Point => [
    p[0] + (2 / 3) * (q[0] - p[0]),
    p[1] + (2 / 3) * (q[1] - p[1]),
  ];
  return { kind: 'cubic', c1: third(from, control), c2: third(to, control), to };
}

/** What an elliptical arc command of a path says besides where it starts. */
export interface ArcCommand {
  /** Half axes of the ellipse, mm or user units. */
  readonly radii: Point;
  /** Rotation of its first axis, degrees. */
  readonly tilt: number;
  /** Of the two arcs of one direction through both ends, the one of more than half the ellipse. */
  readonly largeArc: boolean;
  /** Clockwise as seen. */
  readonly clockwise: boolean;
  readonly to: Point;
}

/**
 * The segment an SVG elliptical arc command means, by W3C SVG 2 appendix B.2.4 "Conversion from endpoint to
 * center parameterization" and B.2.5 "Correction of out-of-range radii": radii too small are scaled up, a zero
 * radius is a straight line. Gives undefined when both ends are the same point (the command is then left out).
 */
export function arcFromEndpoints(from: Point, command: ArcCommand): Segment | undefined {
  const { radii, tilt, largeArc, clockwise, to } = command;
  if (from[0] === to[0] && from[1] === to[1]) return undefined;
  let rx = Math.abs(radii[0]);
  let ry = Math.abs(radii[1]);
  if (rx === 0 || ry === 0) return { kind: 'line', to };
  const phi = (tilt * Math.PI) / 180;
  const cos = Math.cos(phi);
  const sin = Math.sin(phi);
  const hx = (from[0] - to[0]) / 2;
  const hy = (from[1] - to[1]) / 2;
  // Half the chord in units of the radii, in the ellipse's own frame.
  let px = (cos * hx + sin * hy) / rx;
  let py = (-sin * hx + cos * hy) / ry;
  const reach = Math.hypot(px, py);
  // Radii too small to span the chord are scaled up until they just do (B.2.5): a half ellipse.
  if (reach > 1) {
    rx *= reach;
    ry *= reach;
    px /= reach;
    py /= reach;
  }
  // The centre lies on the bisector of the chord, in the frame where the ellipse is the unit circle:
  //
  //        from
  //         |\          half chord = reach, radius = 1, so the distance
  //   reach | \ 1       from the middle of the chord to the centre
  //         |__\        is sqrt(1 - reach^2)
  //      middle  centre
  //
  // Written with the factors of 1 - reach^2 so that a half circle does not lose its digits.
  const squared = Math.min(1, reach * reach);
  const factor =
    (largeArc === clockwise ? -1 : 1) *
    Math.sqrt(((1 - Math.min(1, reach)) * (1 + Math.min(1, reach))) / squared);
  const cx = factor * py;
  const cy = -factor * px;
  const startAngle = Math.atan2(py - cy, px - cx);
  // The flag chooses the way round; atan2 may have given the other.
  let sweep = Math.atan2(-py - cy, -px - cx) - startAngle;
  if (clockwise && sweep < 0) sweep += 2 * Math.PI;
  if (!clockwise && sweep > 0) sweep -= 2 * Math.PI;
  const ux = rx * cos;
  const uy = rx * sin;
  const vx = -ry * sin;
  const vy = ry * cos;
  return {
    kind: 'arc',
    centre: [(from[0] + to[0]) / 2 + cx * ux + cy * vx, (from[1] + to[1]) / 2 + cx * uy + cy * vy],
    u: [ux, uy],
    v: [vx, vy],
    start: startAngle,
    sweep,
    to,
  };
}
