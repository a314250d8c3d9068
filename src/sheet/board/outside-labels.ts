import { distanceToSegment } from '../../geometry/ring.ts';
import { type Box, boundsOf, boxesMeet, grownBox, type Line, type Point } from '../../geometry/shapes.ts';
import type { LaidBoard, Placement } from '../../model/layout.ts';
import { dot, line, type Mark, rings } from '../marks/marks.ts';
import { FreeSpace } from './free-space.ts';
import { outlineBox } from './outline-box.ts';
import { blockMarks, type LabelBlock, outsideBlock } from './part-label.ts';
import { crossesLine, nearestIn, stretchIn } from './straight-way.ts';

/**
 * Labels for parts too small to hold them: each stands on waste nearby, joined to its part by a leader that
 * crosses no other part; where the board has no such place, in rows above and below the board.
 */
export interface OutsideLabel {
  readonly placement: Placement;
  /** Where the leader ends, in the part. */
  readonly anchor: Point;
  /** The part's number in the report, where it is known. */
  readonly number?: number;
}

/** Marks by placement, and how far the rows reach above and below the board, mm. */
export interface OutsideLabels {
  readonly marks: ReadonlyMap<Placement, readonly Mark[]>;
  readonly above: number;
  readonly below: number;
  /** Right end of the labels in the rows, mm: it may be beyond the board. */
  readonly right: number;
}

const CLEARANCE = 0.7;
/** Longest leader on the board, mm; beyond it a row beside the board is easier to follow. */
const LONGEST_LEADER = 60;
/** Leaders that run closer side by side than this could be taken for one, mm. */
const BETWEEN_LEADERS = 0.8;
const ROW_STEP = 3.4;
const GUTTER_GAP = 2;

/**
 * Finds a place for every label, in the order given.
 *
 * @param taken where other texts stand, on parts and on keepers; `cuts` are lines across the board that no label is to
 *   stand on, for it would be sawn through
 */
export function placeOutside(
  wanted: readonly OutsideLabel[],
  board: LaidBoard,
  taken: readonly Box[] = [],
  cuts: readonly Line[] = [],
): OutsideLabels {
  const marks = new Map<Placement, readonly Mark[]>();
  if (wanted.length === 0) return { marks, above: 0, below: 0, right: Number.NEGATIVE_INFINITY };
  const surroundings: Surroundings = {
    waste: wasteSpace(board, cuts),
    parts: board.placements.map((placement) => ({ placement, box: outlineBox(placement) })),
    texts: [...taken],
    leaders: [],
  };
  const set = ({ placement, anchor }: OutsideLabel, block: LabelBlock, box: Box) => {
    surroundings.texts.push(box);
    surroundings.leaders.push([anchor, nearestIn(anchor, box)]);
    marks.set(placement, [...leaderMarks(anchor, box), ...blockMarks(block, box)]);
  };
  const left = wanted.filter((label) => {
    const block = outsideBlock(label.placement, label.number);
    const box = besidePart(label, block, surroundings);
    if (box !== undefined) set(label, block, box);
    return box === undefined;
  });
  const gutters = new Gutters(boundsOf(board.usable.outline), surroundings);
  // From right to left: see Gutters.
  for (const label of left.sort((a, b) => b.anchor[0] - a.anchor[0])) {
    const block = outsideBlock(label.placement, label.number);
    set(label, block, gutters.take(label.anchor, block));
  }
  return { marks, above: gutters.reach('above'), below: gutters.reach('below'), right: gutters.right };
}

/** What a label beside its part has to heed. */
interface Surroundings {
  readonly waste: FreeSpace;
  readonly parts: readonly { readonly placement: Placement; readonly box: Box }[];
  /** Boxes of all texts so far: those in parts too, for no leader is to run through one. */
  readonly texts: Box[];
  /** Leaders drawn so far, each a straight way. */
  readonly leaders: Line[];
}

