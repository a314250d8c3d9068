import { verticesOf } from '../../geometry/ring.ts';
import type { Region } from '../../geometry/shapes.ts';

/** What a field costs beside its no-fit polygon, in products of vertex numbers, as measured. */
export const PER_FIELD = 400;

/** What all pairs of a problem together may cost in the same products: some ten seconds, as measured. */
export const AFFORDABLE = 5e7;

/**
 * What an edge that a sharp bend of the one outline adds to the no-fit polygon costs, in the same products, as measured on toothed
 * leaves: it runs through the inside, where it crosses hundreds of others.
 */
const PER_ADDED_EDGE = 8;

/** Sharp bends of plain shapes, in whole turns: their edges are few. */
const FEW_TURNS = 2;

/** What takes its part in a no-fit polygon. */
export interface PairMember {
  readonly vertices: number;
  /** See {@link sharpTurnsOf}; few when left out. */
  readonly sharpTurns?: number;
  /** In how many ways it may lie. */
  readonly turns: number;
}

/** What takes its part with an outline that may lie in so many ways. */
export function memberOf(outline: Region, turns: number): PairMember {
  return { vertices: verticesOf(outline), sharpTurns: sharpTurnsOf(outline), turns };
}

/**
 * Roughly what the no-fit polygons of all pairs of shapes and their fields cost, in products of vertex numbers.
 *
 * @param perField what a field costs beside its polygon
 */
export function workOfPairs(members: readonly PairMember[], perField: number): number {
  let work = 0;
  for (const [i, a] of members.entries()) {
    for (let j = i; j < members.length; j++) {
      const b = members[j];
      work += Math.max(a.turns, b.turns) * (perField + workOfPair(a, b));
    }
  }
  return work;
}

/**
 * The same of two, without their field. At a bend the edges of the other outline that run in between are gone along (Guibas,
 * Ramshaw and Stolfi 1983): teeth bend to and fro again and again.
 */
export function workOfPair(a: PairMember, b: PairMember): number {
  const added = beyondFew(a) * b.vertices + beyondFew(b) * a.vertices;
  return Math.max(a.vertices * b.vertices, PER_ADDED_EDGE * added);
}

function beyondFew({ sharpTurns = 0 }: PairMember): number {
  return Math.max(0, sharpTurns - FEW_TURNS);
}

/**
 * How far the rings of a region turn in all, to either side, in whole turns. Each bend counts by (1 - cos) / 4, half a turn where the
 * ring goes back on itself: the gentle bends of curves hardly count, and no angle is asked for, whose last bit differs between machines.
 */
export function sharpTurnsOf({ outline, openings }: Region): number {
  let turns = 0;
  for (const ring of [outline, ...openings]) {
    for (const [i, [x, y]] of ring.entries()) {
      const [beforeX, beforeY] = ring[i === 0 ? ring.length - 1 : i - 1];
      const [afterX, afterY] = ring[i + 1 === ring.length ? 0 : i + 1];
      const dot = (x - beforeX) * (afterX - x) + (y - beforeY) * (afterY - y);
      const before = (x - beforeX) * (x - beforeX) + (y - beforeY) * (y - beforeY);
      const after = (afterX - x) * (afterX - x) + (afterY - y) * (afterY - y);
      if (before > 0 && after > 0) turns += (1 - dot / Math.sqrt(before * after)) / 4;
    }
  }
  return turns;
}
