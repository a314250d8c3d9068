import { insideRegion, ringsPerimeter, signedArea } from './ring.ts';
import { SegmentGrid } from './segment-grid.ts';
import type { Point, Region, Ring } from './shapes.ts';
import { cornersOnOthers } from './touching-points.ts';

/**
 * Local width of a solid, or of the waste around it: the medial ball at points of its outline, found by shrinking a
 * ball tangent to the outline until it is empty (Ma, Bae, Choi 2012, "3D medial axis point approximation using nearest
 * neighbors and the normal field", here in the plane and with edges instead of points).
 *
 *     ----p-----------    p on the outline, its ball below it touches the
 *        ( )              other side at q: the width there is |p q|.
 *     ----q-----------    In a corner both touch under a small angle.
 */

/** A place thinner than the width looked for. */
export interface ThinPlace {
  /** Two opposite points of the outlines, mm; one and the same where two rings touch. */
  readonly from: Point;
  readonly to: Point;
  /** Distance between them, mm. */
  readonly width: number;
  /** Length along the outline between the two, the shorter way round, mm; infinite on different rings. */
  readonly outlineBetween: number;
}

/** Contact points seen from the ball's centre under less than this angle are two sides of a corner, not of a neck. */
const LEAST_SEPARATION = (110 * Math.PI) / 180;

/** Angle in radians between neighbouring directions tried at a corner that points to the measured side. */
const FAN_STEP = Math.PI / 12;

/** Widths below this are none at any saw, mm; samples lie no closer than twice as much, or their number has no end. */
const LEAST_WIDTH = 0.01;

/** Samples along the outlines of a part: those of a hundred metres of line. More of it is sampled less closely. */
const MOST_SAMPLES = 400_000;

/** Widths nearer to one another than this, mm, are one: so few balls are larger than those before that each may be looked at. */
const SAME_WIDTH = 0.001;

/** Shrinking steps; each at least halves the excess in practice, and the loop ends by itself far earlier. */
const MOST_STEPS = 40;

/**
 * Every sampled place where the solid is thinner than `limit`, or the waste (openings and the space around) is
 * narrower, in the order of the outlines.
 *
 * @param limit greatest width of interest, mm; nothing is thinner than 0
 * @param spacing distance of samples along the outline, mm; more where there would be too many of them
 */
export function thinPlaces(
  region: Region,
  of: 'solid' | 'waste',
  limit: number,
  spacing: number,
): ThinPlace[] {
  if (limit < LEAST_WIDTH) return [];
  const isSolid = of === 'solid';
  const rings = ringsAround(region, isSolid);
  const track = new Track(rings);
  const grid = new SegmentGrid(rings, limit);
  const places: ThinPlace[] = [];
  const apart = spacingOn(rings, spacing);
  rings.forEach((ring, number) => {
    if (isSolid && rings.length > 1) for (const touch of touchesOf(ring, number, grid)) places.push(touch);
    for (const sample of samples(ring, track.firstEdge[number], apart)) {
      const place = placeAt(sample, grid, track, limit / 2);
      if (place !== undefined) places.push(place);
    }
  });
  return places;
}

/**
 * Greatest width of a solid up to `limit`, mm, at sampled points of its outline: `limit` as soon as a place that wide is
 * found. Of a long line it is told in its length, however its runs lie to one another.
 *
 * @param spacing distance of samples along the outline, mm; more where there would be too many of them
 */
export function greatestWidth(region: Region, limit: number, spacing: number): number {
  const rings = ringsAround(region, true);
  const grid = new SegmentGrid(rings, limit);
  const apart = spacingOn(rings, spacing);
  let greatest = 0;
  for (const ring of rings) {
    // Which edge a sample lies on is of no matter here.
    for (const sample of samples(ring, 0, apart)) {
      const ball = ballAt(sample, grid, limit / 2);
      if (ball === undefined || 2 * ball.radius < greatest + SAME_WIDTH) continue;
      // Where a ring touches another one, or itself, a ball may lie beyond it, beside the solid.
      if (!insideRegion(middleOfBall(sample, ball.radius), region)) continue;
      if (ball.touch === undefined) return limit;
      greatest = 2 * ball.radius;
    }
  }
  return greatest;
}

/** Rings that run so that the solid, or the waste around it, lies to the side that is measured. */
function ringsAround({ outline, openings }: Region, isSolid: boolean): Ring[] {
  return [directed(outline, isSolid), ...openings.map((ring) => directed(ring, !isSolid))];
}

function spacingOn(rings: readonly Ring[], spacing: number): number {
  return Math.max(spacing, 2 * LEAST_WIDTH, ringsPerimeter(rings) / MOST_SAMPLES);
}

/**
 * Corners of a ring on another one, where no wood is left. No ball tells of them: one at a corner that has come to lie a
 * unit of the grid beyond the other side finds that side behind it.
 */
function touchesOf(ring: Ring, number: number, grid: SegmentGrid): ThinPlace[] {
  return cornersOnOthers(ring, number, grid).map((at) => ({
    from: at,
    to: at,
    width: 0,
    outlineBetween: Number.POSITIVE_INFINITY,
  }));
}

function placeAt(sample: Sample, grid: SegmentGrid, track: Track, greatest: number): ThinPlace | undefined {
  const ball = ballAt(sample, grid, greatest);
  if (ball?.touch === undefined) return undefined;
  const { radius, touch } = ball;
  const { point, edge } = sample;
  const width = Math.hypot(touch.x - point[0], touch.y - point[1]);
  const separation = 2 * Math.asin(Math.min(1, width / (2 * radius)));
  if (separation < LEAST_SEPARATION) return undefined;
  return {
    from: point,
    to: [touch.x, touch.y],
    width,
    outlineBetween: track.between(edge, point, touch.edge, [touch.x, touch.y]),
  };
}

