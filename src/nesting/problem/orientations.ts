import { type Affine, applyToPoint, applyToRegion, placementMap } from '../../geometry/affine.ts';
import { regionBounds, verticesOf } from '../../geometry/ring.ts';
import type { Point, Region } from '../../geometry/shapes.ts';
import type { PlacingRules } from '../../model/batch.ts';
import type { BoardEdge } from './container.ts';
import type { Orientation, Shape, TwistRange } from './shape.ts';
import { AFFORDABLE, PER_FIELD, workOfPairs } from './work-of-pairs.ts';

/** The ways a shape may lie under the rules of its part, those that look the same counted once. */

/** A rotation with or without turning over first. */
export interface Lie {
  /** Degrees, clockwise as seen. */
  readonly degrees: number;
  readonly turnedOver: boolean;
  /** Degrees, least and most, by which it may be turned on from there; not at all when left out. */
  readonly twist?: TwistRange;
}

/** Degrees between the angles tried where the grain is free, when nothing else is said. */
const FREE_STEP = 45;

/** Vertices that the outlines of many parts are brought down to, as measured: what has more counts as having so many. */
const OF_MANY = 28;

/**
 * Degrees between the angles for parts whose grain is free: the fewer there are, and the fewer vertices they have, the finer,
 * since every pair of angles asks for no-fit polygons of its own.
 */
export function freeStep(parts: readonly Region[]): number {
  if (parts.length <= 2) return 15;
  if (parts.length <= 5) return 22.5;
  const vertices = parts.map((part) => Math.min(OF_MANY, verticesOf(part)));
  const isAffordable = (step: number) => {
    const members = vertices.map((count) => ({ vertices: count, turns: 360 / step }));
    return workOfPairs(members, PER_FIELD) <= AFFORDABLE;
  };
  return [FREE_STEP, 90].find(isAffordable) ?? 180;
}

/** The lie of a part that stands on the straight edge, and that of one that stands on the top edge, head down. */
const STANDING: readonly Lie[] = [
  { degrees: 0, turnedOver: false },
  { degrees: 180, turnedOver: false },
];

/** The range of an orientation that may not be turned on. */
const STIFF: TwistRange = [0, 0];

/** Two outlines are the same when every vertex of one is this near to a vertex of the other, mm. */
const SAME = 1e-3;

/**
 * All lies the rules allow, the plain one first.
 *
 * @param step degrees between angles where the grain is free
 * @param onTop whether a part with a rest edge may stand on the top edge of a board too
 */
export function allowedLies(rules: PlacingRules, step = FREE_STEP, onTop = false): Lie[] {
  if (rules.restEdge) return STANDING.slice(0, onTop ? 2 : 1);
  const angles = allowedAngles(rules, step);
  const sides = rules.turnOver ? [false, true] : [false];
  return sides.flatMap((turnedOver) => angles.map((angle) => ({ ...angle, turnedOver })));
}

/** The listed angles, each with the range that it stands for: together they cover all that the grain allows. */
function allowedAngles(rules: PlacingRules, step: number): Omit<Lie, 'turnedOver'>[] {
  if (rules.grain === 'free')
    return Array.from({ length: 360 / step }, (_, i) => ({ degrees: i * step, twist: [-180, 180] }));
  const main = rules.grain === 'along' ? [0, 180] : [90, 270];
  const off = Math.min(90, Math.max(0, rules.grainTolerance));
  if (off === 0) return main.map((degrees) => ({ degrees }));
  return main.flatMap((angle): Omit<Lie, 'turnedOver'>[] => [
    { degrees: angle, twist: [-off, off] },
    { degrees: angle + off, twist: [-2 * off, 0] },
    { degrees: angle - off, twist: [0, 2 * off] },
  ]);
}

/**
 * The orientations of a shape; lies under which it looks like an earlier one are left out: a square turned by a quarter
 * would only ask for the same no-fit polygons again. The true region says which, so that they are numbered alike whatever
 * outline is worked with.
 *
 * @param region around the reference point of the shape, mm
 * @param worked what the engine works with in its place, no smaller than it
 * @param shape number of the shape in its problem
 * @param stands whether it stands on an edge of the board: what is turned by 180 degrees then on the top one
 */
export function orientationsOf(
  region: Region,
  worked: Region,
  shape: number,
  lies: readonly Lie[],
  stands: boolean,
): Orientation[] {
  const kept: Orientation[] = [];
  const seen: Look[] = [];
  const vertices = [region.outline, ...region.openings].flat();
  const middle = meanOf(vertices);
  for (const { degrees, turnedOver, twist = STIFF } of lies) {
    const map = turn(degrees, turnedOver);
    const look = { middle: applyToPoint(map, middle), vertices: () => sortedByX(vertices, map) };
    // On another edge what looks the same lies elsewhere.
    if (!stands && seen.some((other) => looksLike(look, other))) continue;
    seen.push(look);
    const edge = stands ? edgeUnder(degrees) : undefined;
    kept.push({ shape, degrees, turnedOver, twist, box: regionBounds(applyToRegion(map, worked)), edge });
  }
  return kept;
}

/** Orientations with the boxes that their shapes have in other outlines. */
export function boxedAnew(
  orientations: readonly Orientation[],
  shapes: readonly Pick<Shape, 'region'>[],
): Orientation[] {
  return orientations.map((orientation) => {
    const map = turn(orientation.degrees, orientation.turnedOver);
    return { ...orientation, box: regionBounds(applyToRegion(map, shapes[orientation.shape].region)) };
  });
}

/** The edge of a board on which a part stands that is turned by so many degrees, 0 or 180. */
function edgeUnder(degrees: number): BoardEdge {
  return degrees === 0 ? 'straight' : 'top';
}

/** The map of an orientation: turn over if asked, then rotate by degrees, clockwise as seen. */
export function turn(degrees: number, turnedOver: boolean): Affine {
  return placementMap([0, 0], degrees, turnedOver);
}

/** True when the first orientation is the second turned on by 180 degrees: of such a pair it is the one with the larger angle. */
export function isHalfTurnOf(a: Orientation, b: Orientation): boolean {
  return a.turnedOver === b.turnedOver && Math.abs(a.degrees - b.degrees - 180) < 1e-9;
}

/** How a shape looks under a lie. */
interface Look {
  /** Mean of its vertices: where it differs nothing else needs to be looked at. */
  readonly middle: Point;
  readonly vertices: () => readonly Point[];
}

function looksLike(a: Look, b: Look): boolean {
  return isNear(a.middle, b.middle) && sameVertices(a.vertices(), b.vertices());
}

function isNear([x, y]: Point, [u, v]: Point): boolean {
  return Math.abs(x - u) <= SAME && Math.abs(y - v) <= SAME;
}

function meanOf(vertices: readonly Point[]): Point {
  let x = 0;
  let y = 0;
  for (const [u, v] of vertices) {
    x += u;
    y += v;
  }
  return [x / vertices.length, y / vertices.length];
}

function sortedByX(vertices: readonly Point[], map: Affine): Point[] {
  return vertices.map((vertex) => applyToPoint(map, vertex)).sort(([x], [u]) => x - u);
}

/** Whether every vertex of one outline is near one of the other, both sorted by x: outlines may have thousands. */
function sameVertices(a: readonly Point[], b: readonly Point[]): boolean {
  let first = 0;
  return a.every((vertex) => {
    while (first < b.length && b[first][0] < vertex[0] - SAME) first++;
    for (let k = first; k < b.length && b[k][0] <= vertex[0] + SAME; k++)
      if (isNear(vertex, b[k])) return true;
    return false;
  });
}
