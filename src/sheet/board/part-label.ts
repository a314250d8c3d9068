import { insidePoint } from '../../geometry/inside-point.ts';
import { type Box, boundsOf, type Line, type Point } from '../../geometry/shapes.ts';
import { counted } from '../../issues/counted.ts';
import type { Placement } from '../../model/layout.ts';
import { grainArrow } from '../marks/arrow.ts';
import { type Mark, type MarkRole, text } from '../marks/marks.ts';
import { ASCENT, LINE_STEP, textWidth, wrapped } from '../marks/text-width.ts';
import { FreeSpace } from './free-space.ts';
import { printedNames } from './part-names.ts';

/**
 * The label of a part, "layer · part · set", with the grain arrow below it as one block. It is set as large as the
 * part allows, on one to three lines, and never on a line to saw along.
 */
export interface LabelBlock {
  readonly lines: readonly string[];
  /** Font size, mm. */
  readonly size: number;
  readonly arrow: boolean;
  readonly width: number;
  readonly height: number;
  /** What its lines are: the key explains each kind. */
  readonly role: MarkRole;
}

/** Font sizes tried, mm; the last is 5.4 pt, the smallest that still reads on a home printer. */
const SIZES = [4.2, 3.4, 2.8, 2.3, 1.9];

/** Free space between text and the nearest line to saw along, mm. */
const CLEARANCE = 0.7;

/** Between layer, part and set: names may hold spaces and often end in a number themselves. */
const DOT = '\u00b7';

/** What is written on a part that is cut face down. */
const TURNED_OVER = 'turned over';

/** Ways to break a label into lines. */
const BREAKS = 4;

/** How many blocks a label has to choose from; see {@link labelBlock}. */
export const LABEL_SETTINGS = 2 * SIZES.length * BREAKS;

/**
 * One of the blocks for a placement, by its rank: 0 is the best, and all with an arrow come before any without one; of
 * these the largest type first, and of one size the fewest lines. Blocks are made one by one: where copies lie alike,
 * only the one that fits is asked for.
 *
 * @param number the part's number in the report, where the label has to say it
 * @param rank from 0 to {@link LABEL_SETTINGS} - 1, an index
 */
export function labelBlock(placement: Placement, number: number | undefined, rank: number): LabelBlock {
  const lines = labelLines(placement, number, rank % BREAKS);
  const size = SIZES[Math.floor(rank / BREAKS) % SIZES.length];
  return blockOf(lines, size, rank < LABEL_SETTINGS / 2, roleOf(number));
}

function labelLines(placement: Placement, number: number | undefined, breaks: number): string[] {
  const { layer, part } = printedNames(placement, number);
  const set = `${placement.set}`;
  const lines = [
    () => [`${layer} ${DOT} ${part} ${DOT} ${set}`],
    () => [layer, `${part} ${DOT} ${set}`],
    () => [layer, part, `${DOT} ${set}`],
    () => [layer, ...inTwo(part), `${DOT} ${set}`],
  ][breaks]();
  return placement.turnedOver ? [...lines, TURNED_OVER] : lines;
}

/** A name of several words as two lines of about the same length; one word stays whole. */
function inTwo(name: string): string[] {
  const words = name.split(' ');
  const splits = words
    .slice(1)
    .map((_, i) => [words.slice(0, i + 1).join(' '), words.slice(i + 1).join(' ')]);
  const longest = (lines: readonly string[]) => Math.max(...lines.map((each) => each.length));
  return splits.reduce((best, split) => (longest(split) < longest(best) ? split : best), [name]);
}

/** Font size of what stands beside parts, mm. */
const BESIDE_SIZE = 2.3;

/** The block for a label that stands beside its part, on one line. */
export function outsideBlock(placement: Placement, number?: number): LabelBlock {
  return blockOf([lineFor(placement, `${placement.set}`, number)], BESIDE_SIZE, false, roleOf(number));
}

function lineFor(placement: Placement, sets: string, number: number | undefined): string {
  const { layer, part } = printedNames(placement, number);
  const name = [layer, part, sets].join(` ${DOT} `);
  return placement.turnedOver ? `${name} ${TURNED_OVER}` : name;
}

/**
 * Font sizes of a part's number, mm: none so large that it could be taken for the number of a cut. Digits of the smallest
 * are 1.15 mm high: more than the 0.9 mm that print on small packages has to have at least (Regulation (EU) 1169/2011,
 * article 13(3), asks it of the height of an x).
 */
const NUMBER_SIZES = [2.3, 1.9, 1.6];

/**
 * The blocks of the number that stands for the label of a part where labels are crowded, the largest first. The letter
 * tells it from the numbers of the cuts.
 *
 * @param number of the part on its board, from 1
 */
export function numberBlocks(number: number): LabelBlock[] {
  return smallBlocks(`p${number}`);
}

/** The blocks of a letter that parts of one kind have in common where they find no room for numbers, the largest first. */
export function letterBlocks(letter: string): LabelBlock[] {
  return smallBlocks(letter);
}

