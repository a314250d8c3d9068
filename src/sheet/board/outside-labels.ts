import { type Box, boundsOf, type Line, type Point } from '../../geometry/shapes.ts';
import type { LaidBoard, Placement } from '../../model/layout.ts';
import { dot, line, type Mark, rings } from '../marks/marks.ts';
import { textBox } from '../marks/text-width.ts';
import { type AlikeParts, letterAlike } from './alike-letters.ts';
import { boxedParts } from './boxed-part.ts';
import { FreeSpace } from './free-space.ts';
import type { ListedPart } from './label-list.ts';
import { FAR, Gutters, NO_ROWS, type RowsTaken, reachOf, STRAIGHT, WAYS } from './label-rows.ts';
import { CLEARANCE, isApart, partsUnder, type Surroundings } from './label-surroundings.ts';
import { blockMarks, type LabelBlock, numberBlocks, outsideBlock } from './part-label.ts';
import { nearestIn, stretchIn } from './straight-way.ts';
import { wholeBox } from './whole-box.ts';

/**
 * Labels for parts too small to hold them: each stands on waste nearby, joined to its part by a leader that
 * crosses no other part; where the board has no such place, in rows above and below the board. A part whose name finds no
 * place has a short number instead, and where the rows would be many all of these parts have; a list below the board tells
 * what the numbers stand for.
 */
export interface OutsideLabel extends ListedPart {
  /** Where the leader ends, in the part. */
  readonly anchor: Point;
}

/** Marks by placement, and how far the rows reach above and below the board, mm. */
export interface OutsideLabels {
  readonly marks: ReadonlyMap<Placement, readonly Mark[]>;
  /** The parts that have a number for a label: a list has to tell what it means. */
  readonly listed: readonly ListedPart[];
  /** Parts that have a letter in common with others of their kind, in a crowd without room for their numbers. */
  readonly alike: readonly AlikeParts[];
  /** How many parts of a crowd have neither. */
  readonly nameless: number;
  readonly above: number;
  readonly below: number;
  /** Right end of the labels in the rows, mm: it may be beyond the board. */
  readonly right: number;
}

/** What labels outside their parts have to know of the board besides its layout. */
export interface LabelSetting {
  /** Where other texts stand, on parts and on keepers. */
  readonly taken?: readonly Box[];
  /** Lines across the board that no label is to stand on, for it would be sawn through. */
  readonly cuts?: readonly Line[];
  /** Room in a part for the first of some small blocks that fits; without it, numbers stand beside their parts. */
  readonly roomIn?: (placement: Placement, blocks: readonly LabelBlock[]) => SetLabel | undefined;
}

/** A block with the box it stands in. */
interface SetLabel {
  readonly block: LabelBlock;
  readonly box: Box;
}

/** Places tried for a number whose leader runs over other parts: it is in a crowd, where most leaders would cross others. */
const PATIENCE_OVER = 2000;
/** Longest leader on the board, mm; beyond it a row beside the board is easier to follow. */
const LONGEST_LEADER = 60;
/** Rows on one side of the board from which on numbers and a list are easier to follow than leaders. */
const MOST_ROWS = 6;

