import { UNITS_PER_MM } from '../geometry/integer-grid.ts';
import type { Region } from '../geometry/shapes.ts';
import { boundsOf } from '../geometry/shapes.ts';
import type { SawReach } from '../model/batch.ts';
import { clippedToBox, largestOf } from './trim.ts';

/** Cross-cutting a board into sections that can be handled and swung in the throat of the saw. */

/** One section of a board. */
export interface SectionPlan {
  /** From 1, from the left end. */
  readonly number: number;
  /** Where it lies along the board, mm; between two sections lies the kerf of the cross-cut. */
  readonly from: number;
  readonly to: number;
  /** What may be used of it. */
  readonly usable: Region;
}

/** Sections shorter than this make no sense at any saw, mm: the throat is then taken as its length. */
export const SHORTEST = 50;

/** Left on top of every margin: lines are rounded to the grid of layouts, mm. */
const PLAY = 1e-3;

/**
 * Where a section that carries something may end, mm: behind what lies in it, and no shorter than makes sense.
 *
 * @param from where it begins
 * @param end of what lies in it
 */
export function earliestEnd(from: number, end: number, margin: number): number {
  return onGrid(Math.max(from + SHORTEST, end + margin + PLAY));
}

/** The same from the right: where a section that ends at `to` may begin, mm. */
export function latestStart(to: number, start: number, margin: number): number {
  return onGrid(Math.min(to - SHORTEST, start - margin - PLAY));
}

/**
 * Greatest length in mm of a section of a board `width` mm wide: one that turns fully round any of its points has
 * a diagonal of at most the throat. A board wider than the throat cannot turn fully; its sections are as long as
 * the throat, and {@link swingOf} tells which parts cannot be sawn there.
 */
export function longestSection(width: number, { throat, longest }: SawReach): number {
  const handled = longest ?? Number.POSITIVE_INFINITY;
  if (throat === undefined) return handled;
  const turning = Math.sqrt(Math.max(0, throat * throat - width * width));
  return Math.min(handled, turning >= SHORTEST ? turning : throat);
}

/** Greatest length in mm of a section of a usable board. */
export function sectionReach({ outline }: Region, reach: SawReach): number {
  const { minY, maxY } = boundsOf(outline);
  return longestSection(maxY - minY, reach);
}

/** What partings of a board are tried for. */
interface PartingRules {
  readonly reach: SawReach;
  /** Width of the cross-cut, mm. */
  readonly kerf: number;
  /** Lengths of section that whole numbers of parts fill, mm; those beyond reach are left out. */
  readonly filled?: readonly number[];
}

/**
 * Ways to part a usable board into sections, none twice: as long as may be from the left, the same from the right,
 * all alike, and as long as rows of parts need. Which of them wastes least only a layout tells. One empty list when
 * the board need not be cut.
 */
export function partingsOf(usable: Region, { reach, kerf, filled = [] }: PartingRules): SectionPlan[][] {
  const box = boundsOf(usable.outline);
  const whole = box.maxX - box.minX;
  const longest = onGrid(sectionReach(usable, reach));
  if (!(whole > longest + 1e-6)) return [[]];
  const full = lengthsOf(whole, longest, longest, kerf);
  const alike = Math.ceil((whole + kerf) / (longest + kerf) - 1e-9);
  const even = onGrid((whole - (alike - 1) * kerf) / alike);
  const lists = [
    full,
    [...full].reverse(),
    [...new Array<number>(alike - 1).fill(even), Math.min(longest, whole - (alike - 1) * (even + kerf))],
    ...filled
      .filter((length) => length >= SHORTEST && length < longest)
      .map((length) => lengthsOf(whole, onGrid(length), longest, kerf)),
  ];
  const different = new Map(lists.map((lengths) => [lengths.map((mm) => mm.toFixed(1)).join(' '), lengths]));
  return [...different.values()].map((lengths) => sectionsFrom(usable, lengths, kerf));
}

/** A stretch along a board, mm. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/**
 * Ways to part a usable board on which something lies already: sections as long as may be, from the left and from the
 * right, with no cut within the stretches that are kept. None is shorter than `SHORTEST` where another cut is free, and a
 * stretch longer than a section may be gets the section it needs. One empty list when the board need not be cut.
 */
