import { boundsOf } from '../../geometry/shapes.ts';
import type { SawReach } from '../../model/batch.ts';
import {
  earliestEnd,
  lengthsOf,
  onGrid,
  type SectionPlan,
  SHORTEST,
  sectionOf,
  sectionReach,
} from '../../stock/sections.ts';
import { Arrangement, hasRoom, usedEnd } from '../arrangement/arrangement.ts';
import { readyFields } from '../arrangement/ready-pairs.ts';
import { FirstLayout } from '../construct/first-layout.ts';
import { boardNameOf, type StockKind, type StockPiece } from '../groups/group.ts';
import type { PinnedCopy } from '../groups/pinned.ts';
import { areaOfCopies } from '../problem/area-of-copies.ts';
import type { Container } from '../problem/container.ts';
import { countsByShape } from '../problem/copies-by-shape.ts';
import type { NestingProblem } from '../problem/problem.ts';
import { containerFrom } from '../problem/problem-spec.ts';
import type { Pulse } from '../running/pulse.ts';
import { areaOfPinned, cutsBehind, endOfPinned, endsToTry, pinnedFrom } from './pinned-stretches.ts';

/**
 * Part lines found while laying out: a board is filled from the left, and cross-cut where what lies in a section ends,
 * not where the throat does. So no length is lost at the end of a section, and what is saved along the whole board
 * comes together in one piece at its right end.
 */

/** How boards are filled. */
export interface FillSettings {
  /** One piece of every board, those that are filled first in front. */
  readonly boards: readonly StockPiece[];
  /** What is pinned to boards, by the name of the board: no line runs through it. */
  readonly pinned: ReadonlyMap<string, readonly PinnedCopy[]>;
  /** Numbers of the copies in the order they are tried. */
  readonly order: Int32Array;
  /** Greatest lengths of a section to try, mm: of all, the section that is filled best is cut. */
  readonly lengths: readonly number[];
  readonly reach: SawReach;
  /** Width of the cross-cut, mm. */
  readonly kerf: number;
  /** Sections that were looked at before, to be used again. */
  readonly known: KnownSections;
  readonly pulse: Pulse;
}

/** What came of it. */
export interface Filled {
  /** Sections of the boards that carry something, by the name of the board. */
  readonly parted: ReadonlyMap<string, readonly SectionPlan[]>;
  /** Where every copy lies, its container left open. */
  readonly arrangement: Arrangement;
  /** Board and number of the section of every copy that found a place. */
  readonly homes: ReadonlyMap<number, { readonly board: string; readonly section: number }>;
}

/** A section as it was filled for a try. */
interface TriedSection {
  readonly to: number;
  readonly placed: readonly number[];
  readonly arrangement: Arrangement | undefined;
  /** Area of its copies for the length it takes, mm. */
  readonly density: number;
}

/**
 * Sections of one problem and one order of its copies: boards are filled in many ways that begin alike, so the same ones come up
 * again and again.
 */
export class KnownSections {
  /** By board entry and place: their fields are dear. */
  readonly containers = new Map<string, Container | undefined>();
  /** By board entry, place and what was left to lay. */
  readonly filled = new Map<string, TriedSection>();
}

/** Number of hazards in all sections that were looked at: each costs a field for every orientation of every part. */
export function hazardsOf({ containers }: KnownSections): number {
  return [...containers.values()].reduce((sum, container) => sum + (container?.hazards.length ?? 0), 0);
}

/** Fills the boards of a group one after the other; see the top of the file. Places and lines are in mm along each board. */
export async function fillSections(problem: NestingProblem, settings: FillSettings): Promise<Filled> {
  const parted = new Map<string, SectionPlan[]>();
  const arrangement = new Arrangement(problem.shapeOf.length);
  const homes = new Map<number, { board: string; section: number }>();
  let left = [...settings.order];
  for (const piece of settings.boards) {
    if (left.length === 0 || settings.pulse.stopped) break;
    const board = boardNameOf(piece);
    const { sections, filled } = await fillBoard(problem, piece, left, settings);
    if (filled.every(({ placed }) => placed.length === 0)) continue;
    parted.set(board, sections);
    filled.forEach(({ placed, arrangement: tried }, i) => {
      for (const copy of placed) {
        arrangement.layAs(copy, tried!, copy);
        homes.set(copy, { board, section: i + 1 });
      }
    });
    left = left.filter((copy) => !homes.has(copy));
  }
  return { parted, arrangement, homes };
}

async function fillBoard(
  problem: NestingProblem,
  piece: StockPiece,
  copies: readonly number[],
  settings: FillSettings,
): Promise<{ sections: SectionPlan[]; filled: TriedSection[] }> {
  const { reach, kerf, pulse } = settings;
  const { kind } = piece;
  const board = boardNameOf(piece);
  const pinned = settings.pinned.get(board) ?? [];
  const { minX, maxX } = boundsOf(kind.usable.outline);
  const longest = onGrid(sectionReach(kind.usable, reach));
  const shorter = settings.lengths.filter((mm) => mm < longest && mm >= SHORTEST);
  const lengths = shorter.length === 0 ? [longest] : shorter;
  const cuts: { from: number; to: number }[] = [];
  const filled: TriedSection[] = [];
  let rest = [...copies];
  const around = { pinned, margin: problem.margin, kerf, longest, rightEnd: maxX };
  let from = minX;
  while (rest.length > 0 && maxX - from >= SHORTEST && !pulse.stopped) {
    const tried: TriedSection[] = [];
    const left = leftOf(problem, rest);
    const ends = lengths.map((length) => Math.min(maxX, from + length));
    for (const to of endsToTry(from, ends, around)) {
      const stretch = { kind, board, from, to, pinned: pinnedFrom(pinned, from, to) };
      const key = `${keyOf(stretch)} ${left}`;
      const section = settings.known.filled.get(key) ?? (await fillSection(problem, stretch, rest, settings));
      if (!pulse.stopped) settings.known.filled.set(key, section);
      tried.push(section);
    }
    const best = tried.reduce((a, b) => (b.density > a.density + 1e-9 ? b : a));
    if (best.placed.length === 0 && maxX - from <= longest) break;
    const placed = new Set(best.placed);
    rest = rest.filter((copy) => !placed.has(copy));
    cuts.push({ from, to: best.to });
    filled.push(best);
    from = onGrid(best.to + kerf);
  }
  const behind = pinnedFrom(pinned, from, maxX);
  if (behind.length > 0) cuts.push(...cutsBehind(from, { ...around, pinned: behind }));
  const sections = behind.length > 0 ? sectionsOf(kind, cuts) : withRest(kind, cuts, { from, longest, kerf });
  return { sections, filled };
}

