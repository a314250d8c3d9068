import { lineLength, ringPerimeter } from '../geometry/ring.ts';
import { type Line, type Point, pointBetween, type Ring } from '../geometry/shapes.ts';
import type { StandsAt } from './standing-wood.ts';

/** An outline keeps no tab that is more than this share of it: there would be little left to saw before. */
const GREATEST_SHARE = 0.2;

/** A tab is tried at every so manieth of its length along a side. */
const STEPS = 2;
/** Wood has to stand beside a tab at so many places of each of its straight stretches, its ends among them. */
const LOOKS = 5;

/** Whether a tab has wood beside it that stays, so that it holds the part. */
interface Tab {
  readonly tab: Line;
  readonly holds: boolean;
}

/** An outline in two: what is sawn first, and the tab that holds the part until the last. */
export interface TabbedOutline extends Tab {
  readonly sawn: Line;
}

/**
 * Leaves a tab in the middle of the longest straight side of an outline, where it is cleaned up most easily; where
 * no side is that long, over whole sides from there on. Where no wood stays beside that place it is moved along the side,
 * then to the next longest, and where it finds none at all it is left there and holds nothing. Undefined when the outline
 * is too short for it.
 *
 * @param width length of the tab along the outline, mm
 */
export function leaveTab(
  outline: Ring,
  width: number,
  standsAt: StandsAt = () => true,
): TabbedOutline | undefined {
  if (width > GREATEST_SHARE * ringPerimeter(outline)) return undefined;
  const sides = longestFirst([...outline, outline[0]]);
  const inSide = (side: number, [from, to]: readonly [Point, Point], holds: boolean): TabbedOutline => {
    const walk = [...outline.slice(side), ...outline.slice(0, side)];
    return { sawn: [to, ...walk.slice(1), walk[0], from], tab: [from, to], holds };
  };
  for (const side of sides) {
    const ends = [outline[side], outline[(side + 1) % outline.length]] as const;
    const found = placesAlong(ends, width).find((tab) => standsAlong(tab, standsAt));
    if (found !== undefined) return inSide(side, found, true);
  }
  // No straight side will do: the tab takes whole sides, so that no vertex is made where the drawing has none.
  const round = [...outline, ...outline];
  const overSides = (start: number): TabbedOutline => {
    const last = pointAt(round, start, width);
    const tab = round.slice(start, last + 1);
    return {
      sawn: round.slice(last, start + outline.length + 1),
      tab,
      holds: standsAlong(tab, standsAt),
    };
  };
  for (let k = 0; k < outline.length; k++) {
    const start = (sides[0] + k) % outline.length;
    if (standsAlong(round.slice(start, pointAt(round, start, width) + 1), standsAt)) return overSides(start);
  }
  const [middle] = placesAlong([outline[sides[0]], outline[(sides[0] + 1) % outline.length]], width);
  return middle === undefined ? overSides(sides[0]) : inSide(sides[0], middle, false);
}

/** A line in three: what is sawn from either end, each from its end on, and the tab between them. */
export interface TabbedLine extends Tab {
  readonly sawn: readonly [Line, Line];
}

/**
 * Leaves a tab in a piece of outline that ends on the edge of the board at both ends: in the middle of its longest straight
 * side, or where no side is that long, over whole sides in its middle; where no wood stays beside it, elsewhere as
 * {@link leaveTab} does. Undefined when the piece is too short for it.
 *
 * @param width length of the tab along the line, mm
 */
export function leaveTabInLine(
  line: Line,
  width: number,
  standsAt: StandsAt = () => true,
): TabbedLine | undefined {
  const whole = lineLength(line);
  if (width > GREATEST_SHARE * whole) return undefined;
  const sides = longestFirst(line);
  const inSide = (side: number, [from, to]: readonly [Point, Point], holds: boolean): TabbedLine => ({
    sawn: [[...line.slice(0, side + 1), from], [to, ...line.slice(side + 1)].reverse()],
    tab: [from, to],
    holds,
  });
  for (const side of sides) {
    const found = placesAlong([line[side], line[side + 1]], width).find((tab) => standsAlong(tab, standsAt));
    if (found !== undefined) return inSide(side, found, true);
  }
  const overSides = (before: number): TabbedLine => {
    const first = pointAt(line, 0, before) - 1;
    const last = pointAt(line, first, width);
    const tab = line.slice(first, last + 1);
    return {
      sawn: [line.slice(0, first + 1), line.slice(last).reverse()],
      tab,
      holds: standsAlong(tab, standsAt),
    };
  };
  for (const before of fromTheMiddle(whole, width)) {
    const tabbed = overSides(before);
    if (tabbed.holds) return tabbed;
  }
  const [middle] = placesAlong([line[sides[0]], line[sides[0] + 1]], width);
  return middle === undefined ? overSides((whole - width) / 2) : inSide(sides[0], middle, false);
}

/** The places of a tab along a straight side, its middle first, none at its ends; none where the side is too short. */
function placesAlong([a, b]: readonly [Point, Point], width: number): [Point, Point][] {
  const length = lineLength([a, b]);
  if (length <= width) return [];
  return fromTheMiddle(length, width).map((from) => [
    pointBetween(a, b, from / length),
    pointBetween(a, b, (from + width) / length),
  ]);
}

/** How far from the one end of a length a tab may begin, the middle first, then by turns on either side of it, mm. */
function fromTheMiddle(length: number, width: number): number[] {
  const middle = (length - width) / 2;
  const places = [middle];
  for (let off = width / STEPS; off < middle; off += width / STEPS) places.push(middle - off, middle + off);
  return places;
}

function standsAlong(tab: Line, standsAt: StandsAt): boolean {
  return tab.slice(1).every((to, i) => {
    for (let k = 0; k < LOOKS; k++) if (!standsAt(pointBetween(tab[i], to, k / (LOOKS - 1)))) return false;
    return true;
  });
}

/** Index of the first point of a line that lies so many mm along it, or farther, from the point it is counted from. */
function pointAt(line: Line, from: number, along: number): number {
  let index = from;
  for (let left = along; left > 0; index++) left -= lineLength(line.slice(index, index + 2));
  return index;
}

/** The sides of a line by the index of the point they begin at, the longest first. */
function longestFirst(line: Line): number[] {
  const lengths = line.slice(1).map((to, i) => lineLength([line[i], to]));
  return [...lengths.keys()].sort((a, b) => lengths[b] - lengths[a]);
}
