import { locateInRing } from '../geometry/ring.ts';
import { type Box, boundsOf, type Ring } from '../geometry/shapes.ts';
import { TOUCHING_DEPTH } from './solids.ts';

/** A ring and its box, mm. */
export interface BoxedRing {
  readonly ring: Ring;
  readonly box: Box;
}

/** A ring with its box: found once, for it is compared with many others. */
export function boxedRing(ring: Ring): BoxedRing {
  return { ring, box: boundsOf(ring) };
}

/** True when two rings are the same line, drawn twice: every vertex of each lies on the other. */
export function runsAlong(a: BoxedRing, b: BoxedRing): boolean {
  const isOn = (ring: Ring, other: Ring) =>
    ring.every((point) => locateInRing(point, other, TOUCHING_DEPTH) === 0);
  return areNear(a.box, b.box) && isOn(a.ring, b.ring) && isOn(b.ring, a.ring);
}

/** True when the sides of two boxes lie no farther apart than what touches. */
export function areNear(a: Box, b: Box): boolean {
  return (
    Math.abs(a.minX - b.minX) <= TOUCHING_DEPTH &&
    Math.abs(a.minY - b.minY) <= TOUCHING_DEPTH &&
    Math.abs(a.maxX - b.maxX) <= TOUCHING_DEPTH &&
    Math.abs(a.maxY - b.maxY) <= TOUCHING_DEPTH
  );
}

/** True when two regions, their outlines first, are the same. */
export function areSameRings(a: readonly BoxedRing[], b: readonly BoxedRing[]): boolean {
  return (
    a.length === b.length &&
    runsAlong(a[0], b[0]) &&
    a.every((ring, i) => i === 0 || b.some((other) => runsAlong(ring, other)))
  );
}

/**
 * For each of some regions, their outlines first, the number of the first that is the same: its own where there is none
 * before it. Copies of one shape in one place may be a hundred thousand, of which no two need then be compared.
 */
export function firstSame(regions: readonly (readonly BoxedRing[])[]): number[] {
  const byBox = new Map<string, number[]>();
  return regions.map((rings, i) => {
    const { minX, minY, maxX, maxY } = rings[0].box;
    const key = `${minX} ${minY} ${maxX} ${maxY}`;
    const known = byBox.get(key) ?? [];
    const same = known.find((j) => areSameRings(rings, regions[j]));
    if (same !== undefined) return same;
    known.push(i);
    byBox.set(key, known);
    return i;
  });
}