/** True when neither a label stands on another text or a leader, nor its leader runs through a text or a leader. */
function isApart(box: Box, anchor: Point, { texts, leaders }: Surroundings): boolean {
  const end = nearestIn(anchor, box);
  const way = boundsOf([anchor, end]);
  const grown = grownBox(box, CLEARANCE);
  return (
    !texts.some(
      (other) =>
        boxesMeet(other, grown) || (boxesMeet(other, way) && stretchIn(anchor, end, other) !== undefined),
    ) &&
    !leaders.some(
      (other) =>
        stretchIn(other[0], other[1], grown) !== undefined ||
        crossesLine(anchor, end, other, false) ||
        ENDS.some((i) => distanceToLine([anchor, end][i], other) < BETWEEN_LEADERS) ||
        ENDS.some((i) => distanceToLine(other[i], [anchor, end]) < BETWEEN_LEADERS),
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

/** A place on waste near the part, with a leader that crosses no other part, text or leader; undefined without one. */
function besidePart(
  { placement, anchor }: OutsideLabel,
  block: LabelBlock,
  surroundings: Surroundings,
): Box | undefined {
  const { waste, parts } = surroundings;
  const accepts = (box: Box): boolean => {
    // It is the leader that decides: the text finds room on waste.
    const end = nearestIn(anchor, box);
    if (Math.hypot(end[0] - anchor[0], end[1] - anchor[1]) > LONGEST_LEADER) return false;
    if (!isApart(box, anchor, surroundings)) return false;
    const way = boundsOf([anchor, end]);
    const near = parts.filter((part) => part.placement !== placement && boxesMeet(part.box, way));
    return !near.some((part) => crossesLine(anchor, end, part.placement.region.outline, true));
  };
  // Most find a place close by; only the others are worth looking far for.
  for (const reach of [LONGEST_LEADER / 4, LONGEST_LEADER]) {
    const box = waste.nearestAccepted(block, { target: anchor, reach: reach + block.width / 2 }, accepts);
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

type Side = 'above' | 'below';

/**
 * Rows of labels above and below the board, filled from the board outwards. A label begins where its leader comes up,
 * and labels are set from right to left: then the leader of the next one is clear of all texts set before, and a row
 * further out is free of their leaders. Leaders have to cross the parts between, but no text and no other leader.
 */
class Gutters {
  readonly #board: Box;
  readonly #surroundings: Surroundings;
  /** How many rows of each side hold a label. */
  readonly #rows: Record<Side, number> = { above: 0, below: 0 };
  /** Right end of the labels so far, mm. */
  right = Number.NEGATIVE_INFINITY;

  constructor(board: Box, surroundings: Surroundings) {
    this.#board = board;
    this.#surroundings = surroundings;
  }

  /** The place for a label in the innermost row that is free, on the nearer side if both have one. */
  take(anchor: Point, block: LabelBlock): Box {
    const isHigh = anchor[1] < (this.#board.minY + this.#board.maxY) / 2;
    const sides: readonly Side[] = isHigh ? ['above', 'below'] : ['below', 'above'];
    for (let row = 0; row < ROWS; row++) {
      for (const [side, aside] of sides.flatMap((each) => ASIDE.map((dx) => [each, dx] as const))) {
        const box = this.#box(side, row, anchor[0] + aside, block);
        if (isApart(box, anchor, this.#surroundings)) return this.#taken(side, row, box);
      }
    }
    // Texts on parts may bar every way out: a place of its own the label still gets.
    const row = this.#rows[sides[0]];
    return this.#taken(sides[0], row, this.#box(sides[0], row, anchor[0], block));
  }

  #box(side: Side, row: number, minX: number, { width, height }: LabelBlock): Box {
    const step = GUTTER_GAP + row * ROW_STEP;
    const minY = side === 'above' ? this.#board.minY - step - height : this.#board.maxY + step;
    return { minX, minY, maxX: minX + width, maxY: minY + height };
  }

  #taken(side: Side, row: number, box: Box): Box {
    this.#rows[side] = Math.max(this.#rows[side], row + 1);
    this.right = Math.max(this.right, box.maxX);
    return box;
  }

  /** How far the rows of one side reach from the board, mm. */
  reach(side: Side): number {
    return this.#rows[side] === 0 ? 0 : GUTTER_GAP + this.#rows[side] * ROW_STEP;
  }
}