/** Finds a place for every label, in the order given. */
export function placeOutside(
  wanted: readonly OutsideLabel[],
  board: LaidBoard,
  { taken = [], cuts = [], roomIn = () => undefined }: LabelSetting = {},
): OutsideLabels {
  const marks = new Map<Placement, readonly Mark[]>();
  if (wanted.length === 0)
    return { marks, listed: [], alike: [], nameless: 0, above: 0, below: 0, right: Number.NEGATIVE_INFINITY };
  const around = {
    waste: wasteSpace(board, cuts),
    parts: boxedParts(board.placements),
  };
  const named: Surroundings = { ...around, texts: [...taken], leaders: [] };
  const labelled = ({ placement, reported }: OutsideLabel) => outsideBlock(placement, reported);
  const left = setBeside(wanted, labelled, named, marks);
  // Rows stand off the edge before any trim, which would strike them through; ends that are trimmed may be on no page.
  const { minY, maxY } = wholeBox(board);
  const edges = { ...boundsOf(board.usable.outline), minY, maxY };
  const rows = setInRows(left, labelled, edges, named, { most: MOST_ROWS });
  // Where most names find no place it is a crowd: the rest of them would only bar the numbers, and make the sheet higher.
  if (rows.deepest <= MOST_ROWS && rows.placeless.length <= wanted.length / 2) {
    if (rows.placeless.length === 0) {
      for (const [placement, each] of rows.marks) marks.set(placement, each);
      return { marks, listed: [], alike: [], nameless: 0, ...reachOf(rows) };
    }
    const some = setNumbersInside(left, labelled, edges, roomIn, named);
    if (some !== undefined) return { ...some, marks: new Map([...marks, ...some.marks]) };
  }
  // All of the crowd anew: names that found a place take the waste from those behind them.
  return setNumbers(wanted, edges, roomIn, {
    surroundings: { ...around, texts: [...taken], leaders: [] },
    rows: NO_ROWS,
    right: Number.NEGATIVE_INFINITY,
  });
}

/**
 * Sets labels of which some names find no place. One of them is no reason to take all the others from their parts. But there is
 * a list then, and a number in its part is easier to find than a name beyond the edge of the board, at the end of a leader over
 * other parts: names in rows are for parts without room for a number.
 *
 * @returns undefined where it is a crowd: numbers find no place either
 */
function setNumbersInside(
  wanted: readonly OutsideLabel[],
  labelled: (label: OutsideLabel) => LabelBlock,
  edges: Box,
  roomIn: NonNullable<LabelSetting['roomIn']>,
  named: Surroundings,
): OutsideLabels | undefined {
  const marks = new Map<Placement, readonly Mark[]>();
  const surroundings = { ...named, texts: [...named.texts] };
  const roomless = setInside(wanted, roomIn, surroundings, marks);
  const rows = setInRows(roomless, labelled, edges, surroundings, { most: MOST_ROWS });
  if (rows.deepest > MOST_ROWS) return undefined;
  const some = setNumbers(rows.placeless, edges, roomIn, rows);
  if (some.isTangled || some.nameless + some.alike.length > 0) return undefined;
  const listed = [...wanted.filter(({ placement }) => marks.has(placement)), ...some.listed];
  return { ...some, listed, marks: new Map([...marks, ...rows.marks, ...some.marks]) };
}

/** Numbers for labels, with letters for what is left. */
interface Numbered extends OutsideLabels {
  /** True when the leader of a number runs through a text. */
  readonly isTangled: boolean;
}

/**
 * Sets numbers for labels. Leaders over parts leave these no room for a letter: where parts of a crowd would have neither,
 * letters come first, and leaders are for those that cannot hold one.
 *
 * @param before what is set already, and stays as it is
 */
function setNumbers(
  wanted: readonly OutsideLabel[],
  edges: Box,
  roomIn: NonNullable<LabelSetting['roomIn']>,
  before: RowsSoFar,
): Numbered {
  const set = (lettersFirst: boolean) => numbersSet(wanted, edges, roomIn, before, lettersFirst);
  const numbers = set(false);
  if (numbers.nameless === 0) return numbers;
  const letters = set(true);
  return letters.nameless < numbers.nameless ? letters : numbers;
}

