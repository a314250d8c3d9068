import { boundsOf, boxRing } from '../geometry/shapes.ts';
import type { LaidBoard } from './layout.ts';
import type { Board } from './stock.ts';

/** Strips and slices as shares of the whole boards they come from: those are what a dealer measures and charges. */

/**
 * The board that a strip is ripped from, as one is bought; the board itself when it is not ripped. A board in strips that
 * does not say what it was whole is taken to be its strips side by side, without the rip cuts between them.
 */
export function wholeBoard(board: Board): Board {
  const { strips = 1, whole = sideBySide(board), ...rest } = board;
  return strips === 1 ? board : { ...rest, ...whole, quantity: board.quantity / strips };
}

function sideBySide({ outline, price, strips = 1 }: Board): NonNullable<Board['whole']> {
  const box = boundsOf(outline);
  return {
    outline: boxRing({ ...box, maxY: box.minY + strips * (box.maxY - box.minY) }),
    price: price === undefined ? undefined : price * strips,
  };
}

/** How many whole boards the copies of a laid board are: a third for one of three strips, a sixth for half of its slices. */
export function boardsIn({
  copies,
  strips = 1,
  slices = 1,
}: Pick<LaidBoard, 'copies' | 'strips' | 'slices'>): number {
  return copies / (strips * slices);
}
