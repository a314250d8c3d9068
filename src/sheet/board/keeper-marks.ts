import { type Box, middleOf } from '../../geometry/shapes.ts';
import type { Offcut } from '../../model/layout.ts';
import { line, type Mark, type TextMark, text } from '../marks/marks.ts';
import { textWidth } from '../marks/text-width.ts';

/** Size of a keeper's name, mm, the largest that fits first. */
const SIZES = [5, 3.6, 2.6];

/**
 * What is worth keeping of a board afterwards: the straight cuts that part it off, and its number on it where that fits,
 * in mm of the board.
 */
export function keeperMarks(offcuts: readonly Offcut[]): Mark[] {
  return offcuts.flatMap(({ lines, rectangle }, i): Mark[] => {
    const name = keeperName(i, rectangle);
    return [...lines.map((each) => line('keeper', ...each)), ...(name === undefined ? [] : [name])];
  });
}

/**
 * The name of a keeper in the middle of a piece of it, where it finds room there.
 *
 * @param index its place among the keepers of the board, from 0
 * @param piece mm of the board
 */
export function keeperName(index: number, piece: Box): TextMark | undefined {
  const words = `keeper ${index + 1}`;
  const { minX, minY, maxX, maxY } = piece;
  const size = SIZES.find((each) => textWidth(words, each) < maxX - minX - 2 && 1.5 * each < maxY - minY);
  if (size === undefined) return undefined;
  return text('caption', words, middleOf(piece), size, 'middle');
}
