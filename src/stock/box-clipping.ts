import { combineRegions } from '../geometry/clipper.ts';
import { holdsRing } from '../geometry/ring.ts';
import {
  type Box,
  boundsOf,
  boxesOverlap,
  boxHolds,
  boxRing,
  type Region,
  type Ring,
} from '../geometry/shapes.ts';

/**
 * Wood cut straight by a box. Of a region with many openings only those across the sides of the box have to be
 * clipped: the others lie in the piece as they are, or beside it.
 */

/** What of the wood lies in a box. */
export function within(wood: readonly Region[], box: Box): Region[] {
  return wood.flatMap((piece) => {
    const bounds = boundsOf(piece.outline);
    if (!boxesOverlap(bounds, box)) return [];
    return boxHolds(box, bounds) ? [piece] : clipped(piece, box);
  });
}

function clipped({ outline, openings }: Region, box: Box): Region[] {
  const inside: Ring[] = [];
  const across: Ring[] = [];
  for (const opening of openings) {
    const bounds = boundsOf(opening);
    if (!boxesOverlap(bounds, box)) continue;
    if (boxHolds(box, bounds) && !touchesSide(box, bounds)) inside.push(opening);
    else across.push(opening);
  }
  const sawn = combineRegions('intersection', [ringRegion(outline)], [boxRegion(box)]);
  // Taken off after the cut: clipped together with the outline, an opening that lies along a side of the box would
  // stay an opening and touch the outline, where it has to be a notch.
  const pieces = across.length === 0 ? sawn : combineRegions('difference', sawn, across.map(ringRegion));
  if (inside.length === 0) return pieces;
  return pieces.map((piece) => ({
    outline: piece.outline,
    openings: [
      ...piece.openings,
      ...(pieces.length === 1 ? inside : inside.filter((opening) => holdsRing(piece.outline, opening))),
    ],
  }));
}

/** A box as a region. */
export function boxRegion(box: Box): Region {
  return ringRegion(boxRing(box));
}

function ringRegion(outline: Ring): Region {
  return { outline, openings: [] };
}

/** What of the wood lies in none of the boxes. */
export function outside(wood: readonly Region[], boxes: readonly Box[]): Region[] {
  const isHeld = (ring: Ring) => {
    const bounds = boundsOf(ring);
    return boxes.some((box) => boxHolds(box, bounds));
  };
  const beyond = wood
    .filter(({ outline }) => !isHeld(outline))
    // An opening within a box goes with it.
    .map(({ outline, openings }) => ({ outline, openings: openings.filter((ring) => !isHeld(ring)) }));
  return combineRegions('difference', beyond, boxes.map(boxRegion));
}

function touchesSide(outer: Box, inner: Box): boolean {
  return (
    inner.minX === outer.minX ||
    inner.minY === outer.minY ||
    inner.maxX === outer.maxX ||
    inner.maxY === outer.maxY
  );
}
