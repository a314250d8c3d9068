import { type Box, boundsOf, boxRing, type Point } from '../../geometry/shapes.ts';
import { isApart, partsUnder, type Surroundings, surroundingsIn } from './label-surroundings.ts';
import type { LabelBlock } from './part-label.ts';
import { nearestIn } from './straight-way.ts';

/** Rows of labels above and below a board, for parts beside which there is no place on it. */

type Side = 'above' | 'below';

/** How many rows of each side hold a label. */
export type RowCounts = Readonly<Record<Side, number>>;

/** No rows are taken yet. */
export const NO_ROWS: RowCounts = { above: 0, below: 0 };

/** Rows that hold labels, and the right end of these, mm. */
export interface RowsTaken {
  readonly rows: RowCounts;
  readonly right: number;
}

/** From one row to the next, mm. */
export const ROW_STEP = 3.4;

/** From the board to the first row, mm. */
const GUTTER_GAP = 2;

/** Rows looked through on each side: of leaders that run farther side by side nobody can tell which is which. */
const ROWS = 12;

/** How far beside its anchor a label may begin, mm: parts that lie straight above each other need it. */
const ASIDE = [0, 1.5, -1.5, 3];

/**
 * How far beside it a label may begin where none of these is free, mm: texts and leaders bar every way straight up, and one
 * leader on top of another would tell of neither part.
 */
const FAR_ASIDE = Array.from({ length: 40 }, (_, i) => 1.5 * (i + 1)).flatMap((dx) => [dx, -dx]);

/** A way to look for a place in the rows: how far aside, mm, and whether the leader may run through texts. */
export interface RowWay {
  readonly aside: readonly number[];
  /** Far aside is hard enough to follow in the inner rows: there alone it is looked for, and not beyond the board's left end. */
  readonly isFar: boolean;
  readonly overTexts: boolean;
}

/** Nearly straight to the row, off all texts. */
export const STRAIGHT: RowWay = { aside: ASIDE, isFar: false, overTexts: false };

/** Far aside, off all texts. */
export const FAR: RowWay = { aside: FAR_ASIDE, isFar: true, overTexts: false };

/** The best first; on top of another leader runs none. */
export const WAYS: readonly RowWay[] = [STRAIGHT, FAR, { ...FAR, overTexts: true }];

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
export class Gutters {
  readonly #board: Box;
  readonly #surroundings: Surroundings;
  readonly #most: number;
  /** Right end of the parts, mm. */
  readonly #lastPart: number;
  readonly #rows: Record<Side, number>;
  /** Right end of the labels so far, mm. */
  right: number;
  /** True when the leader of a label runs through a text. */
  isTangled = false;

  /**
   * @param most rows wanted on a side
   * @param before rows that hold labels already, with their right end, mm
   */
  constructor(board: Box, surroundings: Surroundings, most: number, { rows, right }: RowsTaken) {
    this.#board = board;
    this.#surroundings = surroundings;
    this.#most = most;
    this.#lastPart = surroundings.parts.reduce((end, { box }) => Math.max(end, box.maxX), board.minX);
    this.#rows = { ...rows };
    this.right = right;
  }

  /**
   * The place for a label in the innermost free row of the side to which its leader runs over fewer parts, or less far;
   * undefined where there is none.
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
    return undefined;
  }

  /** The innermost place on one side that is free. */
  #firstFree(
    side: Side,
    anchor: Point,
    block: LabelBlock,
    { aside: anywhere, isFar, overTexts }: RowWay,
  ): RowPlace | undefined {
    // A label that reached beyond the board could take a page more: it rather ends where the board ends, and one longer than
    // the board begins where that begins, for what lies left of it is on no page.
    const { minX, maxX } = this.#board;
    const inside = Math.max(minX, maxX - block.width) - anchor[0];
    const aside = isFar || inside >= 0 ? anywhere : [inside, ...anywhere];
    const rows = isFar ? Math.min(ROWS, this.#most) : ROWS;
    const box = (row: number, dx: number) => this.#box(side, row, anchor[0] + dx, block);
    // Thousands of places may be looked at, and most texts and leaders lie far from all of them.
    const farthest = box(rows - 1, Math.max(...aside));
    const near = surroundingsIn(
      boundsOf([anchor, ...boxRing(farthest), ...boxRing(box(0, Math.min(...aside)))]),
      this.#surroundings,
    );
    for (let row = 0; row < rows; row++) {
      for (const dx of aside) {
        const place = box(row, dx);
        // What reaches beyond the board on the left is on no page, and right of all parts it may be alone on one.
        if (isFar && (place.minX < this.#board.minX || place.minX > this.#lastPart)) continue;
        if (isApart(place, anchor, near, overTexts)) return { side, row, box: place };
      }
    }
    return undefined;
  }

  /** How far the leader of a label runs, mm, and over how many parts besides its own. */
  #cost(anchor: Point, box: Box): number {
    const end = nearestIn(anchor, box);
    // Its own part is always left over its outline: the same for every place.
    const over = partsUnder(anchor, end, this.#surroundings);
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

/** How far rows reach above and below the board and to the right, mm. */
export function reachOf({ rows, right }: RowsTaken): { above: number; below: number; right: number } {
  const reach = (count: number) => (count === 0 ? 0 : GUTTER_GAP + count * ROW_STEP);
  return { above: reach(rows.above), below: reach(rows.below), right };
}