function numbersSet(
  wanted: readonly OutsideLabel[],
  edges: Box,
  roomIn: NonNullable<LabelSetting['roomIn']>,
  before: RowsSoFar,
  lettersFirst: boolean,
): Numbered {
  const marks = new Map<Placement, readonly Mark[]>();
  // Lists of their own: what is set here may be given up.
  const texts = [...before.surroundings.texts];
  const leaders = [...before.surroundings.leaders];
  const surroundings: Surroundings = { ...before.surroundings, texts, leaders };
  const roomless = setInside(wanted, roomIn, surroundings, marks);
  const numbered = ({ number }: OutsideLabel) => numberBlocks(number)[0];
  const beside = setBeside(roomless, numbered, surroundings, marks);
  const early = lettersFirst ? letterAlike(wanted, beside, roomIn, leaders) : undefined;
  for (const [placement, each] of early?.marks ?? []) {
    marks.set(placement, each);
    texts.push(...each.flatMap((mark) => (mark.kind === 'text' ? [textBox(mark)] : [])));
  }
  const unlettered = beside.filter(({ placement }) => !marks.has(placement));
  const still = setBeside(unlettered, numbered, surroundings, marks, true);
  const rows = setInRows(still, numbered, edges, surroundings, before);
  for (const [placement, each] of rows.marks) marks.set(placement, each);
  const lettered = early ?? letterAlike(wanted, rows.placeless, roomIn, rows.surroundings.leaders);
  for (const [placement, each] of lettered.marks) marks.set(placement, each);
  const isNumbered = ({ placement }: OutsideLabel) => marks.has(placement) && !lettered.marks.has(placement);
  return {
    ...{ marks, listed: wanted.filter(isNumbered), alike: lettered.alike },
    nameless: wanted.filter(({ placement }) => !marks.has(placement)).length,
    ...reachOf(rows),
    isTangled: rows.isTangled,
  };
}

/** Sets the numbers that find room in their parts, and gives the labels of the others. */
function setInside(
  wanted: readonly OutsideLabel[],
  roomIn: NonNullable<LabelSetting['roomIn']>,
  { texts, leaders }: Surroundings,
  marks: Map<Placement, readonly Mark[]>,
): OutsideLabel[] {
  return wanted.filter(({ placement, number }) => {
    const found = roomIn(placement, numberBlocks(number));
    // The leader of a name may run right through a part that has room.
    if (found === undefined || leaders.some(({ way }) => stretchIn(way[0], way[1], found.box) !== undefined))
      return true;
    texts.push(found.box);
    marks.set(placement, blockMarks(found.block, found.box));
    return false;
  });
}

/**
 * Sets the labels that find a place on waste, and gives the others.
 *
 * @param over true where leaders may run over other parts
 */
function setBeside(
  wanted: readonly OutsideLabel[],
  blockFor: (label: OutsideLabel) => LabelBlock,
  surroundings: Surroundings,
  marks: Map<Placement, readonly Mark[]>,
  over = false,
): OutsideLabel[] {
  return wanted.filter((label) => {
    const block = blockFor(label);
    const box = besidePart(label, block, surroundings, over);
    if (box === undefined) return true;
    setLabel(label, { block, box }, surroundings, marks);
    return false;
  });
}

/** Sets a label with its leader: those after it have to heed both. */
function setLabel(
  { placement, anchor }: OutsideLabel,
  { block, box }: SetLabel,
  { texts, leaders }: Surroundings,
  marks: Map<Placement, readonly Mark[]>,
): void {
  texts.push(box);
  const way: Line = [anchor, nearestIn(anchor, box)];
  leaders.push({ way, box: boundsOf(way) });
  marks.set(placement, [...leaderMarks(anchor, box), ...blockMarks(block, box, way[1])]);
}

/** What is set on a board and beside it: further rows go on from here. */
interface RowsSoFar extends RowsTaken {
  readonly surroundings: Surroundings;
}

/** Labels in rows above and below the board. */
interface LabelRows extends RowsSoFar {
  readonly marks: ReadonlyMap<Placement, readonly Mark[]>;
  /** How many rows the side with more of them has. */
  readonly deepest: number;
  /** Labels that found no place. */
  readonly placeless: readonly OutsideLabel[];
  /** True when a leader runs through a text, for there was no other way. */
  readonly isTangled: boolean;
}

/**
 * Sets labels in rows, on a board that is left as it was.
 *
 * @param most rows on a side, beyond which the rows are given up unfinished
 * @param rows that hold labels already
 * @param right end of these labels, mm
 */
