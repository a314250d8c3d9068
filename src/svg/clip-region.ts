import { clipLines } from '../geometry/clip-lines.ts';
import { combineRegions, regionsFromRings } from '../geometry/clipper.ts';
import type { Curve, Segment } from '../geometry/curve.ts';
import { flattenCurve } from '../geometry/flatten.ts';
import { linesLength, oriented, regionsArea } from '../geometry/ring.ts';
import { segmentHull } from '../geometry/segment-hull.ts';
import type { Line, Point, Region, Ring } from '../geometry/shapes.ts';
import type { DrawingShape } from '../model/drawing.ts';
import type { Budget } from './budget.ts';

/**
 * Cutting shapes to what a clip path lets through. A shape that lies wholly inside keeps its true curves, which is
 * the usual case: many programs clip every drawing to its page. One that is cut becomes straight pieces.
 */

/** Greatest distance of those pieces from the true curves, mm at the drawn scale; more only on metre-long curves. */
const CLIP_TOLERANCE = 0.001;
/** On long segments the tolerance is this share of their length, so that no segment becomes thousands of pieces. */
const LEAST_TOLERANCE_SHARE = 1e-5;

/** Share of area or length that rounding may take without the shape counting as cut. */
const UNTOUCHED = 1e-6;

/** Thrown when the budget is used up. */
export class ClipTooCostly extends Error {
  override readonly name = 'ClipTooCostly';
}

/** What a clip path lets through, in mm on the page. */
export interface ClipRegion {
  readonly regions: readonly Region[];
  /** Its outline when it is one convex ring, as a page or viewport is. */
  readonly convex: Ring | undefined;
  /** Number of points, for the account of work. */
  readonly points: number;
}

/** A clip region from the regions of its shapes. */
export function clipRegion(parts: readonly Region[]): ClipRegion {
  const regions = parts.length > 1 ? combineRegions('union', parts, []) : parts;
  const points = regions.reduce(
    (sum, { outline, openings }) => sum + openings.reduce((n, ring) => n + ring.length, outline.length),
    0,
  );
  return { regions, convex: convexOutline(regions), points };
}

/** The solid that closed curves enclose under a fill rule, flattened. */
export function solidOf(curves: readonly Curve[], rule: DrawingShape['fillRule'], budget: Budget): Region[] {
  const rings = curves.map((curve) => flattened(curve, budget)).filter((ring) => ring.length > 2);
  spend(
    budget,
    rings.reduce((sum, ring) => sum + ring.length, 0),
  );
  return regionsFromRings(rings, rule);
}

/** The shape inside the clip region: itself when untouched, undefined when nothing of it is left. */
export function clipShape(shape: DrawingShape, clip: ClipRegion, budget: Budget): DrawingShape | undefined {
  if (clip.regions.length === 0) return undefined;
  const { convex } = clip;
  // A convex region holds a curve as soon as it holds points around it, and the curve need not be flattened.
  if (convex !== undefined && shape.curves.every((curve) => isCurveInside(curve, convex))) return shape;
  const lines = shape.curves.map((curve) => flattened(curve, budget));
  spend(budget, clip.points + lines.reduce((sum, line) => sum + line.length, 0));
  const rings = shape.fill === 'none' ? [] : lines.filter((line) => line.length > 2);
  const solid = regionsFromRings(rings, shape.fillRule);
  const area = regionsArea(solid);
  return area > 0 ? clipSolid(shape, solid, area, clip) : clipDrawn(shape, lines, clip);
}

function clipSolid(
  shape: DrawingShape,
  solid: readonly Region[],
  area: number,
  clip: ClipRegion,
): DrawingShape | undefined {
  const kept = combineRegions('intersection', solid, clip.regions);
  const left = regionsArea(kept);
  if (left >= area * (1 - UNTOUCHED)) return shape;
  if (left <= area * UNTOUCHED) return undefined;
  const rings = kept.flatMap(({ outline, openings }) => [outline, ...openings]);
  // Regions come with openings whatever their direction, which only the even-odd rule reads as such.
  const curves = rings.map((ring) => straight([...ring, ring[0]], true));
  return { ...shape, fillRule: 'evenodd', curves, isClipped: true };
}

