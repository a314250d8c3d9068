import { distanceToSegment } from '../../geometry/ring.ts';
import {
  type Box,
  boundsOf,
  boxesMeet,
  boxRing,
  grownBox,
  type Line,
  type Point,
} from '../../geometry/shapes.ts';
import type { LaidBoard, Placement } from '../../model/layout.ts';
import { dot, line, type Mark, rings, text } from '../marks/marks.ts';
import { ASCENT } from '../marks/text-width.ts';
import { FreeSpace } from './free-space.ts';
import { outlineBox } from './outline-box.ts';
import { blockMarks, type LabelBlock, listedBlock, numberBlocks, outsideBlock } from './part-label.ts';
import { crossesLine, nearestIn, stretchIn } from './straight-way.ts';

/**
 * Labels for parts too small to hold them: each stands on waste nearby, joined to its part by a leader that
 * crosses no other part; where the board has no such place, in rows above and below the board. A part whose name finds no
 * place has a short number instead, and where the rows would be many all of these parts have; a list below the board tells
 * what the numbers stand for.
 */
export interface OutsideLabel {
  readonly placement: Placement;
  /** Where the leader ends, in the part. */
  readonly anchor: Point;
  /** The part's number on its board, from 1. */
  readonly number: number;
  /** The part's number in the report, where its label has to say it. */
  readonly reported?: number;
}

