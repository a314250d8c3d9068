import { boundsOf, boxRing } from '../geometry/shapes.ts';
import type { LaidBoard } from './layout.ts';
import type { Board } from './stock.ts';

/** Strips, lengths and slices as shares of the whole boards they come from: those are what a dealer measures and charges. */

/** How many blanks a board is ripped and cross-cut into before layout: 1 when it stays whole. */
export function blanksPerBoard({
  strips = 1,
  lengths = 1,
}: Pick<LaidBoard | Board, 'strips' | 'lengths'>): number {
  return strips * lengths;
}

/**
 * The board that a blank is cut from, as one is bought; the board itself when it stays whole. A board in blanks that
 * does not say what it was whole is taken to be its blanks side by side, without the cuts between them.
 */
export function wholeBoard(board: Board): Board {
  const { strips, lengths, whole = sideBySide(board), takingCost, ...rest } = board;
  const blanks = blanksPerBoard(board);
  if (blanks === 1) return board;
  const taking = takingCost === undefined ? {} : { takingCost: takingCost * blanks };
  return { ...rest, ...whole, quantity: board.quantity / blanks, ...taking };
}

function sideBySide({ outline, price, strips = 1, lengths = 1 }: Board): NonNullable<Board['whole']> {
  const { minX, minY, maxX, maxY } = boundsOf(outline);
  return {
    outline: boxRing({
      minX,
      minY,
      maxX: minX + lengths * (maxX - minX),
      maxY: minY + strips * (maxY - minY),
    }),
    price: price === undefined ? undefined : price * strips * lengths,
  };
}

/** How many whole boards the copies of a laid board are: a third for one of three strips, a sixth for half of its slices. */
export function boardsIn(laid: Pick<LaidBoard, 'copies' | 'strips' | 'lengths' | 'slices'>): number {
  const { copies, slices = 1 } = laid;
  return copies / (blanksPerBoard(laid) * slices);
}
