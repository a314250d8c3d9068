import type { Placement } from '../../model/layout.ts';
import { type Mark, text } from '../marks/marks.ts';
import { ASCENT, textBox } from '../marks/text-width.ts';
import { type AlikeParts, kindsOf } from './alike-letters.ts';
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

/** Between columns of the list, mm, and how far further lines of an entry stand in. */
const COLUMN_GAP = 4;
const INDENT = 3;

/** How wide a list may be below fewer parts, mm: as wide as a page of A4 or Letter. */
const NARROWEST_LIST = 180;

/** What an entry may take before it is broken into lines, mm: room for long names, and half of a list that has more. */
const ROOMY = 50;

/** Where a list begins, where the parts above it end, and how much a page shows from where it begins, all in mm. */
export interface ListPlace {
  readonly minX: number;
  readonly maxX: number;
  readonly top: number;
  readonly page?: number | undefined;
}

/**
 * The list of what numbers stand for: in columns below the parts of the board, each read downwards, as few lines high as
 * its width allows. So a list of a hundred parts is some lines high where rows of their labels would be as high as the
 * board.
 *
 * @param alike parts that have a letter in common with others of their kind
 * @param nameless how many parts found no room for either: the last line says so
 */
export function listBelow(
  parts: readonly ListedPart[],
  alike: readonly AlikeParts[],
  nameless: number,
  { minX, maxX, top, page = NARROWEST_LIST }: ListPlace,
): LabelList {
  const width = Math.max(maxX - minX, Math.min(page, NARROWEST_LIST));
  const room = Math.max(ROOMY, (width - COLUMN_GAP) / 2) - INDENT;
  // Copies that are as good as one another share an entry.
  const blocks = kindsOf([...parts].sort((a, b) => a.number - b.number)).map((kind) => entryOf(kind, room));
  for (const { placement, letter, count, reported } of alike)
    blocks.push(listedBlock(placement, letter, count === 1 ? 'one' : `${count} alike`, room, reported));
  const step = Math.max(0, ...blocks.map((block) => block.width + indentOf(block))) + COLUMN_GAP;
  const lines = blocks.flatMap(linesOf);
  const columns = Math.max(1, Math.floor((width + COLUMN_GAP) / step));
  const rows = Math.ceil(lines.length / columns);
  // Begun at one x and not in the middle of their boxes: a list is looked through along its left side.
  const placed = lines.map((each, i) => ({
    ...each,
    x: minX + step * Math.floor(i / rows) + each.indent,
    row: i % rows,
  }));
  const rest = nameless === 0 ? [] : linesOf(namelessBlock(nameless, width - INDENT));
  placed.push(...rest.map((each, i) => ({ ...each, x: minX + each.indent, row: rows + i })));
  const marks = placed.map(({ words, size, role, x, row }) =>
    text(role, words, [x, top + ROW_STEP * row + ASCENT * size], size),
  );
  return {
    marks,
    bottom: top + ROW_STEP * (rows + rest.length),
    right: Math.max(...marks.map((mark) => textBox(mark).maxX)),
  };
}

function linesOf({ lines, size, role }: LabelBlock) {
  return lines.map((words, i) => ({ words, size, role, indent: i === 0 ? 0 : INDENT }));
}

function indentOf({ lines }: LabelBlock): number {
  return lines.length > 1 ? INDENT : 0;
}

/** The first number is for the first set, and so on; of several for one set, the set is told once, and how many where all have as many. */
function entryOf(parts: readonly ListedPart[], room: number): LabelBlock {
  const [{ placement, reported }] = parts;
  const numbers = inWords(
    parts.map(({ number }) => number),
    (number) => `p${number}`,
    2,
  );
  const sets = parts.map((part) => part.placement.set);
  const told = sets.filter((set, i) => set !== sets[i - 1]);
  const each = sets.length / told.length;
  const isEven = told.length > 1 && each > 1 && sets.every((set, i) => set === told[Math.floor(i / each)]);
  const words = `${inWords(told, String, 3)}${isEven ? ` (${each} each)` : ''}`;
  return listedBlock(placement, numbers, words, room, reported);
}

/**
 * Values, those in even steps told by the first and the last: `1\u20139, 12, 14, \u2026 20`.
 *
 * @param dashFrom how many of them a dash needs
 */
function inWords(values: readonly number[], say: (value: number) => string, dashFrom: number): string {
  const words = runsOf(values).flatMap((run) => {
    const last = run[run.length - 1];
    if (run[1] === run[0] + 1 && run.length >= dashFrom) return `${say(run[0])}\u2013${say(last)}`;
    return run.length <= 3 ? run.map(say) : [say(run[0]), say(run[1]), `\u2026 ${say(last)}`];
  });
  return words.join(', ');
}

/** Values in even steps; two that are far apart make no run of their own before others that follow each other. */
function runsOf(values: readonly number[]): number[][] {
  const runs: number[][] = [];
  for (const value of values) {
    const run = runs[runs.length - 1] ?? [];
    const before = run[run.length - 1];
    if (run.length === 1 || (run.length > 1 && value - before === run[1] - run[0])) run.push(value);
    else if (run.length === 2 && before - run[0] !== 1) runs.splice(-1, 1, [run[0]], [before, value]);
    else runs.push([value]);
  }
  return runs;
}
