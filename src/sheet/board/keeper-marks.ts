import type { Offcut } from '../../model/layout.ts';
import { line, type Mark, text } from '../marks/marks.ts';
import { textWidth } from '../marks/text-width.ts';

/** Size of a keeper's name, mm, the largest that fits first. */
const SIZES = [5, 3.6, 2.6];

/**
 * What is worth keeping of a board afterwards: the straight cuts that part it off, and its number on it where that fits,
 * in mm of the board.
 */
export function keeperMarks(offcuts: readonly Offcut[]): Mark[] {
  return offcuts.flatMap(({ lines, rectangle: { minX, minY, maxX, maxY } }, i): Mark[] => {
    const words = `keeper ${i + 1}`;
    const fits = (size: number) => textWidth(words, size) < maxX - minX - 2 && 1.5 * size < maxY - minY;
    const size = SIZES.find(fits);
    const cuts = lines.map((each) => line('keeper', ...each));
    if (size === undefined) return cuts;
    return [...cuts, text('caption', words, [(minX + maxX) / 2, (minY + maxY) / 2], size, 'middle')];
  });
}
