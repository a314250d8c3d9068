import { combineRegions, offsetRegions } from '../geometry/clipper.ts';
import { regionsArea } from '../geometry/ring.ts';
import {
  type Box,
  boundsOf,
  boxArea,
  boxesOverlap,
  grownBox,
  type Line,
  type Region,
  sidesOf,
} from '../geometry/shapes.ts';
import { simplifyRegion } from '../geometry/simplify-ring.ts';
import type { KeepRule } from '../model/batch.ts';
import { boxRegion, outside, within } from './box-clipping.ts';
import { holdsRectangle, largestRectangle } from './largest-rectangle.ts';

/**
 * What is worth keeping of a sawn board. Straight saw cuts come first: wherever a line across the board or along it
 * meets no part, the strip beside it comes away whole. What is left around the parts is kept only where it is stout.
 */

/** One piece to keep and the straight cuts that free it; none when the blade alone does. */
export interface Keeper {
  readonly region: Region;
  readonly rectangle: Box;
  readonly lines: readonly Line[];
}

/** The sound wood of a board, divided. */
export interface Remains {
  readonly keepers: readonly Keeper[];
  /** Removed by the straight cuts. */
  readonly kerf: readonly Region[];
  /** Area of what is neither, mm2. */
  readonly scrap: number;
}

/** How a board may be parted. */
export interface PartingRules {
  readonly keep: KeepRule;
  /** Width of a straight cut, mm. */
  readonly kerf: number;
}

/** Wood thinner than this between parts breaks off and is not kept, mm. */
const SLENDER = 10;

/** How finely wood is drawn while it is shrunk and grown, mm: it is clipped to the true outline afterwards. */
const ROUGHLY = 0.04;

/** Wood that was shrunk grows back this much farther, to fill the square corners it has had: the root of 2. */
const TO_CORNERS = Math.SQRT2;

/** Wood that grows back this much farther than it was shrunk reaches its walls for certain, mm: both are drawn roughly. */
const PAST_WALLS = 4 * ROUGHLY;

/**
 * What fills a corner is no longer than this, mm. Longer slips of wood were reached through a crack, or a part, thinner than the
 * wood grows beyond its walls: they hang on at its tip, and break off.
 */
const LONGEST_CORNER = 1.5 * SLENDER;

/** Straight cuts made one after the other in one piece of a board, at most. */
export const MOST_CUTS = 8;

/** A piece of a board between straight cuts. */
export interface Cell {
  readonly box: Box;
  /** Sound wood in it beside the parts. */
  readonly wood: readonly Region[];
  /** Parts with their kerf that may reach into it. */
  readonly obstacles: readonly Box[];
  /** The straight cuts that freed it, in the order they are made. */
  readonly lines: readonly Line[];
}

/** Parts a cell by its best strip, and what lies beside that strip again: as a person at the saw would go about it. */
export function divideCell(cell: Cell, rules: PartingRules): Remains {
  const { wood, lines } = cell;
  const obstacles = cell.obstacles.filter((box) => boxesOverlap(box, cell.box));
  const strip = lines.length < MOST_CUTS ? bestStrip({ ...cell, obstacles }, rules) : undefined;
  if (strip === undefined) return freedPieces(wood, lines, rules);
  return partedBy(strip, cell, rules, (box, all) =>
    divideCell({ box, wood: within(wood, box), obstacles, lines: all }, rules),
  );
}

/**
 * What a strip leaves of the wood it is parted from.
 *
 * @param divideOther divides what lies beside the strip, after the cuts that are handed to it
 */
export function partedBy(
  strip: Strip,
  { wood, lines }: Pick<Cell, 'wood' | 'lines'>,
  rules: PartingRules,
  divideOther: (box: Box, lines: readonly Line[]) => Remains,
): Remains {
  const all = [...lines, ...strip.lines];
  const pieces = within(wood, strip.box);
  const kept = pieces.flatMap((region) => keeperOf(region, all, rules));
  const small = pieces.filter((region) => !kept.some((keeper) => keeper.region === region));
  const parted = strip.others.map((box) => divideOther(box, all));
  return {
    keepers: [...kept, ...parted.flatMap(({ keepers }) => keepers)],
    kerf: [...outside(wood, [strip.box, ...strip.others]), ...parted.flatMap(({ kerf }) => kerf)],
    scrap: parted.reduce((sum, other) => sum + other.scrap, regionsArea(small)),
  };
}

/** A strip without parts, from one side of its cell to the other. */
export interface Strip {
  readonly box: Box;
  /** What of the cell lies beside the strip and its cuts. */
  readonly others: readonly Box[];
  readonly lines: readonly Line[];
}

/** The strip with the largest rectangle that is worth keeping. */
function bestStrip({ box: cell, wood, obstacles }: Cell, rules: PartingRules): Strip | undefined {
  let best: Strip | undefined;
  let bestArea = 0;
  for (const strip of [
    ...stripsAcross(obstacles, cell, rules.kerf),
    ...stripsAlong(obstacles, cell, rules.kerf),
  ]) {
    const area = largestIn(strip, wood, rules);
    if (area > bestArea) {
      best = strip;
      bestArea = area;
    }
  }
  return best;
}