/** Marks by placement, and how far the rows reach above and below the board, mm. */
export interface OutsideLabels {
  readonly marks: ReadonlyMap<Placement, readonly Mark[]>;
  /** What the numbers that stand for labels mean; empty where there are none. */
  readonly list: readonly Mark[];
  readonly above: number;
  readonly below: number;
  /** Right end of the labels in the rows and of the list, mm: it may be beyond the board. */
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

const CLEARANCE = 0.7;
/** Places tried for a number whose leader runs over other parts: it is in a crowd, where most leaders would cross others. */
const PATIENCE_OVER = 2000;
/** Longest leader on the board, mm; beyond it a row beside the board is easier to follow. */
const LONGEST_LEADER = 60;
/** Leaders that run closer side by side than this could be taken for one, mm. */
const BETWEEN_LEADERS = 0.8;
const ROW_STEP = 3.4;
const GUTTER_GAP = 2;
/** Rows on one side of the board from which on numbers and a list are easier to follow than leaders. */
const MOST_ROWS = 6;
/** Between columns of the list, and how wide it may be below fewer parts, mm: as wide as a page of A4 or Letter. */
const COLUMN_GAP = 4;
const NARROWEST_LIST = 180;

/** Finds a place for every label, in the order given. */
export function placeOutside(
  wanted: readonly OutsideLabel[],
  board: LaidBoard,
  { taken = [], cuts = [], roomIn = () => undefined }: LabelSetting = {},
): OutsideLabels {
  const marks = new Map<Placement, readonly Mark[]>();
  if (wanted.length === 0) return { marks, list: [], above: 0, below: 0, right: Number.NEGATIVE_INFINITY };
  const around = {
    waste: wasteSpace(board, cuts),
    parts: board.placements.map((placement) => ({ placement, box: outlineBox(placement) })),
  };
  const named: Surroundings = { ...around, texts: [...taken], leaders: [] };
  const labelled = ({ placement, reported }: OutsideLabel) => outsideBlock(placement, reported);
  const left = setBeside(wanted, labelled, named, marks);
  const edges = boundsOf(board.usable.outline);
  const rows = setInRows(left, labelled, edges, named, { most: MOST_ROWS });
  // Where most names find no place it is a crowd: the rest of them would only bar the numbers, and make the sheet higher.
  if (rows.deepest <= MOST_ROWS && rows.placeless.length <= wanted.length / 2) {
    for (const [placement, each] of rows.marks) marks.set(placement, each);
    if (rows.placeless.length === 0) return { marks, list: [], ...reachOf(rows) };
    // One name without a place is no reason to take all the others from their parts.
    const some = setNumbers(rows.placeless, edges, roomIn, rows);
    if (!some.isTangled) return { ...some, marks: new Map([...marks, ...some.marks]) };
  }
  // All of the crowd anew: names that found a place take the waste from those behind them.
  return setNumbers(wanted, edges, roomIn, {
    surroundings: { ...around, texts: [...taken], leaders: [] },
    rows: NO_ROWS,
    right: Number.NEGATIVE_INFINITY,
  });
}

/**
 * Sets numbers for labels, and the list of what they stand for.
 *
 * @param before what is set already, and stays as it is
 */
function setNumbers(
  wanted: readonly OutsideLabel[],
  edges: Box,
  roomIn: NonNullable<LabelSetting['roomIn']>,
  before: RowsSoFar,
): OutsideLabels & { readonly isTangled: boolean } {
  const marks = new Map<Placement, readonly Mark[]>();
  const { surroundings } = before;
  const { texts, leaders, parts } = surroundings;
  const roomless = wanted.filter(({ placement, number }) => {
    const found = roomIn(placement, numberBlocks(number));
    // The leader of a name may run right through a part that has room.
    if (found === undefined || leaders.some(({ way }) => stretchIn(way[0], way[1], found.box) !== undefined))
      return true;
    texts.push(found.box);
    marks.set(placement, blockMarks(found.block, found.box));
    return false;
  });
  const numbered = ({ number }: OutsideLabel) => numberBlocks(number)[0];
  const still = [false, true].reduce(
    (rest, over) => setBeside(rest, numbered, surroundings, marks, over),
    roomless,
  );
  const rows = setInRows(still, numbered, edges, surroundings, before);
  for (const [placement, each] of rows.marks) marks.set(placement, each);
  const { above, below, right } = reachOf(rows);
  // Below the parts, not below what is left of the board: a page would be printed for the list alone.
  const list = listBelow(wanted, {
    minX: Math.min(...parts.map(({ box }) => box.minX)),
    maxX: Math.max(...parts.map(({ box }) => box.maxX)),
    top: edges.maxY + below + GUTTER_GAP,
  });
  return {
    marks,
    list: list.marks,
    above,
    below: list.bottom - edges.maxY,
    right: Math.max(right, list.right),
    isTangled: rows.isTangled,
  };
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
  marks.set(placement, [...leaderMarks(anchor, box), ...blockMarks(block, box)]);
}

/** How many rows of each side hold a label. */
type RowCounts = Readonly<Record<Side, number>>;

const NO_ROWS: RowCounts = { above: 0, below: 0 };

/** What is set on a board and beside it: further rows go on from here. */
interface RowsSoFar {
  readonly surroundings: Surroundings;
  readonly rows: RowCounts;
  /** Right end of the labels in the rows, mm. */
  readonly right: number;
}

/** Labels in rows above and below the board. */
interface LabelRows extends RowsSoFar {
  readonly marks: ReadonlyMap<Placement, readonly Mark[]>;
  /** How many rows the side with more of them has. */
  readonly deepest: number;
  /** Labels that found no place; none where any number of rows will do. */
  readonly placeless: readonly OutsideLabel[];
  /** True when a leader runs through a text or on top of another leader, for there was no other way. */
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
  }: { readonly most?: number; readonly rows?: RowCounts; readonly right?: number },
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

/** How far rows reach above and below the board and to the right, mm. */
function reachOf({ rows, right }: RowsSoFar): Pick<OutsideLabels, 'above' | 'below' | 'right'> {
  const reach = (count: number) => (count === 0 ? 0 : GUTTER_GAP + count * ROW_STEP);
  return { above: reach(rows.above), below: reach(rows.below), right };
}

/**
 * The list of what numbers stand for: in columns below the parts of the board, each read downwards, as few lines high as
 * its width allows. So a list of a hundred parts is some lines high where rows of their labels would be as high as the
 * board.
 *
 * @param place where it begins, and where the parts above it end, mm
 */
function listBelow(
  labels: readonly OutsideLabel[],
  { minX, maxX, top }: { readonly minX: number; readonly maxX: number; readonly top: number },
) {
  const blocks = [...labels]
    .sort((a, b) => a.number - b.number)
    .map(({ placement, number, reported }) => listedBlock(placement, number, reported));
  const step = Math.max(...blocks.map(({ width }) => width)) + COLUMN_GAP;
  const columns = Math.max(1, Math.floor(Math.max(maxX - minX, NARROWEST_LIST) / step));
  const rows = Math.ceil(blocks.length / columns);
  const boxes = blocks.map(({ width, height }, i): Box => {
    const x = minX + step * Math.floor(i / rows);
    const y = top + ROW_STEP * (i % rows);
    return { minX: x, minY: y, maxX: x + width, maxY: y + height };
  });
  return {
    // Begun at one x and not in the middle of their boxes: a list is looked through along its left side.
    marks: blocks.flatMap(({ lines, size, role }, i) =>
      lines.map((words) => text(role, words, [boxes[i].minX, boxes[i].minY + ASCENT * size], size)),
    ),
    bottom: top + rows * ROW_STEP,
    right: Math.max(...boxes.map((box) => box.maxX)),
  };
}

/** What a label beside its part has to heed. */
interface Surroundings {
  readonly waste: FreeSpace;
  readonly parts: readonly { readonly placement: Placement; readonly box: Box }[];
  /** Boxes of all texts so far: those in parts too, for no leader is to run through one. */
  readonly texts: Box[];
  /** Leaders drawn so far, each a straight way with the box around it. */
  readonly leaders: Leader[];
}

interface Leader {
  readonly way: Line;
  readonly box: Box;
}

/**
 * True when neither a label stands on another text or a leader, nor its leader runs through a text or a leader.
 *
 * @param overTexts true when its leader may run through texts, though through no other leader
 */
function isApart(box: Box, anchor: Point, { texts, leaders }: Surroundings, overTexts = false): boolean {
  const end = nearestIn(anchor, box);
  const way = boundsOf([anchor, end]);
  const grown = grownBox(box, CLEARANCE);
  const around = boundsOf([anchor, ...boxRing(grown)]);
  return (
    !texts.some(
      (other) =>
        boxesMeet(other, grown) ||
        (!overTexts && boxesMeet(other, way) && stretchIn(anchor, end, other) !== undefined),
    ) &&
    !leaders.some(
      // The boxes first: most leaders are far from here, and there may be hundreds.
      ({ way: other, box: far }) =>
        boxesMeet(far, around, BETWEEN_LEADERS) &&
        (stretchIn(other[0], other[1], grown) !== undefined ||
          crossesLine(anchor, end, other, false) ||
          ENDS.some((i) => distanceToLine([anchor, end][i], other) < BETWEEN_LEADERS) ||
          ENDS.some((i) => distanceToLine(other[i], [anchor, end]) < BETWEEN_LEADERS)),
    )
  );
}

/** Which end of a straight way. Two ways that do not cross are nearest to each other at an end of one of them. */
const ENDS = [0, 1] as const;

/** Distance from a point to a straight way, mm. */
function distanceToLine([x, y]: Point, [[ax, ay], [bx, by]]: Line): number {
  return distanceToSegment(x, y, ax, ay, bx, by);
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
  const { waste, parts } = surroundings;
  const accepts = (box: Box): boolean => {
    // It is the leader that decides: the text finds room on waste.
    const end = nearestIn(anchor, box);
    if (Math.hypot(end[0] - anchor[0], end[1] - anchor[1]) > LONGEST_LEADER) return false;
    if (!isApart(box, anchor, surroundings)) return false;
    if (over) return true;
    const way = boundsOf([anchor, end]);
    const near = parts.filter((part) => part.placement !== placement && boxesMeet(part.box, way));
    return !near.some((part) => crossesLine(anchor, end, part.placement.region.outline, true));
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

/** Rows looked through on each side; more than any board needs that is not made of nothing but tiny parts. */
const ROWS = 60;

/** How far beside its anchor a label may begin, mm: parts that lie straight above each other need it. */
const ASIDE = [0, 1.5, -1.5, 3];

/**
 * How far beside it a label may begin where none of these is free, mm: texts and leaders bar every way straight up, and one
 * leader on top of another would tell of neither part.
 */
const FAR_ASIDE = Array.from({ length: 40 }, (_, i) => 1.5 * (i + 1)).flatMap((dx) => [dx, -dx]);

/** A way to look for a place in the rows: how far aside, mm, and whether the leader may run through texts. */
interface RowWay {
  readonly aside: readonly number[];
  /** Far aside is hard enough to follow in the inner rows: there alone it is looked for, and not beyond the board's left end. */
  readonly isFar: boolean;
  readonly overTexts: boolean;
}

const STRAIGHT: RowWay = { aside: ASIDE, isFar: false, overTexts: false };
const FAR: RowWay = { aside: FAR_ASIDE, isFar: true, overTexts: false };
/** The best first: through a number is bad, on top of another leader is worse. */
const WAYS: readonly RowWay[] = [STRAIGHT, FAR, { ...FAR, overTexts: true }];

type Side = 'above' | 'below';

/**
 * What a leader costs for each part that it runs over, as mm of its length: a straight line right over a part looks like a
 * cut. So a label stands up to six rows farther out where that keeps its leader off one more part.
 */
const OVER_A_PART = 20;

/** A place in a row of one side, from 0 outwards. */
interface RowPlace {
  readonly side: Side;
  readonly row: number;
  readonly box: Box;
}

/**
 * Rows of labels above and below the board, filled from the board outwards. A label begins where its leader comes up,
 * and labels are set from right to left: then the leader of the next one is clear of all texts set before, and a row
 * further out is free of their leaders. Leaders have to cross the parts between, but no text and no other leader.
 */
class Gutters {
  readonly #board: Box;
  readonly #surroundings: Surroundings;
  readonly #most: number;
  readonly #rows: Record<Side, number>;
  /** Right end of the labels so far, mm. */
  right: number;
  /** True when the leader of a label runs through a text or on top of another leader. */
  isTangled = false;

  /**
   * @param most rows wanted on a side. Where any number will do, nothing else is tried for what finds no room here: its
   *   leader may then run through texts. Where it will not, what finds no room gets none: it may have a number instead
   * @param before rows that hold labels already, with their right end, mm
   */
  constructor(
    board: Box,
    surroundings: Surroundings,
    most: number,
    { rows, right }: Omit<RowsSoFar, 'surroundings'>,
  ) {
    this.#board = board;
    this.#surroundings = surroundings;
    this.#most = most;
    this.#rows = { ...rows };
    this.right = right;
  }

  /**
   * The place for a label in the innermost free row of the side to which its leader runs over fewer parts, or less far;
   * undefined where there is none and another way to tell the part can be tried.
   */
  take(anchor: Point, block: LabelBlock, ways: readonly RowWay[]): Box | undefined {
    const isHigh = anchor[1] < (this.#board.minY + this.#board.maxY) / 2;
    const sides: readonly Side[] = isHigh ? ['above', 'below'] : ['below', 'above'];
    for (const way of ways) {
      const found = sides.flatMap((side) => this.#firstFree(side, anchor, block, way) ?? []);
      // No rows too many on one side for the sake of leaders: all names would be given up for it.
      const few = found.filter(({ row }) => row < this.#most);
      const [best] = (few.length > 0 ? few : found)
        .map((place) => ({ ...place, cost: this.#cost(anchor, place.box) }))
        .sort((one, other) => one.cost - other.cost);
      if (best === undefined) continue;
      this.isTangled ||= way.overTexts;
      return this.#taken(best);
    }
    if (this.#most < Number.POSITIVE_INFINITY) return undefined;
    // Texts on parts may bar every way out: a place of its own the label still gets.
    this.isTangled = true;
    const row = this.#rows[sides[0]];
    return this.#taken({ side: sides[0], row, box: this.#box(sides[0], row, anchor[0], block) });
  }

  /** The innermost place on one side that is free. */
  #firstFree(
    side: Side,
    anchor: Point,
    block: LabelBlock,
    { aside, isFar, overTexts }: RowWay,
  ): RowPlace | undefined {
    const rows = isFar ? Math.min(ROWS, this.#most) : ROWS;
    for (let row = 0; row < rows; row++) {
      for (const dx of aside) {
        const box = this.#box(side, row, anchor[0] + dx, block);
        // What reaches beyond the board on the left is on no page.
        if (isFar && box.minX < this.#board.minX) continue;
        if (isApart(box, anchor, this.#surroundings, overTexts)) return { side, row, box };
      }
    }
    return undefined;
  }

  /** How far the leader of a label runs, mm, and over how many parts besides its own. */
  #cost(anchor: Point, box: Box): number {
    const end = nearestIn(anchor, box);
    const way = boundsOf([anchor, end]);
    // Its own part is always left over its outline: the same for every place.
    const over = this.#surroundings.parts.filter(
      (part) => boxesMeet(part.box, way) && crossesLine(anchor, end, part.placement.region.outline, true),
    );
    return Math.hypot(end[0] - anchor[0], end[1] - anchor[1]) + OVER_A_PART * over.length;
  }

  #box(side: Side, row: number, minX: number, { width, height }: LabelBlock): Box {
    const step = GUTTER_GAP + row * ROW_STEP;
    const minY = side === 'above' ? this.#board.minY - step - height : this.#board.maxY + step;
    return { minX, minY, maxX: minX + width, maxY: minY + height };
  }

  #taken({ side, row, box }: RowPlace): Box {
    this.#rows[side] = Math.max(this.#rows[side], row + 1);
    this.right = Math.max(this.right, box.maxX);
    return box;
  }

  /** How many rows of each side hold a label. */
  get rows(): RowCounts {
    return { ...this.#rows };
  }

  /** How many rows the side with more of them has. */
  get deepest(): number {
    return Math.max(this.#rows.above, this.#rows.below);
  }
}