export function partingsAround(
  usable: Region,
  kept: readonly Stretch[],
  { reach, kerf }: PartingRules,
): SectionPlan[][] {
  const { minX, maxX } = boundsOf(usable.outline);
  const longest = onGrid(sectionReach(usable, reach));
  if (!(maxX - minX > longest + 1e-6)) return [[]];
  const plan = (cuts: readonly number[]) =>
    [...cuts, undefined].map((to, i) =>
      sectionOf(usable, i + 1, i === 0 ? minX : onGrid(cuts[i - 1] + kerf), to ?? maxX),
    );
  const left = cutsAround({ from: minX, to: maxX }, joined(kept, kerf), longest, kerf);
  // From the right: the same on the mirrored board, each cut named by its other side.
  const mirrored = kept.map(({ from, to }) => ({ from: -to, to: -from }));
  const right = cutsAround({ from: -maxX, to: -minX }, joined(mirrored, kerf), longest, kerf)
    .map((cut) => onGrid(-cut - kerf))
    .reverse();
  return left.join() === right.join() ? [plan(left)] : [plan(left), plan(right)];
}

/** The stretches from the left; those between which no cut has room are one. */
export function joined(kept: readonly Stretch[], kerf: number): Stretch[] {
  const all: Stretch[] = [];
  for (const { from, to } of [...kept].sort((a, b) => a.from - b.from)) {
    const last = all[all.length - 1];
    if (last === undefined || from - last.to >= kerf) all.push({ from, to });
    else all[all.length - 1] = { from: last.from, to: Math.max(last.to, to) };
  }
  return all;
}

/** Where a board is cut, mm, the near side of every cut: as far on as a section may reach, before what is kept there. */
export function cutsAround(
  board: Stretch,
  kept: readonly Stretch[],
  longest: number,
  kerf: number,
): number[] {
  const cuts: number[] = [];
  /** The last place up to `most` where a cut is off all that is kept. */
  const freeUpTo = (most: number) => {
    // Stretches lie a cut apart, so one step back is enough.
    const hit = kept.find(({ from, to }) => most > from - kerf && most < to);
    return onGrid(hit === undefined ? most : hit.from - kerf);
  };
  let from = board.from;
  while (board.to - from > longest + 1e-6) {
    // Better a shorter section here than a rest too short for any part.
    const early = freeUpTo(Math.min(from + longest, board.to - kerf - SHORTEST));
    const late = freeUpTo(from + longest);
    // What neither lets by begins here. It is cut free of a short end where that lets it turn, and else takes that along.
    const next = kept.find(({ to }) => to > from) ?? { from, to: board.to };
    const turns = next.to - next.from <= longest && late > from;
    const cut = [early, late].find((place) => place - from >= SHORTEST) ?? (turns ? late : next.to);
    if (cut + kerf >= board.to) break;
    cuts.push(cut);
    from = onGrid(cut + kerf);
  }
  return cuts;
}

/**
 * Lengths in mm: sections of one length until the rest is no longer than may be. A rest too short for any part is no
 * section: it is shared out over the last two, which costs no cut more.
 */
export function lengthsOf(whole: number, each: number, longest: number, kerf: number): number[] {
  const lengths: number[] = [];
  let rest = whole;
  for (; rest > longest + 1e-6; rest -= each + kerf) lengths.push(each);
  const last = lengths[lengths.length - 1];
  if (rest >= SHORTEST) return [...lengths, rest];
  // What is no wider than the cut falls away with it.
  if (rest <= 0) return lengths;
  const half = onGrid((last + rest) / 2);
  return [...lengths.slice(0, -1), half, last + rest - half];
}

function sectionsFrom(usable: Region, lengths: readonly number[], kerf: number): SectionPlan[] {
  const box = boundsOf(usable.outline);
  let from = box.minX;
  return lengths.map((length, i): SectionPlan => {
    const to = i === lengths.length - 1 ? Math.min(box.maxX, from + length) : onGrid(from + length);
    const section = sectionOf(usable, i + 1, from, to);
    from = onGrid(to + kerf);
    return section;
  });
}

/** One section of a usable board, from and to in mm along it. */
export function sectionOf(usable: Region, number: number, from: number, to: number): SectionPlan {
  const { minY, maxY } = boundsOf(usable.outline);
  return { number, from, to, usable: largestOf(clippedToBox(usable, { minX: from, minY, maxX: to, maxY })) };
}

/** Down to the grid that layouts are written on, 1e-4 mm. */
export function onGrid(mm: number): number {
  return Math.floor(mm * UNITS_PER_MM + 1e-6) / UNITS_PER_MM;
}

/**
 * How far from the blade the wood reaches while the outlines of a part are sawn, mm: the greatest distance from a
 * point of its outlines to a corner of the section. The part can be sawn in every direction when the throat is at
 * least that.
 */
export function swingOf(part: Region, section: Region): number {
  let farthest = 0;
  for (const ring of [part.outline, ...part.openings]) {
    for (const [x, y] of ring) {
      for (const [cornerX, cornerY] of section.outline)
        farthest = Math.max(farthest, Math.hypot(cornerX - x, cornerY - y));
    }
  }
  return farthest;
}
