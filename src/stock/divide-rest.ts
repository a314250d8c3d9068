import { regionsArea } from '../geometry/ring.ts';
import { type Box, boxArea, boxesOverlap, type Line, type Region } from '../geometry/shapes.ts';
import { outside, within } from './box-clipping.ts';
import {
  divideCell,
  largestIn,
  MOST_CUTS,
  type PartingRules,
  partedBy,
  type Remains,
  type Strip,
  stripsAlong,
} from './offcuts.ts';

/**
 * How the sound wood of a board is divided where the board is cross-cut to sections: each section by itself, or, where a strip
 * is free along several of them, that strip is ripped off in one before they are parted. One long keeper takes parts that
 * several short ones do not.
 */

/** How much less than asked for is still kept, mm: 3 x 25.4 is a hair below 76.2 in binary, and wood is clipped on a grid of 0.0001 mm. */
const ROUNDING = 1e-3;

/** A long keeper may cost a tenth of the area that would be kept of the sections one by one; a choice of ours, no source. */
const SHARE_KEPT = 0.9;

/** How a board with its sections may be parted. */
export interface BoardPartingRules extends PartingRules {
  /** Whether the board has a straight edge to rip it along from one place to another, mm: without one it is cross-cut first. */
  readonly isStraight: (from: number, to: number) => boolean;
}

/**
 * Divides the sound wood of a board into keepers, kerf of the straight cuts, and scrap.
 *
 * @param rest sound wood beside the parts, in pieces
 * @param obstacles parts with their kerf: no straight cut goes through them
 * @param cells boxes the board is cut into anyway, its sections from the left; the whole board is one
 */
export function divideRest(
  rest: readonly Region[],
  obstacles: readonly Box[],
  cells: readonly Box[],
  { keep, ...others }: BoardPartingRules,
): Remains {
  const rules = { keep: { length: keep.length - ROUNDING, width: keep.width - ROUNDING }, ...others };
  return divideStretch({ cells, wood: rest, obstacles, lines: [], hasEdge: true }, rules);
}

/** Sections side by side that are not parted yet, or what rips have left of them. */
interface Stretch {
  readonly cells: readonly Box[];
  /** Sound wood beside the parts. */
  readonly wood: readonly Region[];
  /** Parts with their kerf that may reach into it. */
  readonly obstacles: readonly Box[];
  /** The straight cuts that freed it, in the order they are made. */
  readonly lines: readonly Line[];
  /** True as long as the edge of the board is one of it: wood above a rip has none that measures are taken from. */
  readonly hasEdge: boolean;
}

/** A strip that is free along the sections from one to another, by their places in the stretch. */
interface LongStrip extends Strip {
  readonly first: number;
  readonly last: number;
}

/** Divides a stretch with the largest strip along its sections that is worth it, and what lies beside that strip again. */
function divideStretch(stretch: Stretch, rules: BoardPartingRules): Remains {
  const { cells, wood } = stretch;
  const { all, sections } = divideOneByOne(stretch, rules);
  for (const strip of longStrips(stretch, sections, rules)) {
    const { first, last } = strip;
    const crossCut = allOf(sections.slice(first, last + 1));
    if (largestIn(strip, wood, rules) <= largestOf(crossCut)) continue;
    const run = stretchOf(stretch, first, last + 1);
    const ripped = partedBy(strip, run, rules, (box, lines) =>
      divideStretch({ ...below(run, box), lines }, rules),
    );
    if (keptArea(ripped) < SHARE_KEPT * keptArea(crossCut)) continue;
    const ranges = [[0, first] as const, [last + 1, cells.length] as const];
    const beside = ranges.filter(([from, to]) => from < to).map((range) => stretchOf(stretch, ...range));
    const parted = [run, ...beside].map(wholeOf);
    const divided = beside.map((other) => divideStretch(other, rules));
    return allOf([ripped, ...divided, { keepers: [], kerf: outside(wood, parted), scrap: 0 }]);
  }
  return all;
}

/** Divides each section by itself; what lies between them, and an end so short that it falls away with the last cut, is kerf. */
function divideOneByOne(
  { cells, wood, obstacles, lines }: Stretch,
  rules: PartingRules,
): { readonly all: Remains; readonly sections: readonly Remains[] } {
  const sections = cells.map((box) => divideCell({ box, wood: within(wood, box), obstacles, lines }, rules));
  return { all: allOf([...sections, { keepers: [], kerf: outside(wood, cells), scrap: 0 }]), sections };
}

/**
 * The strips that are free along two sections or more, the largest first. An empty section that can be kept is kept at its full
 * width; one too short for that is scrap unless a strip goes on along it. What has lost the straight edge is ripped all along or
 * not at all: it is done before that edge is ripped off, in the whole board.
 *
 * @param alone what is kept of each section by itself
 */
function longStrips(
  { cells, obstacles, lines, hasEdge }: Stretch,
  alone: readonly Remains[],
  { kerf, isStraight }: BoardPartingRules,
): LongStrip[] {
  if (lines.length >= MOST_CUTS) return [];
  const carries = cells.map((cell) => obstacles.some((box) => boxesOverlap(box, cell)));
  const mayBeRipped = cells.map((_, i) => carries[i] || alone[i].keepers.length === 0);
  const found: LongStrip[] = [];
  for (let first = 0; first < cells.length; first++) {
    for (let last = first + 1; last < cells.length && mayBeRipped[first] && mayBeRipped[last]; last++) {
      // A rip is made beside a part: empty sections alone ask for none.
      if (!carries.slice(first, last + 1).includes(true)) continue;
      const box = { ...cells[first], maxX: cells[last].maxX };
      const isWhole = first === 0 && last === cells.length - 1;
      if (hasEdge ? !isStraight(box.minX, box.maxX) : !isWhole) continue;
      const inBox = obstacles.filter((each) => boxesOverlap(each, box));
      found.push(...stripsAlong(inBox, box, kerf).map((strip) => ({ ...strip, first, last })));
    }
  }
  return found.sort((a, b) => boxArea(b.box) - boxArea(a.box));
}

/** Some neighbours of a stretch, from one place among its cells up to another. */
function stretchOf({ cells, wood, ...rest }: Stretch, from: number, to: number): Stretch {
  const some = cells.slice(from, to);
  return { ...rest, cells: some, wood: within(wood, wholeOf({ cells: some })) };
}

/** What of a stretch lies in a box as long as it is. */
function below({ cells, wood, hasEdge, ...rest }: Stretch, box: Box): Stretch {
  return {
    ...rest,
    cells: cells.map((cell) => ({ ...cell, minY: box.minY, maxY: box.maxY })),
    wood: within(wood, box),
    hasEdge: hasEdge && box.maxY === cells[0].maxY,
  };
}

function wholeOf({ cells }: Pick<Stretch, 'cells'>): Box {
  return { ...cells[0], maxX: cells[cells.length - 1].maxX };
}

/** What is left of several pieces of a board. */
export function allOf(remains: readonly Remains[]): Remains {
  return {
    keepers: remains.flatMap(({ keepers }) => keepers),
    kerf: remains.flatMap(({ kerf }) => kerf),
    scrap: remains.reduce((sum, { scrap }) => sum + scrap, 0),
  };
}

function keptArea({ keepers }: Remains): number {
  return regionsArea(keepers.map(({ region }) => region));
}

function largestOf({ keepers }: Remains): number {
  return Math.max(0, ...keepers.map(({ rectangle }) => boxArea(rectangle)));
}
