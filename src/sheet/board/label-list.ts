import type { Placement } from '../../model/layout.ts';
import { type Mark, text } from '../marks/marks.ts';
import { ASCENT } from '../marks/text-width.ts';
import { type AlikeParts, kindOf } from './alike-letters.ts';
import { ROW_STEP } from './label-rows.ts';
import { type LabelBlock, listedBlock, namelessBlock } from './part-label.ts';

/** A part that its label would name, had it found a place. */
export interface ListedPart {
  readonly placement: Placement;
  /** The part's number on its board, from 1. */
  readonly number: number;
  /** The part's number in the report, where its label has to say it. */
  readonly reported?: number;
}

/** The list as it stands, with its lower and its right end, mm. */
export interface LabelList {
  readonly marks: readonly Mark[];
  readonly bottom: number;
  readonly right: number;
}

/** Between columns of the list, and how wide it may be below fewer parts, mm: as wide as a page of A4 or Letter. */
const COLUMN_GAP = 4;
const NARROWEST_LIST = 180;

/**
 * The list of what numbers stand for: in columns below the parts of the board, each read downwards, as few lines high as
 * its width allows. So a list of a hundred parts is some lines high where rows of their labels would be as high as the
 * board.
 *
 * @param alike parts that have a letter in common with others of their kind
 * @param nameless how many parts found no room for either: the last line says so
 * @param place where it begins, and where the parts above it end, mm
 */
export function listBelow(
  parts: readonly ListedPart[],
  alike: readonly AlikeParts[],
  nameless: number,
  { minX, maxX, top }: { readonly minX: number; readonly maxX: number; readonly top: number },
): LabelList {
  const blocks = runsOf([...parts].sort((a, b) => a.number - b.number)).map(lineOf);
  for (const { placement, letter, count, reported } of alike)
    blocks.push(listedBlock(placement, letter, count === 1 ? 'one' : `${count} alike`, reported));
  const step = Math.max(0, ...blocks.map(({ width }) => width)) + COLUMN_GAP;
  const columns = Math.max(1, Math.floor(Math.max(maxX - minX, NARROWEST_LIST) / step));
  const rows = Math.ceil(blocks.length / columns);
  // Begun at one x and not in the middle of their boxes: a list is looked through along its left side.
  const placed = blocks.map((block, i) => ({ block, x: minX + step * Math.floor(i / rows), row: i % rows }));
  if (nameless > 0) placed.push({ block: namelessBlock(nameless), x: minX, row: rows });
  return {
    marks: placed.flatMap(({ block: { lines, size, role }, x, row }) =>
      lines.map((words) => text(role, words, [x, top + ROW_STEP * row + ASCENT * size], size)),
    ),
    bottom: top + ROW_STEP * (rows + Math.min(1, nameless)),
    right: Math.max(...placed.map(({ block, x }) => x + block.width)),
  };
}

/** Copies of one part with numbers in a row and sets in even steps: they take one line. */
function runsOf(parts: readonly ListedPart[]): ListedPart[][] {
  const runs: ListedPart[][] = [];
  for (const part of parts) {
    const run = runs[runs.length - 1];
    if (run !== undefined && goesOn(run, part)) run.push(part);
    else runs.push([part]);
  }
  return runs;
}

function goesOn(run: readonly ListedPart[], next: ListedPart): boolean {
  const last = run[run.length - 1];
  if (kindOf(last.placement) !== kindOf(next.placement) || next.number !== last.number + 1) return false;
  const step = next.placement.set - last.placement.set;
  return step >= 0 && (run.length === 1 || step === stepOf(run));
}

/** From the set of one part of a run to that of the next: 0 where all are for one set, more than 1 in stacks. */
function stepOf([first, second]: readonly ListedPart[]): number {
  return second.placement.set - first.placement.set;
}

function lineOf(run: readonly ListedPart[]): LabelBlock {
  const [{ placement, number, reported }] = run;
  const last = run[run.length - 1];
  const numbers = run.length === 1 ? `p${number}` : `p${number}\u2013p${last.number}`;
  return listedBlock(placement, numbers, setsOf(run), reported);
}

/** The sets of a run: the first number is for the first of them, and so on. */
function setsOf(run: readonly ListedPart[]): string {
  const sets = run.map(({ placement }) => placement.set);
  const [first, second] = sets;
  const last = sets[sets.length - 1];
  if (first === last) return `${first}`;
  if (run.length === 2) return `${first}, ${second}`;
  return second === first + 1 ? `${first}\u2013${last}` : `${first}, ${second}, \u2026 ${last}`;
}