/** Area of the largest rectangle of a strip that is worth keeping, mm2; 0 where there is none. */
export function largestIn({ box }: Strip, wood: readonly Region[], { keep }: PartingRules): number {
  // Asked first, for clipping the wood to a strip is what takes the time here.
  if (!couldHold(boxRegion(box), keep)) return 0;
  return Math.max(0, ...within(wood, box).map((piece) => rectangleArea(largestRectangle(piece, keep))));
}

/** Strips between two cross-cuts, or a cross-cut and an end. */
function stripsAcross(obstacles: readonly Box[], cell: Box, kerf: number): Strip[] {
  const { minY, maxY } = cell;
  return gaps(
    obstacles.map((box) => [box.minX, box.maxX] as const),
    [cell.minX, cell.maxX],
    kerf,
  ).map(({ from, to, cuts, others }) => ({
    box: { minX: from, maxX: to, minY, maxY },
    others: others.map(([minX, maxX]) => ({ minX, maxX, minY, maxY })),
    lines: cuts.map(
      (x): Line => [
        [x, minY],
        [x, maxY],
      ],
    ),
  }));
}

/** Strips between two rips, or a rip and an edge. */
export function stripsAlong(obstacles: readonly Box[], cell: Box, kerf: number): Strip[] {
  const { minX, maxX } = cell;
  return gaps(
    obstacles.map((box) => [box.minY, box.maxY] as const),
    [cell.minY, cell.maxY],
    kerf,
  ).map(({ from, to, cuts, others }) => ({
    box: { minX, maxX, minY: from, maxY: to },
    others: others.map(([minY, maxY]) => ({ minX, maxX, minY, maxY })),
    lines: cuts.map(
      (y): Line => [
        [minX, y],
        [maxX, y],
      ],
    ),
  }));
}

type Span = readonly [from: number, to: number];

interface Gap {
  readonly from: number;
  readonly to: number;
  /** Middle of the cut at either end that needs one. */
  readonly cuts: readonly number[];
  readonly others: readonly Span[];
}

/** The gaps between spans in a range, less a cut at every end that is no end of the range. */
function gaps(spans: readonly Span[], [first, last]: Span, kerf: number): Gap[] {
  const sorted = [...spans].sort((a, b) => a[0] - b[0]);
  const found: Gap[] = [];
  let end = first;
  for (const [from, to] of [...sorted, [last, last] as const]) {
    if (from > end) {
      const low = end > first ? end + kerf : end;
      const high = from < last ? from - kerf : Math.min(from, last);
      const others: Span[] = [];
      const cuts: number[] = [];
      if (end > first) {
        others.push([first, end]);
        cuts.push(end + kerf / 2);
      }
      if (from < last) {
        others.push([from, last]);
        cuts.push(from - kerf / 2);
      }
      if (high > low) found.push({ from: low, to: high, cuts, others });
    }
    end = Math.max(end, to);
  }
  return found;
}

/** What the blade frees around the parts: the stout pieces that are large enough are kept. */
function freedPieces(wood: readonly Region[], lines: readonly Line[], rules: PartingRules): Remains {
  const keepers: Keeper[] = [];
  for (const piece of wood) {
    if (!holdsRectangle(piece, rules.keep)) continue;
    // Opened: what is slender is left out; only pieces that hold a keeper are worth the time.
    const core = offsetRegions([simplifyRegion(piece, ROUGHLY)], -SLENDER / 2, ROUGHLY);
    const grown = offsetRegions(core, (SLENDER / 2) * TO_CORNERS, ROUGHLY);
    const stout = combineRegions('intersection', grown, [piece]).filter((each) =>
      couldHold(each, rules.keep),
    );
    const slips = slipsOf(stout, core);
    const kept = slips.length === 0 ? stout : combineRegions('difference', stout, slips);
    keepers.push(...kept.flatMap((region) => keeperOf(region, lines, rules)));
  }
  // By what they leave of the area, not by clipping: where keepers touch at hundreds of corners, that takes minutes.
  return { keepers, kerf: [], scrap: regionsArea(wood) - regionsArea(keepers.map(({ region }) => region)) };
}

/** Slips that wood has behind a crack, beside the core that it is grown from. */
function slipsOf(stout: readonly Region[], core: readonly Region[]): Region[] {
  if (stout.length === 0) return [];
  const plain = core.map((each) => simplifyRegion(each, ROUGHLY));
  const toWalls = offsetRegions(plain, SLENDER / 2 + PAST_WALLS, ROUGHLY);
  return combineRegions('difference', stout, toWalls).filter(
    ({ outline }) => sidesOf(boundsOf(outline))[1] > LONGEST_CORNER,
  );
}

/** False when the box of a piece is smaller than what is kept: most pieces between parts are. */
function couldHold({ outline }: Region, { length, width }: KeepRule): boolean {
  const { minX, minY, maxX, maxY } = boundsOf(outline);
  return maxX - minX >= length && maxY - minY >= width;
}

function keeperOf(region: Region, lines: readonly Line[], rules: PartingRules): Keeper[] {
  const rectangle = largestRectangle(region, rules.keep);
  return rectangle === undefined ? [] : [{ region, rectangle, lines }];
}

function rectangleArea(box: Box | undefined): number {
  return box === undefined ? 0 : boxArea(box);
}

/** Boxes of parts grown by the kerf, mm. */
export function obstaclesOf(parts: readonly Region[], kerf: number): Box[] {
  return parts.map(({ outline }) => grownBox(boundsOf(outline), kerf));
}
