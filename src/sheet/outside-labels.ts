import { insideRegion } from '../geometry/ring.ts';
import { type Box, boundsOf, type Point, type Region } from '../geometry/shapes.ts';
import type { LaidBoard, Placement } from '../model/layout.ts';
import { FreeSpace } from './free-space.ts';
import { dot, line, type Mark, rings } from './marks.ts';
import { blockMarks, type LabelBlock, outsideBlock } from './part-label.ts';

/**
 * Labels for parts too small to hold them: each stands on waste nearby, joined to its part by a leader that
 * crosses no other part; where the board has no such place, in rows above and below the board.
 */
export interface OutsideLabel {
  readonly placement: Placement;
  /** Where the leader ends, in the part. */
  readonly anchor: Point;
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

/** Finds a place for every label, in the order given. */
export function placeOutside(wanted: readonly OutsideLabel[], board: LaidBoard): OutsideLabels {
  const marks = new Map<Placement, readonly Mark[]>();
  if (wanted.length === 0) return { marks, above: 0, below: 0 };
  const space = wasteSpace(board);
  const gutters = new Gutters(boundsOf(board.usable.outline));
  for (const label of wanted) {
    const block = outsideBlock(label.placement);
    const box = besidePart(label, block, space, board) ?? gutters.take(label.anchor, block);
    space.takeBox(box);
    marks.set(label.placement, [...leaderMarks(label.anchor, box), ...blockMarks(block, box)]);
  }
  return { marks, above: gutters.reach('above'), below: gutters.reach('below') };
}

/** Waste that text may stand on: the usable board less all parts, away from every line. */
function wasteSpace(board: LaidBoard): FreeSpace {
  const space = new FreeSpace(boundsOf(board.usable.outline), 0.8);
  space.freeInside(board.usable);
  for (const ring of [board.usable.outline, ...board.usable.openings]) space.takeAlong(ring, CLEARANCE, true);
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
  space: FreeSpace,
  board: LaidBoard,
): Box | undefined {
  const others = board.placements.filter((other) => other !== placement).map((other) => other.region);
  const reach = LONGEST_LEADER + block.width / 2;
  return space.nearestAccepted(block.width, block.height, anchor, reach, (box) => {
    const end = nearestEnd(anchor, box);
    return (
      Math.hypot(end[0] - anchor[0], end[1] - anchor[1]) <= LONGEST_LEADER && !meets(anchor, end, others)
    );
  });
}

/** True when the leader runs over one of the regions; looked at every 0.5 mm. */
function meets(from: Point, to: Point, regions: readonly Region[]): boolean {
  const steps = Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / 0.5);
  const way = boundsOf([from, to]);
  const near = regions.filter(({ outline }) => {
    const box = boundsOf(outline);
    return box.minX <= way.maxX && way.minX <= box.maxX && box.minY <= way.maxY && way.minY <= box.maxY;
  });
  for (let i = 0; i <= steps && near.length > 0; i++) {
    const t = i / Math.max(1, steps);
    const point: Point = [from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])];
    if (near.some((region) => insideRegion(point, { outline: region.outline, openings: [] }))) return true;
  }
  return false;
}

/** The point of a label's box that its leader goes to: nearest to the anchor. */
function nearestEnd([x, y]: Point, box: Box): Point {
  return [Math.min(box.maxX, Math.max(box.minX, x)), Math.min(box.maxY, Math.max(box.minY, y))];
}

function leaderMarks(anchor: Point, box: Box): Mark[] {
  return [line('leader', anchor, nearestEnd(anchor, box)), rings('leader-end', dot(anchor, 0.4))];
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
