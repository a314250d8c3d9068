import type { LaidBoard } from '../model/layout.ts';
import { formatThickness } from '../units/distances.ts';
import type { DisplayUnit } from '../units/length.ts';
import { fitted, textWidth } from './marks/text-width.ts';
import { shortStackWords, stackWords } from './stack-words.ts';

/** What a board is, in one line: on the maps of a cover, and at the head of each of its pages. */

/** A board in one line: as thick as it lies on the rack, and what it is planed to before the paper is stuck on. */
export function boardWords(board: LaidBoard, unit: DisplayUnit): string {
  const { id, species, thickness, planeTo, slices } = board;
  const thinned =
    planeTo === undefined
      ? ''
      : `, ${slices === undefined ? '' : 'resawn and '}planed to ${formatThickness(planeTo, unit)}`;
  return `${id}: ${species}, ${formatThickness(thickness, unit)} thick${thinned}${stackWords(board)}`;
}

/**
 * A board at the head of its page, which may be the only paper at the saw: name, wood, the thickness it has when the
 * paper goes on, and the stack. Where room is short, of name and wood as much is left out as does not fit: the
 * thickness and the stack are never cut off, for a name is still known by its beginning, a number is not.
 *
 * @param width of the line, mm
 * @param size of the letters, mm
 */
export function boardHead(board: LaidBoard, unit: DisplayUnit, width: number, size: number): string {
  const { id, species, thickness, planeTo } = board;
  const thick = `${planeTo === undefined ? '' : 'planed to '}${formatThickness(planeTo ?? thickness, unit)}`;
  const stack = shortStackWords(board);
  const rest = `, ${thick}${stack === '' ? '' : ` \u00b7 ${stack}`}`;
  const room = width - textWidth(` \u00b7 ${rest}`, size);
  // What one of the two does not need the other may take; where both are long, each has half.
  const share = (text: string, other: string) =>
    fitted(text, Math.max(room / 2, room - textWidth(other, size)), size);
  return `${share(id, species)} \u00b7 ${share(species, id)}${rest}`;
}