function clipDrawn(shape: DrawingShape, lines: readonly Line[], clip: ClipRegion): DrawingShape | undefined {
  const length = linesLength(lines);
  const kept = clipLines(lines, clip.regions);
  const left = linesLength(kept);
  if (left >= length * (1 - UNTOUCHED)) return shape;
  if (left <= length * UNTOUCHED) return undefined;
  // A fill that covers nothing would close what is left of its line, and so cover what was never drawn.
  return { ...shape, fill: 'none', curves: kept.map((line) => straight(line, false)), isClipped: true };
}

function straight([start, ...rest]: Line, closed: boolean): Curve {
  return { start, segments: rest.map((to) => ({ kind: 'line', to })), closed };
}

/** The points of a curve, segment by segment so that the budget stops it in time; a closed one ends where it starts. */
function flattened(curve: Curve, budget: Budget): Point[] {
  const points: Point[] = [curve.start];
  for (const segment of curve.segments) {
    const start = points[points.length - 1];
    const tolerance = Math.max(CLIP_TOLERANCE, LEAST_TOLERANCE_SHARE * reachOf(start, segment));
    const pieces = flattenCurve({ start, segments: [segment], closed: false }, tolerance);
    if ((points.length + pieces.length) ** 2 > budget.left) throw new ClipTooCostly();
    for (let i = 1; i < pieces.length; i++) points.push(pieces[i]);
  }
  return points;
}

/** About how far a segment reaches, mm. */
function reachOf(from: Point, segment: Segment): number {
  const away = ([x, y]: Point): number => Math.hypot(x - from[0], y - from[1]);
  if (segment.kind === 'line') return 0;
  if (segment.kind === 'cubic') return Math.max(away(segment.c1), away(segment.c2), away(segment.to));
  return Math.hypot(...segment.u, ...segment.v);
}

/** Takes what an operation on so many points may cost at worst, every pair of them, from the budget. */
function spend(budget: Budget, points: number): void {
  if (points ** 2 > budget.left) throw new ClipTooCostly();
  budget.left -= points ** 2;
}

/** True when the curve lies in a convex ring, as far as the points that hold each segment between them tell. */
function isCurveInside({ start, segments }: Curve, convex: Ring): boolean {
  return (
    isInside(start, convex) &&
    segments.every((segment) => segmentHull(segment).every((p) => isInside(p, convex)))
  );
}

/** True when the point is in a convex ring that runs clockwise as seen, or within the tolerance of it. */
function isInside([x, y]: Point, convex: Ring): boolean {
  return convex.every(([ax, ay], i) => {
    const [bx, by] = convex[(i + 1) % convex.length];
    const length = Math.hypot(bx - ax, by - ay);
    return (bx - ax) * (y - ay) - (by - ay) * (x - ax) >= -CLIP_TOLERANCE * length;
  });
}

/** Most corners of a ring that is tried as convex: a flattened circle has some hundreds. */
const MOST_CORNERS = 2000;

function convexOutline(regions: readonly Region[]): Ring | undefined {
  if (regions.length !== 1 || regions[0].openings.length > 0) return undefined;
  const ring = oriented(regions[0].outline, true);
  if (ring.length > MOST_CORNERS) return undefined;
  const turnsOneWay = ring.every(([ax, ay], i) => {
    const [bx, by] = ring[(i + 1) % ring.length];
    const [cx, cy] = ring[(i + 2) % ring.length];
    return (bx - ax) * (cy - by) - (by - ay) * (cx - bx) >= 0;
  });
  return turnsOneWay ? ring : undefined;
}
