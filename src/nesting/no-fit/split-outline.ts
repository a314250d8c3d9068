import { combineRegions } from '../../geometry/clipper.ts';
import { type Box, boundsOf, boxRing, type Ring } from '../../geometry/shapes.ts';
import type { Steps } from '../running/steps.ts';

/**
 * Long outlines cut into pieces. A no-fit polygon of a union is the union of the pieces' no-fit polygons, and the
 * convolution of two rings of n and m vertices has up to n m edges that cross one another, so that many small
 * convolutions cost far less than one large one.
 */

/**
 * Pieces of an outline; together they cover it exactly. A step for each cut.
 *
 * @param most number of vertices each may have, or a few more
 */
export function* splitOutline(outline: Ring, most: number): Steps<Ring[]> {
  const done: Ring[] = [];
  const pending: Ring[] = [outline];
  for (let ring = pending.pop(); ring !== undefined; ring = pending.pop()) {
    const halves = ring.length > most ? yield* fewerVerticesEach(ring) : undefined;
    if (halves === undefined) done.push(ring);
    else pending.push(...halves);
  }
  return done;
}

/**
 * The outline cut across its longer side, or where that does not lead to fewer vertices, as of a comb cut across all its teeth,
 * across the other one; undefined where neither does.
 */
function* fewerVerticesEach(ring: Ring): Steps<Ring[] | undefined> {
  const { minX, minY, maxX, maxY } = boundsOf(ring);
  const isLong = maxX - minX >= maxY - minY;
  for (const alongX of [isLong, !isLong]) {
    const halves = halvesOf(ring, alongX);
    yield;
    if (halves.every((half) => half.length < ring.length)) return halves;
  }
  return undefined;
}

/** The outline cut at the middle one of its vertices along an axis. */
function halvesOf(ring: Ring, alongX: boolean): Ring[] {
  const box = boundsOf(ring);
  const coordinates = ring.map(([x, y]) => (alongX ? x : y)).sort((a, b) => a - b);
  const cut = coordinates[Math.floor(coordinates.length / 2)];
  const low: Box = alongX ? { ...box, maxX: cut } : { ...box, maxY: cut };
  const high: Box = alongX ? { ...box, minX: cut } : { ...box, minY: cut };
  const solid = [{ outline: ring, openings: [] }];
  return [low, high].flatMap((half) =>
    combineRegions('intersection', solid, [{ outline: boxRing(half), openings: [] }]).map(
      ({ outline }) => outline,
    ),
  );
}