function smallBlocks(words: string): LabelBlock[] {
  return NUMBER_SIZES.map((size) => blockOf([words], size, false, 'part-number'));
}

/**
 * An entry of the list that tells what the numbers of parts stand for: the numbers and the label.
 *
 * @param numbers of the copies of the part that share it, or their letter, and their sets, in words
 * @param room for a line, mm
 */
export function listedBlock(
  placement: Placement,
  numbers: string,
  sets: string,
  room: number,
  reported?: number,
): LabelBlock {
  const words = `${numbers} ${lineFor(placement, sets, reported)}`;
  return blockOf(wrapped(words, room, BESIDE_SIZE), BESIDE_SIZE, false, roleOf(reported));
}

/**
 * The end of the list, which tells how many parts of a crowd have not even a number.
 *
 * @param room for a line, mm
 */
export function namelessBlock(count: number, room: number): LabelBlock {
  const words = `${counted(count, 'small part')} without number or letter, for want of room: the table of parts (parts.csv) tells where each lies`;
  return blockOf(wrapped(words, room, BESIDE_SIZE), BESIDE_SIZE, false, 'label');
}

/** The grain arrow alone, for parts that hold no label with it. */
export function arrowBlock(): LabelBlock {
  return blockOf([], SIZES[SIZES.length - 1], true, 'label');
}

/** A label that says the part's number in the report has a line of its own in the key. */
function roleOf(reported: number | undefined): MarkRole {
  return reported === undefined ? 'label' : 'reported-label';
}

function blockOf(lines: readonly string[], size: number, arrow: boolean, role: MarkRole): LabelBlock {
  const widest = Math.max(0, ...lines.map((each) => textWidth(each, size)));
  const text = lines.length === 0 ? 0 : ((lines.length - 1) * LINE_STEP + 1) * size;
  return {
    lines,
    size,
    arrow,
    width: Math.max(widest, arrow ? 3 * size : 0),
    height: text + (arrow ? size : 0),
    role,
  };
}

/** How far text keeps from lines, and how finely room for it is looked for, both in mm. */
interface TextRoom {
  readonly clearance: number;
  readonly cell: number;
}

const LABEL_ROOM: TextRoom = { clearance: CLEARANCE, cell: 0.4 };

/**
 * The number of a part may stand closer to its edge than a label, and is looked for more finely: beside a dot of 5 mm
 * there is no better place for it, and a leader from there is harder to follow than a number near a line is to read.
 */
export const NUMBER_ROOM: TextRoom = { clearance: 0.25, cell: 0.15 };

/**
 * Where text may stand inside a part: its solid, away from its edges, veins and weak places.
 *
 * @param hole across, with its cross, mm
 */
export function spaceInside(
  placement: Placement,
  cracks: readonly Line[],
  hole: number,
  { clearance, cell }: TextRoom = LABEL_ROOM,
): FreeSpace {
  const { outline, openings } = placement.region;
  const space = new FreeSpace(boundsOf(outline), cell);
  space.freeInside(placement.region);
  // The cells were freed by their centres alone: along the edges the distance has the last word.
  for (const ring of [outline, ...openings]) space.takeAlong(ring, clearance, true);
  for (const vein of [...placement.veins, ...cracks]) space.takeAlong(vein, clearance, false);
  for (const vein of placement.veins) {
    // A plan may have a hole drilled at either end of a vein: its cross is kept clear too.
    for (const end of [vein[0], vein[vein.length - 1]])
      space.takeAlong([end, end], hole / 2 + clearance, false);
  }
  return space;
}

/** Where a block finds room: as near as possible to the widest place of the part. */
export function placeInside(block: LabelBlock, space: FreeSpace, target: Point): Box | undefined {
  return space.nearest(block, target);
}

/** The widest place of a part: where a label is looked for first and where a leader ends. */
export function widestPlace(placement: Placement): Point {
  return insidePoint(placement.region, 0.2).at;
}

/**
 * The marks of a block in its box.
 *
 * @param leaderTo where a leader comes to the box: in its left or right third the text begins or ends at that end. What is printed
 *   may be half as wide as the box, as of letters that the font lacks, and a leader to nothing tells of no part
 */
export function blockMarks(block: LabelBlock, box: Box, leaderTo?: Point): Mark[] {
  const middle = (box.minX + box.maxX) / 2;
  const third = (box.maxX - box.minX) / 3;
  const [at = middle] = leaderTo ?? [];
  const [x, anchor] =
    at < box.minX + third
      ? ([box.minX, 'start'] as const)
      : at > box.maxX - third
        ? ([box.maxX, 'end'] as const)
        : ([middle, 'middle'] as const);
  const lines = block.lines.map((each, i) =>
    text(block.role, each, [x, box.minY + (ASCENT + i * LINE_STEP) * block.size], block.size, anchor),
  );
  if (!block.arrow) return lines;
  const length = Math.min(block.width, 6 * block.size);
  return [...lines, ...grainArrow(middle, box.maxY - 0.4 * block.size, length, block.size)];
}
