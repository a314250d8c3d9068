import { type Box, boundsOf, boxesMeet, type Point } from '../../geometry/shapes.ts';
import type { LaidBoard, Placement } from '../../model/layout.ts';
import { dot, line, type Mark, rings } from '../marks/marks.ts';
import { FreeSpace } from './free-space.ts';
import { blockMarks, type LabelBlock, outsideBlock } from './part-label.ts';
import { crossesLine, nearestIn } from './straight-way.ts';

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
}

const CLEARANCE = 0.7;
/** Longest leader on the board, mm; beyond it a row beside the board is easier to follow. */
const LONGEST_LEADER = 60;
const ROW_STEP = 3.4;
const GUTTER_GAP = 2;

/** Finds a place for every label, in the order given; `taken` is where other texts stand. */
export function placeOutside(
  wanted: readonly OutsideLabel[],
  board: LaidBoard,
  taken: readonly Box[] = [],
): OutsideLabels {
  const marks = new Map<Placement, readonly Mark[]>();
  if (wanted.length === 0) return { marks, above: 0, below: 0 };
  const surroundings: Surroundings = {
    waste: wasteSpace(board),
    parts: board.placements.map((placement) => ({ placement, box: boundsOf(placement.region.outline) })),
    labels: [...taken],
  };
  const gutters = new Gutters(boundsOf(board.usable.outline));
  for (const label of wanted) {
    const block = outsideBlock(label.placement, label.number);
    const box = besidePart(label, block, surroundings) ?? gutters.take(label.anchor, block);
    surroundings.labels.push(box);
    marks.set(label.placement, [...leaderMarks(label.anchor, box), ...blockMarks(block, box)]);
  }
  return { marks, above: gutters.reach('above'), below: gutters.reach('below') };
}

/** What a label beside its part has to heed. */
interface Surroundings {
  readonly waste: FreeSpace;
  readonly parts: readonly { readonly placement: Placement; readonly box: Box }[];
  /** Labels set so far. */
  readonly labels: Box[];
}

/** Waste that text may stand on: the usable board less all parts, away from every line. */
function wasteSpace(board: LaidBoard): FreeSpace {
  const space = new FreeSpace(boundsOf(board.usable.outline), 0.8);
  space.freeInside(board.usable);
  for (const ring of [board.usable.outline, ...board.usable.openings]) space.takeAlong(ring, CLEARANCE, true);
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

function besidePart(
  { placement, anchor }: OutsideLabel,
  block: LabelBlock,
  { waste, parts, labels }: Surroundings,
): Box | undefined {
  const accepts = (box: Box): boolean => {
    if (labels.some((other) => boxesMeet(box, other, CLEARANCE))) return false;
    // From here on it is the leader that decides, not the text.
    const end = nearestIn(anchor, box);
    const way = boundsOf([anchor, end]);
    if (Math.hypot(end[0] - anchor[0], end[1] - anchor[1]) > LONGEST_LEADER) return false;
    const near = parts.filter((part) => part.placement !== placement && boxesMeet(part.box, way));
    return !near.some((part) => crossesLine(anchor, end, part.placement.region.outline, true));
  };
  // Most find a place close by; only the others are worth looking far for.
  for (const reach of [LONGEST_LEADER / 4, LONGEST_LEADER]) {
    const box = waste.nearestAccepted(block.width, block.height, anchor, reach + block.width / 2, accepts);
    if (box !== undefined) return box;
  }
  return undefined;
}

function leaderMarks(anchor: Point, box: Box): Mark[] {
  return [line('leader', anchor, nearestIn(anchor, box)), rings('leader-end', dot(anchor, 0.4))];
}

/** Rows of labels above and below the board, filled from the board outwards. */
class Gutters {
  readonly #board: Box;
  /** Right end of the last label of each row. */
  readonly #rows: Record<'above' | 'below', Box[][]> = { above: [], below: [] };

  constructor(board: Box) {
    this.#board = board;
  }

  /** A place for a label as near to its anchor as the rows allow. */
  take(anchor: Point, block: LabelBlock): Box {
    const middle = (this.#board.minY + this.#board.maxY) / 2;
    const rows = this.#rows[anchor[1] < middle ? 'above' : 'below'];
    const left = Math.max(this.#board.minX, anchor[0] - block.width / 2);
    // A label never stands beyond the row before it needs to: the first row with a gap takes it.
    let row = rows.findIndex((taken) =>
      taken.every((box) => left + block.width + 1 < box.minX || box.maxX + 1 < left),
    );
    if (row < 0) row = rows.push([]) - 1;
    const step = GUTTER_GAP + row * ROW_STEP;
    const minY = anchor[1] < middle ? this.#board.minY - step - block.height : this.#board.maxY + step;
    const box = { minX: left, minY, maxX: left + block.width, maxY: minY + block.height };
    rows[row].push(box);
    return box;
  }

  /** How far the rows of one side reach from the board, mm. */
  reach(side: 'above' | 'below'): number {
    return this.#rows[side].length === 0 ? 0 : GUTTER_GAP + this.#rows[side].length * ROW_STEP;
  }
}