/** A ball that touches the outline at a sample, and where else; nowhere when it is as large as it was to begin with. */
interface Ball {
  readonly radius: number;
  readonly touch?: { readonly x: number; readonly y: number; readonly edge: number };
}

/**
 * The largest empty ball at a sample; undefined when the sample sits in a fold smaller than the grid can tell.
 *
 * @param greatest radius of the ball to begin with, mm: a place it fits into is not thin
 */
function ballAt(
  { point: [px, py], normal: [nx, ny] }: Sample,
  grid: SegmentGrid,
  greatest: number,
): Ball | undefined {
  let radius = greatest;
  let touch: Ball['touch'];
  for (let step = 0; step < MOST_STEPS; step++) {
    const cx = px + radius * nx;
    const cy = py + radius * ny;
    // A little less than the radius: the sample itself, and the point the ball shrank to last, lie on it.
    if (!grid.nearest(cx, cy, radius * (1 - 1e-6) - 1e-6)) break;
    const qx = grid.x - px;
    const qy = grid.y - py;
    const along = qx * nx + qy * ny;
    // A nearer point behind the tangent.
    if (along <= 0) return undefined;
    touch = { x: grid.x, y: grid.y, edge: grid.edge };
    // The ball that touches at p with the same normal and goes through q.
    radius = (qx * qx + qy * qy) / (2 * along);
  }
  return { radius, touch };
}

function middleOfBall({ point: [px, py], normal: [nx, ny] }: Sample, radius: number): Point {
  return [px + radius * nx, py + radius * ny];
}

/** Runs the ring so that its inside, or its outside, lies to the side of the normal (-dy, dx). */
function directed(ring: Ring, insideCounts: boolean): Ring {
  return signedArea(ring) > 0 === insideCounts ? ring : [...ring].reverse();
}

interface Sample {
  readonly point: Point;
  /** Unit vector to the side that is measured. */
  readonly normal: Point;
  /** Edge the sample lies on, numbered through all rings. */
  readonly edge: number;
}

/**
 * Points inside every edge at most `spacing` mm apart, and a fan of directions at every corner that points to the
 * measured side.
 */
function* samples(ring: Ring, firstEdge: number, spacing: number): Generator<Sample> {
  const count = ring.length;
  for (let i = 0; i < count; i++) {
    const [ax, ay] = ring[i];
    const [bx, by] = ring[(i + 1) % count];
    const length = Math.hypot(bx - ax, by - ay);
    if (length === 0) continue;
    const normal: Point = [-(by - ay) / length, (bx - ax) / length];
    const pieces = Math.max(1, Math.ceil(length / spacing));
    for (let k = 0; k < pieces; k++) {
      const t = (k + 0.5) / pieces;
      yield { point: [ax + t * (bx - ax), ay + t * (by - ay)], normal, edge: firstEdge + i };
    }
    yield* fan(ring, i, firstEdge, normal);
  }
}

/** Directions between the normals of the edges before and after the end of edge i, where the outline turns inward. */
function* fan(ring: Ring, i: number, firstEdge: number, normal: Point): Generator<Sample> {
  const count = ring.length;
  const [bx, by] = ring[(i + 1) % count];
  const [cx, cy] = ring[(i + 2) % count];
  const nextLength = Math.hypot(cx - bx, cy - by);
  if (nextLength === 0) return;
  const nextX = -(cy - by) / nextLength;
  const nextY = (cx - bx) / nextLength;
  const turn = Math.atan2(normal[0] * nextY - normal[1] * nextX, normal[0] * nextX + normal[1] * nextY);
  // A corner the other way is reached by no ball: those of its two edges come before it.
  if (turn > -FAN_STEP) return;
  const steps = Math.ceil(-turn / FAN_STEP);
  for (let k = 1; k < steps; k++) {
    const angle = (turn * k) / steps;
    const cos = Math.cos(angle);
    const sin = Math.sin(angle);
    yield {
      point: [bx, by],
      normal: [cos * normal[0] - sin * normal[1], sin * normal[0] + cos * normal[1]],
      edge: firstEdge + i,
    };
  }
}

/** Lengths along the rings, to tell how much outline lies between two of their points. */
class Track {
  /** Number of the first edge of every ring. */
  readonly firstEdge: number[] = [];
  private readonly ringOf: number[] = [];
  private readonly startOf: number[] = [];
  private readonly startPoint: Point[] = [];
  private readonly perimeter: number[] = [];

  constructor(rings: readonly Ring[]) {
    rings.forEach((ring, number) => {
      this.firstEdge.push(this.ringOf.length);
      let length = 0;
      ring.forEach(([x, y], i) => {
        this.ringOf.push(number);
        this.startOf.push(length);
        this.startPoint.push([x, y]);
        const [nextX, nextY] = ring[(i + 1) % ring.length];
        length += Math.hypot(nextX - x, nextY - y);
      });
      this.perimeter.push(length);
    });
  }

  /** Outline between two points of edges, the shorter way round, mm; infinite on different rings. */
  between(edgeA: number, a: Point, edgeB: number, b: Point): number {
    const ring = this.ringOf[edgeA];
    if (ring !== this.ringOf[edgeB]) return Number.POSITIVE_INFINITY;
    const apart = Math.abs(this.at(edgeA, a) - this.at(edgeB, b));
    return Math.min(apart, this.perimeter[ring] - apart);
  }

  private at(edge: number, [x, y]: Point): number {
    const [sx, sy] = this.startPoint[edge];
    return this.startOf[edge] + Math.hypot(x - sx, y - sy);
  }
}
