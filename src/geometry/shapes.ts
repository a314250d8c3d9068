/** The plain shapes everything is made of. Millimetres, x right, y down. */

/** A point [x, y] in mm. */
export type Point = readonly [x: number, y: number];

/** A closed polygon; the first point is not repeated at the end. */
export type Ring = readonly Point[];

/** An open line of two points or more. */
export type Line = readonly Point[];

/** A solid: an outline ring with opening rings inside it. Ring directions carry no meaning. */
export interface Region {
  readonly outline: Ring;
  readonly openings: readonly Ring[];
}

/** An upright box in mm. */
export interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** The box around points; an empty list gives an inside-out box of infinities. */
export function boundsOf(points: readonly Point[]): Box {
  let minX = Number.POSITIVE_INFINITY;
  let minY = Number.POSITIVE_INFINITY;
  let maxX = Number.NEGATIVE_INFINITY;
  let maxY = Number.NEGATIVE_INFINITY;
  // By index and not destructured: the iterator protocol costs more than the comparing.
  for (let i = 0; i < points.length; i++) {
    const x = points[i][0];
    const y = points[i][1];
    if (x < minX) minX = x;
    if (y < minY) minY = y;
    if (x > maxX) maxX = x;
    if (y > maxY) maxY = y;
  }
  return { minX, minY, maxX, maxY };
}

/** The point a share of the way from a to b: 0 is a, 1 is b. */
export function pointBetween([ax, ay]: Point, [bx, by]: Point, share: number): Point {
  return [ax + share * (bx - ax), ay + share * (by - ay)];
}

/** The middle of a box, mm. */
export function middleOf({ minX, minY, maxX, maxY }: Box): Point {
  return [(minX + maxX) / 2, (minY + maxY) / 2];
}

/** The shorter and the longer side of a box, mm. */
export function sidesOf({ minX, minY, maxX, maxY }: Box): number[] {
  return [maxX - minX, maxY - minY].sort((a, b) => a - b);
}

/** The box larger by so many mm on every side. */
export function grownBox({ minX, minY, maxX, maxY }: Box, by: number): Box {
  return { minX: minX - by, minY: minY - by, maxX: maxX + by, maxY: maxY + by };
}

/** The box moved by (dx, dy) mm. */
export function movedBox({ minX, minY, maxX, maxY }: Box, dx: number, dy: number): Box {
  return { minX: minX + dx, minY: minY + dy, maxX: maxX + dx, maxY: maxY + dy };
}

/** True when the outer box holds the inner one; they may share sides, and the inner one reach `beyond` mm over them. */
export function boxHolds(outer: Box, inner: Box, beyond = 0): boolean {
  return (
    inner.minX >= outer.minX - beyond &&
    inner.maxX <= outer.maxX + beyond &&
    inner.minY >= outer.minY - beyond &&
    inner.maxY <= outer.maxY + beyond
  );
}

/** The corners of a box, one after the other, clockwise as seen. */
export function boxRing({ minX, minY, maxX, maxY }: Box): Ring {
  return [
    [minX, minY],
    [maxX, minY],
    [maxX, maxY],
    [minX, maxY],
  ];
}

/** Area of a box in mm2. */
export function boxArea({ minX, minY, maxX, maxY }: Box): number {
  return (maxX - minX) * (maxY - minY);
}

/** What two boxes have in common; inside out where that is nothing. */
export function boxIntersection(a: Box, b: Box): Box {
  return {
    minX: Math.max(a.minX, b.minX),
    minY: Math.max(a.minY, b.minY),
    maxX: Math.min(a.maxX, b.maxX),
    maxY: Math.min(a.maxY, b.maxY),
  };
}

/** True when two boxes share more than an edge. */
export function boxesOverlap(a: Box, b: Box): boolean {
  return a.minX < b.maxX && b.minX < a.maxX && a.minY < b.maxY && b.minY < a.maxY;
}

/** True when the two boxes share a point, with `margin` mm allowed between them. */
export function boxesMeet(a: Box, b: Box, margin = 0): boolean {
  return (
    a.minX <= b.maxX + margin &&
    b.minX <= a.maxX + margin &&
    a.minY <= b.maxY + margin &&
    b.minY <= a.maxY + margin
  );
}
