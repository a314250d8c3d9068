import type { Point, Ring } from '../geometry/shapes.ts';
import type { DrawingShape } from '../model/drawing.ts';
import type { Solid } from './solids.ts';

/** Pieces of one drawn shape that hang together by a point alone, as the tail of a fish drawn in one line that crosses itself. */
export interface MeetingPieces {
  readonly shape: DrawingShape;
  /** Number of pieces that meet others of the shape so, 2 or more. */
  readonly pieces: number;
  /** The first place where two of them meet, mm. */
  readonly at: Point;
}

/** A corner of a piece: where it is and which ways its two sides run from there, radians. */
interface Corner {
  readonly solid: Solid;
  readonly sides: readonly number[];
}

/** Ways that sides run from a point are told apart as so many: two that are alike or next to each other are one line. */
const WAYS = 6000;

/**
 * Finds the shapes whose pieces share a corner: a saw leaves no wood there. Pieces with a side in common, or with parts of the
 * layer between them that have, as the squares of a wall drawn line by line, are parts beside each other.
 */
export function piecesMeetingAtPoint(solids: readonly Solid[]): MeetingPieces[] {
  const ofShape = new Map<DrawingShape, Solid[]>();
  for (const solid of solids) {
    const known = ofShape.get(solid.shape);
    if (known === undefined) ofShape.set(solid.shape, [solid]);
    else known.push(solid);
  }
  const meetings = [...ofShape].flatMap(([shape, own]) =>
    own.length < 2 ? [] : [{ shape, places: sharedCorners(own) }],
  );
  const corners = cornersAt(new Set(meetings.flatMap(({ places }) => [...places.keys()])), solids);
  return meetings.flatMap(({ shape, places }) => {
    const apart = new Set<Solid>();
    let first: Point | undefined;
    for (const [key, at] of places) {
      const own = groupsBySides(corners.get(key) ?? []).flatMap((group) => {
        const one = group.find(({ solid }) => solid.shape === shape);
        return one === undefined ? [] : [one.solid];
      });
      if (new Set(own).size < 2) continue;
      first ??= at;
      for (const solid of own) apart.add(solid);
    }
    return first === undefined ? [] : [{ shape, pieces: apart.size, at: first }];
  });
}

/** The corners that two of these pieces share, by their keys, in the order they are met. */
function sharedCorners(solids: readonly Solid[]): Map<string, Point> {
  const firstWith = new Map<string, Solid>();
  const shared = new Map<string, Point>();
  for (const solid of solids) {
    for (const point of ringsOf(solid).flat()) {
      const key = keyOf(point);
      const other = firstWith.get(key);
      if (other === undefined) firstWith.set(key, solid);
      else if (other !== solid && !shared.has(key)) shared.set(key, point);
    }
  }
  return shared;
}

/** All corners of pieces at some places. */
function cornersAt(keys: ReadonlySet<string>, solids: readonly Solid[]): Map<string, Corner[]> {
  const corners = new Map<string, Corner[]>();
  if (keys.size === 0) return corners;
  for (const solid of solids) {
    for (const ring of ringsOf(solid)) {
      for (const [i, [x, y]] of ring.entries()) {
        const key = keyOf([x, y]);
        if (!keys.has(key)) continue;
        const beside = [ring[(i + ring.length - 1) % ring.length], ring[(i + 1) % ring.length]];
        const corner = { solid, sides: beside.map((next) => Math.atan2(next[1] - y, next[0] - x)) };
        const known = corners.get(key);
        if (known === undefined) corners.set(key, [corner]);
        else known.push(corner);
      }
    }
  }
  return corners;
}

/** Corners at one place in groups that hang together by sides in common. */
function groupsBySides(corners: readonly Corner[]): readonly Corner[][] {
  const along = new Map<number, Corner[]>();
  for (const corner of corners) {
    for (const way of corner.sides.map(wayOf)) {
      const known = along.get(way);
      if (known === undefined) along.set(way, [corner]);
      else known.push(corner);
    }
  }
  const left = new Set(corners);
  return corners.flatMap((first) => {
    if (!left.delete(first)) return [];
    const group = [first];
    // The group grows while it is gone through.
    for (const { sides } of group) {
      for (const way of sides.map(wayOf)) {
        for (const beside of [(way + WAYS - 1) % WAYS, way, (way + 1) % WAYS]) {
          for (const corner of along.get(beside) ?? []) if (left.delete(corner)) group.push(corner);
          along.delete(beside);
        }
      }
    }
    return [group];
  });
}

/** The number of the way a side runs, from 0 to WAYS - 1. */
function wayOf(angle: number): number {
  return (Math.round((angle / (2 * Math.PI)) * WAYS) + WAYS) % WAYS;
}

function ringsOf({ region }: Solid): readonly Ring[] {
  return [region.outline, ...region.openings];
}

/** Where lines cross, both pieces get the same point of the integer grid. */
function keyOf([x, y]: Point): string {
  return `${x.toFixed(4)} ${y.toFixed(4)}`;
}