function setInRows(
  wanted: readonly OutsideLabel[],
  blockFor: (label: OutsideLabel) => LabelBlock,
  edges: Box,
  { texts, leaders, ...rest }: Surroundings,
  {
    most = Number.POSITIVE_INFINITY,
    rows = NO_ROWS,
    right = Number.NEGATIVE_INFINITY,
  }: { readonly most?: number } & Partial<RowsTaken>,
): LabelRows {
  const marks = new Map<Placement, readonly Mark[]>();
  // Its own lists: rows that prove too many are given up, and leave no trace.
  const surroundings: Surroundings = { ...rest, texts: [...texts], leaders: [...leaders] };
  const gutters = new Gutters(edges, surroundings, most, { rows, right });
  // Far aside only when all others stand: a crowd has proved too deep by then, and the search is long.
  const passes = most === Number.POSITIVE_INFINITY ? [WAYS] : [[STRAIGHT], [FAR]];
  // From right to left: see Gutters.
  const inOrder = [...wanted].sort((a, b) => b.anchor[0] - a.anchor[0]);
  const placeless = passes.reduce<readonly OutsideLabel[]>(
    (left, ways) =>
      left.filter((label) => {
        // They will be given up: the rest of them would only take time.
        if (gutters.deepest > most) return true;
        const block = blockFor(label);
        const box = gutters.take(label.anchor, block, ways);
        if (box !== undefined) setLabel(label, { block, box }, surroundings, marks);
        return box === undefined;
      }),
    inOrder,
  );
  const { deepest, isTangled } = gutters;
  return { marks, surroundings, rows: gutters.rows, right: gutters.right, deepest, placeless, isTangled };
}

/** Waste that text may stand on: the usable board less all parts, away from every line. */
function wasteSpace(board: LaidBoard, cuts: readonly Line[]): FreeSpace {
  const space = new FreeSpace(boundsOf(board.usable.outline), 0.8);
  space.freeInside(board.usable);
  for (const ring of [board.usable.outline, ...board.usable.openings]) space.takeAlong(ring, CLEARANCE, true);
  for (const cut of cuts) space.takeAlong(cut, CLEARANCE, false);
  for (const { region, lines } of board.offcuts ?? []) {
    // A keeper leaves the board first, and a label on it would go with it.
    space.takeInside(region);
    for (const line of lines) space.takeAlong(line, CLEARANCE, false);
  }
  for (const { region } of board.placements) {
    // Openings are taken too: they are hatched and drilled.
    space.takeInside({ outline: region.outline, openings: [] });
    space.takeAlong(region.outline, CLEARANCE, true);
  }
  return space;
}

/**
 * A place on waste near the part, with a leader that crosses no text or leader and, unless it may run over them, no
 * other part; undefined without one.
 */
function besidePart(
  { placement, anchor }: OutsideLabel,
  block: LabelBlock,
  surroundings: Surroundings,
  over: boolean,
): Box | undefined {
  const { waste } = surroundings;
  const accepts = (box: Box): boolean => {
    // It is the leader that decides: the text finds room on waste.
    const end = nearestIn(anchor, box);
    if (Math.hypot(end[0] - anchor[0], end[1] - anchor[1]) > LONGEST_LEADER) return false;
    if (!isApart(box, anchor, surroundings)) return false;
    if (over) return true;
    return partsUnder(anchor, end, surroundings).every((part) => part.placement === placement);
  };
  // Most find a place close by; only the others are worth looking far for.
  for (const reach of [LONGEST_LEADER / 4, LONGEST_LEADER]) {
    const box = waste.nearestAccepted(
      block,
      { target: anchor, reach: reach + block.width / 2 },
      accepts,
      over ? PATIENCE_OVER : undefined,
    );
    if (box !== undefined) return box;
  }
  return undefined;
}

function leaderMarks(anchor: Point, box: Box): Mark[] {
  return [line('leader', anchor, nearestIn(anchor, box)), rings('leader-end', dot(anchor, 0.4))];
}
