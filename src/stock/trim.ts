import { combineRegions } from '../geometry/clipper.ts';
import { regionArea } from '../geometry/ring.ts';
import { type Box, boundsOf, boxRing, type Region, type Ring } from '../geometry/shapes.ts';
import type { TrimmedSides } from '../model/layout.ts';
import type { Board } from '../model/stock.ts';

/** Ripping the edges and cross-cutting the ends of a board before layout. */

/** Share of the board's length that an edge has to be straight over without a gap to count as cleaned. */
export const CLEANED_SHARE = 0.9;

/** Steps of halving within one slab: more than a number has digits. */
const HALVINGS = 60;

/** The board's outline after its trim; empty when nothing is left. The largest piece counts. */
export function trimmedOutline({ outline, trim }: Pick<Board, 'outline' | 'trim'>): Region {
  const whole: Region = { outline, openings: [] };
  if (trim === undefined) return whole;
  const box = boundsOf(outline);
  const minX = box.minX + trim.leftEnd;
  const maxX = box.maxX - trim.rightEnd;
  const minY = box.minY + trim.topEdge;
  // Ends and upper edge first: how far the straight edge has to be ripped is told from the wood that is left by then.
  const ends = largestOf(clippedToBox(whole, { minX, minY, maxX, maxY: box.maxY }));
  if (trim.straightEdge === 0) return ends;
  const maxY = trim.straightEdge === 'clean' ? cleanedEdge(ends.outline) : box.maxY - trim.straightEdge;
  return largestOf(clippedToBox(ends, { minX, minY, maxX, maxY }));
}

/** A side is trimmed where more than this comes off it, mm: a tenth of the finest saw cut. */
export const TRIMMED = 0.05;

/**
 * What the trim takes off each side; undefined where it takes nothing. Told from the trim and not from what may be used:
 * where a crack parts a board nothing is trimmed, though all beyond it is left.
 */
export function trimmedSides({ outline, trim }: Pick<Board, 'outline' | 'trim'>): TrimmedSides | undefined {
  if (trim === undefined) return undefined;
  const cleaned = () => boundsOf(outline).maxY - boundsOf(trimmedOutline({ outline, trim }).outline).maxY;
  const trimmed = (width: number) => (width > TRIMMED ? width : 0);
  const sides = {
    topEdge: trimmed(trim.topEdge),
    straightEdge: trimmed(trim.straightEdge === 'clean' ? cleaned() : trim.straightEdge),
    leftEnd: trimmed(trim.leftEnd),
    rightEnd: trimmed(trim.rightEnd),
  };
  return Object.values(sides).some((width) => width > 0) ? sides : undefined;
}

/** The region with the greatest area; an empty one when there is none. */
export function largestOf(regions: readonly Region[]): Region {
  const none: Region = { outline: [], openings: [] };
  return regions.reduce((best, region) => (regionArea(region) > regionArea(best) ? region : best), none);
}

/** The pieces of a region within a box, mm; none when the box is inside out. */
export function clippedToBox(region: Region, box: Box): Region[] {
  // A box turned inside out by its trims has a ring like any other: that nothing is left is told here or nowhere.
  if (region.outline.length < 3 || box.maxX <= box.minX || box.maxY <= box.minY) return [];
  return combineRegions('intersection', [region], [{ outline: boxRing(box), openings: [] }]);
}

/**
 * The y in mm of the rip that takes just enough off the large-y edge: the greatest y at which a cut along the board
 * runs in wood without a gap over `CLEANED_SHARE` of its length. The smallest y when no cut does.
 *
 * Between two neighbouring vertex heights every run in the wood changes linearly with y, so the longest run is
 * convex there, and a slab whose lower end reaches the length while its upper end does not is halved.
 */
export function cleanedEdge(outline: Ring): number {
  const box = boundsOf(outline);
  const wanted = CLEANED_SHARE * (box.maxX - box.minX);
  const heights = [...new Set(outline.map(([, y]) => y))].sort((a, b) => b - a);
  for (let i = 0; i + 1 < heights.length; i++) {
    const low = heights[i];
    const high = heights[i + 1];
    const inset = (low - high) * 1e-9;
    if (longestRun(outline, low - inset) >= wanted) return low;
    if (longestRun(outline, high + inset) < wanted) continue;
    let short = low;
    let long = high;
    for (let step = 0; step < HALVINGS; step++) {
      const middle = (short + long) / 2;
      if (longestRun(outline, middle) >= wanted) long = middle;
      else short = middle;
    }
    return long;
  }
  return box.minY;
}

/** Length of the longest stretch of the line y = `height` inside a ring; no vertex may lie on the line. */
function longestRun(ring: Ring, height: number): number {
  const crossings: number[] = [];
  ring.forEach(([bx, by], i) => {
    const [ax, ay] = ring[(i + ring.length - 1) % ring.length];
    if (ay > height !== by > height) crossings.push(ax + ((bx - ax) * (height - ay)) / (by - ay));
  });
  crossings.sort((a, b) => a - b);
  let longest = 0;
  for (let i = 0; i + 1 < crossings.length; i += 2)
    longest = Math.max(longest, crossings[i + 1] - crossings[i]);
  return longest;
}
