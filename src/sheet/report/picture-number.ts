import type { InsidePoint } from '../../geometry/inside-point.ts';
import { type TextMark, text } from '../marks/marks.ts';

/** Half the height of a figure as a share of its size: so far below the middle its baseline lies. */
const HALF_FIGURE = 0.36;

/**
 * The number of a part where it is widest, as large as its room but never more than `largest` mm; it is not less than
 * half of that, for a number that cannot be read is worth less than one that stands over an edge.
 */
export function pictureNumber(number: number, { at, radius }: InsidePoint, largest: number): TextMark {
  const size = Math.max(largest / 2, Math.min(largest, 1.2 * radius));
  return text('picture-number', `${number}`, [at[0], at[1] + HALF_FIGURE * size], size, 'middle');
}
