import { applyToRing } from '../../geometry/affine.ts';
import { ROUNDING_OF_SIDES } from '../../geometry/integer-grid.ts';
import { type Box, boundsOf, type Region } from '../../geometry/shapes.ts';
import { type Batch, type Demand, marginsAcross, type PlacingRules } from '../../model/batch.ts';
import type { Board } from '../../model/stock.ts';
import { usableOf } from '../../stock/usable.ts';
import { woodSteps } from '../../stock/wood-choice.ts';
import { allowedLies, type Lie, turn } from '../problem/orientations.ts';

/** What is kept from parts to the edges of boards, and whether a part has room between them. */

const KNOWN = new WeakMap<Batch, number>();

/**
 * Distance that the engine keeps from parts to edges and defects, mm. The outline may lie a little beside the drawn curve,
 * which counts unless it would keep a part off a board that it fills from margin to margin: straight sides are exact but for
 * the rounding to the grid, and so are all sides of a pattern without curves.
 */
export function marginOf(batch: Batch): number {
  const known = KNOWN.get(batch);
  if (known !== undefined) return known;
  const { edgeMargin, outlineTolerance, demands } = batch;
  const boxes = new Map<Board, Box | undefined>();
  const isFilled = outlineTolerance === 0 || demands.some((demand) => fillsBoard(batch, demand, boxes));
  const margin = isFilled ? Math.max(0, edgeMargin - ROUNDING_OF_SIDES / 2) : edgeMargin + outlineTolerance;
  KNOWN.set(batch, margin);
  return margin;
}

/** True when a part has room on some board of its wood between the margins, and none for what its outline may stray. */
function fillsBoard(batch: Batch, demand: Demand, known: Map<Board, Box | undefined>): boolean {
  const { boards, thicknessTolerance, outlineTolerance, edgeMargin } = batch;
  const { species, thickness, rules } = demand;
  const boxes = woodSteps(boards, species, thickness, thicknessTolerance)
    .flat()
    .flatMap(({ board }) => usableBox(board, known) ?? []);
  return allowedLies(rules).some((lie) => {
    const part = boxOf(demand, lie);
    return boxes.some((box) => {
      const room = roomBetween(edgeMargin, rules, part, box);
      return room >= -ROUNDING_OF_SIDES && room < 2 * outlineTolerance;
    });
  });
}

/** The box around what may be used of a board, mm, found once for all parts; undefined where nothing may. */
function usableBox(board: Board, known: Map<Board, Box | undefined>): Box | undefined {
  if (!known.has(board)) {
    const { outline } = usableOf(board);
    known.set(board, outline.length === 0 ? undefined : boundsOf(outline));
  }
  return known.get(board);
}

/** The box of a part in some lie, about its own origin, mm. */
export function boxOf({ region }: Pick<Demand, 'region'>, { degrees, turnedOver }: Lie): Box {
  return boundsOf(applyToRing(turn(degrees, turnedOver), region.outline));
}

/**
 * What a board is longer or wider, whichever is less, than a part with its edge margins, mm: negative where the part has no
 * room.
 *
 * @param part box of the part in some lie
 * @param board box of what may be used of the board
 */
export function roomBetween(
  edgeMargin: number,
  rules: Pick<PlacingRules, 'restEdge'>,
  part: Box,
  board: Box,
): number {
  const along = board.maxX - board.minX - (part.maxX - part.minX) - 2 * edgeMargin;
  const across = board.maxY - board.minY - (part.maxY - part.minY) - marginsAcross(rules, edgeMargin);
  return Math.min(along, across);
}

/** True when the box of a part, in some lie, is no larger than that of a board less the margins. */
export function boxFits(...between: Parameters<typeof roomBetween>): boolean {
  return roomBetween(...between) >= -ROUNDING_OF_SIDES;
}

/** Boxes of boards or sections but for those that another covers: what has no room in these has none. */
export function roomiestBoxes(usables: Iterable<Region>): Box[] {
  const roomiest: Box[] = [];
  for (const usable of new Set(usables)) {
    const box = boundsOf(usable.outline);
    if (roomiest.some((other) => covers(other, box))) continue;
    roomiest.splice(0, roomiest.length, ...roomiest.filter((other) => !covers(box, other)), box);
  }
  return roomiest;
}

/** True when a box is as long and as wide as another at least. */
function covers(box: Box, other: Box): boolean {
  return box.maxX - box.minX >= other.maxX - other.minX && box.maxY - box.minY >= other.maxY - other.minY;
}