function sectionsOf(kind: StockKind, cuts: readonly { readonly from: number; readonly to: number }[]) {
  return cuts.map(({ from, to }, i) => sectionOf(kind.usable, i + 1, from, to));
}

/** How many copies of every shape are left: those that are laid were the first ones of the order. */
function leftOf(problem: NestingProblem, copies: readonly number[]): string {
  return countsByShape(problem, copies).join(' ');
}

/** A piece of a board between two lines across it, mm. */
interface Stretch {
  readonly kind: StockKind;
  /** Name of its board. */
  readonly board: string;
  readonly from: number;
  readonly to: number;
  /** What is pinned there. */
  readonly pinned: readonly PinnedCopy[];
}

/** Lays as many of the copies as have room into one section, largest first as they come. */
async function fillSection(
  problem: NestingProblem,
  stretch: Stretch,
  copies: readonly number[],
  { known, kerf, pulse }: FillSettings,
): Promise<TriedSection> {
  const { from, to, pinned } = stretch;
  const container = containerOf(stretch, problem, known);
  if (container === undefined) return { to, placed: [], arrangement: undefined, density: 0 };
  const section = { ...problem, containers: [container] };
  const arrangement = new Arrangement(problem.shapeOf.length);
  const layout = new FirstLayout(section, arrangement);
  const placed: number[] = [];
  const lying = new Set<number>();
  const full = new Set<number>();
  for (const copy of copies) {
    const shape = problem.shapeOf[copy];
    if (full.has(shape)) continue;
    // The first sections ask for every field there is: an abort must not wait for them. What finds no room here, as a
    // long part turned across a board, asks for none.
    const orientations = problem.shapes[shape].orientations.filter((one) => hasRoom(section, 0, one));
    await readyFields(problem.pairs, lying, orientations, pulse);
    if (pulse.stopped) break;
    if (!(await layout.place(copy, [0], pulse))) full.add(shape);
    else {
      placed.push(copy);
      lying.add(arrangement.orientation[copy]);
    }
  }
  if (placed.length === 0 && pinned.length === 0) return { to, placed, arrangement, density: 0 };
  // Up to the grid, no shorter than makes sense, and never beyond what the throat allows.
  const used = placed.length === 0 ? from : usedEnd(section, arrangement, 0);
  const end = Math.min(to, earliestEnd(from, Math.max(used, endOfPinned(pinned)), problem.margin));
  const area = areaOfCopies(problem, placed) + areaOfPinned(pinned);
  return { to: end, placed, arrangement, density: area / (end - from + kerf) };
}

function containerOf(
  stretch: Stretch,
  { margin, gap }: NestingProblem,
  { containers }: KnownSections,
): Container | undefined {
  const key = keyOf(stretch);
  const { kind, from, to, pinned } = stretch;
  if (!containers.has(key)) {
    const { usable } = sectionOf(kind.usable, 1, from, to);
    const occupied = pinned.map(({ region }) => ({ region, frame: false, distance: gap }));
    const surroundings = { occupied, margin, ...kind.edges };
    containers.set(key, usable.outline.length < 3 ? undefined : containerFrom(usable, 0, 0, surroundings));
  }
  return containers.get(key);
}

function keyOf({ kind, board, from, to, pinned }: Stretch): string {
  return `${pinned.length > 0 ? board : kind.board.id} ${from} ${to}`;
}

/**
 * The sections with what is left of the board after the last of them, in lengths that can be handled. A rest too
 * short to be of use is left on the last section where the throat allows.
 */
function withRest(
  kind: StockKind,
  cuts: readonly { readonly from: number; readonly to: number }[],
  { from: start, longest, kerf }: { readonly from: number; readonly longest: number; readonly kerf: number },
): SectionPlan[] {
  const { maxX } = boundsOf(kind.usable.outline);
  const all = cuts.map((cut) => ({ ...cut }));
  const last = all[all.length - 1];
  const rest = maxX - start;
  if (rest < SHORTEST && last !== undefined && maxX - last.from <= longest) last.to = maxX;
  else if (rest > 0) {
    let from = start;
    for (const length of rest < SHORTEST ? [rest] : lengthsOf(rest, longest, longest, kerf)) {
      all.push({ from, to: Math.min(maxX, onGrid(from + length)) });
      from = onGrid(from + length + kerf);
    }
    // What the cut before it takes away with it is no part of the last one, which would be longer than may be.
    const end = all[all.length - 1];
    if (maxX - end.from <= longest + 1e-6) end.to = maxX;
  }
  return sectionsOf(kind, all);
}
