import type { LaidBoard } from '../model/layout.ts';
import { speciesKey } from '../model/same-wood.ts';
import { formatThickness } from '../units/distances.ts';
import type { DisplayUnit } from '../units/length.ts';
import { straightEdge } from './board/straight-edge.ts';
import { crossCutWords } from './cross-cut-words.ts';
import { fitted, shortened, shortenedBeforeEnd, textWidth } from './marks/text-width.ts';
import { blankWords, edgesWords, trimmingWords } from './preparing-words.ts';
import { shortStackWords, stackWords } from './stack-words.ts';

/** What a board is, in one line: on the maps of a cover, and at the head of each of its pages. */

/** Characters of a name above a map: as wide as a page of A4 has room for, and less than all that stands behind it. */
const LONGEST_NAME = 60;

/** A board in one line: as thick as it lies on the rack, and what it is planed to before the paper is stuck on. */
export function boardWords(board: LaidBoard, unit: DisplayUnit): string {
  const { id, species, thickness, planeTo, slices } = board;
  const thinned =
    planeTo === undefined
      ? ''
      : `, ${slices === undefined ? '' : 'resawn and '}planed to ${formatThickness(planeTo, unit)}`;
  const name = shortenedBeforeEnd(id, LONGEST_NAME);
  return `${name}: ${shortened(species, LONGEST_NAME)}, ${formatThickness(thickness, unit)} thick${thinned}${stackWords(board)}`;
}

/**
 * What else stands above a map: what the board is cut into first, no straight edge, for the line below the board that
 * says so may lie on no page, what is trimmed off, how far edges lie apart that parts stand on, and the cuts.
 */
export function mapWords(board: LaidBoard, unit: DisplayUnit): string {
  const edge = straightEdge(board) === undefined ? ['no straight edge along the grain'] : [];
  const [blanks, trims, edges] = [blankWords, trimmingWords, edgesWords].map((words) =>
    words(board, unit).map((preparation) => preparation.join(' ')),
  );
  const cuts = crossCutWords(board, unit);
  return [...blanks, ...edge, ...trims, ...edges, ...(cuts === '' ? [] : [cuts])].join('; ');
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
  const { id, species } = board;
  const rest = thickAndStack(board, unit);
  const room = width - textWidth(` \u00b7 ${rest}`, size);
  // What one of the two does not need the other may take; where both are long, each has half.
  const share = (other: string) => Math.max(room / 2, room - textWidth(other, size));
  return `${fitted(id, share(species), size, shortenedBeforeEnd)} \u00b7 ${fitted(species, share(id), size)}${rest}`;
}

/**
 * What the parts of one page are stuck on, each kind of wood once. Where room is short, as many as fit are named and the others
 * counted: they stand on the maps. Of the only one the name is cut, as at the head of a board.
 *
 * @param boards of the parts, one at least
 * @param width of the line, mm
 * @param size of the letters, mm
 */
export function woodsHead(
  boards: readonly LaidBoard[],
  unit: DisplayUnit,
  width: number,
  size: number,
): string {
  const kinds = new Map<string, { readonly species: string; readonly rest: string }>();
  for (const board of boards) {
    const rest = thickAndStack(board, unit);
    const kind = `${speciesKey(board.species)}${rest}`;
    if (!kinds.has(kind)) kinds.set(kind, { species: board.species, rest });
  }
  const woods = [...kinds.values()];
  const named = (count: number) => woods.slice(0, count).map(({ species, rest }) => `${species}${rest}`);
  const others = (count: number) =>
    count === woods.length ? [] : [`${woods.length - count} more, see the maps`];
  for (let count = woods.length; count > 0; count--) {
    const line = [...named(count), ...others(count)].join('; ');
    if (textWidth(line, size) <= width) return line;
  }
  const [{ species, rest }] = woods;
  const behind = [rest, ...others(1)].join('; ');
  return `${fitted(species, width - textWidth(behind, size), size)}${behind}`;
}

/** The thickness a board has when the paper goes on, and how often it is sawn: what is never cut off. */
function thickAndStack(board: LaidBoard, unit: DisplayUnit): string {
  const { thickness, planeTo } = board;
  const thick = `${planeTo === undefined ? '' : 'planed to '}${formatThickness(planeTo ?? thickness, unit)}`;
  const stack = shortStackWords(board);
  return `, ${thick}${stack === '' ? '' : ` \u00b7 ${stack}`}`;
}
