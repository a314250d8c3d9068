import { type Box, boundsOf, type Region } from '../../geometry/shapes.ts';
import { counted } from '../../issues/counted.ts';
import type { Batch, Demand } from '../../model/batch.ts';
import { blanksPerBoard } from '../../model/whole-board.ts';
import { isLevelAt, reachesStraightEdge } from '../../stock/sound-edges.ts';
import { trimmedOutline } from '../../stock/trim.ts';
import { MOST_OF_A_KIND, unitName } from '../../stock/units.ts';
import { boxFits, boxOf, roomBetween } from '../groups/board-margin.ts';
import { boardNameOf, type Group, type StockPiece, slicesOf, woodName } from '../groups/group.ts';
import { liesOf } from '../groups/group-problem.ts';
import {
  BEYOND_SECTIONS,
  HELD_WHOLE,
  LESS_MARGIN,
  NO_EITHER_EDGE,
  NO_STRAIGHT_EDGE,
  NOT_RIPPED,
  STOPPED_BEFORE,
  TOO_CLOSELY,
  TURNS_IN_NONE,
  UNSOUND_BELOW,
} from './laid-issues.ts';

/** Why copies of a part found no place, in the words that the layout file has; the remedy goes by them. */

/** How the search for a place of a copy went. */
export interface Fate {
  readonly stopped: boolean;
  /** Whether another copy of the part has one. */
  readonly isLaid: boolean;
  /** Names of the boards that something lies on. */
  readonly carrying: ReadonlySet<string>;
}

/** Why a copy of a demand has no place on the boards of its group: what lies in the boards first, then in the search. */
export function whyUnplaced(
  batch: Batch,
  group: Group,
  demand: Demand,
  { stopped, isLaid, carrying }: Fate,
): string {
  const wood = woodName(demand.species, demand.thickness);
  const { stock, pieces } = group;
  if (stock.length === 0) return `there is no board of ${wood}`;
  if (stock.every(({ usable }) => usable.outline.length === 0))
    return `trims and defects leave nothing of the boards of ${wood}`;
  if (pieces.length === 0) return `the boards of ${wood} are taken by other parts, or too few for a stack`;
  const boxes = liesOf(batch, group, demand).map((lie) => boxOf(demand, lie));
  const fits: Fits = ({ outline }, margin = batch.edgeMargin) => {
    const board = boundsOf(outline);
    return boxes.some((part) => boxFits(margin, demand.rules, part, board));
  };
  const fitting = pieces.filter(({ usable }) => fits(usable));
  if (fitting.length === 0) return tooLarge(batch.reach, pieces, wood, boxes, fits);
  if (stopped) return STOPPED_BEFORE;
  if (!isLaid && !pieces.some((piece) => hasSpare(batch, demand, boxes, piece)))
    return `${TOO_CLOSELY} the boards of ${wood}`;
  const wholes = pieces.filter(({ kind }) => fits(kind.usable));
  const besides = [
    ...(demand.rules.restEdge ? edgesLacking(fitting) : []),
    ...heldWhole(wholes, fitting),
    ...(isCrowd(group, carrying)
      ? [`; of one entry no more than ${MOST_OF_A_KIND} are looked at, so enter the others as a second one`]
      : []),
  ].join('');
  return `${roomLacking(demand, wholes)} ${boardsTried(pieces, fitting, wood)}${besides}`;
}

/** Whether a part fits what may be used of a board or section, in some lie, with a margin in mm: that of the batch when left out. */
type Fits = (usable: Region, margin?: number) => boolean;

/** Names of the boards that pieces are of: a board in sections is one, and a stack as many as are in it. */
function boardsOf(pieces: readonly StockPiece[]): Set<string> {
  return new Set(pieces.flatMap(({ board, units }) => units.map((unit) => unitName(board, unit))));
}

/** Of a part that fits no piece: whole boards may hold it where sections that fit the saw, or the strips they are ripped into for it, do not. */
function tooLarge(
  reach: Batch['reach'],
  pieces: readonly StockPiece[],
  wood: string,
  boxes: readonly Box[],
  fits: Fits,
): string {
  const isSaw = pieces.some(({ kind, board }) => board.strips !== undefined || fits(kind.usable));
  if (!isSaw) return `larger than every board of ${wood}`;
  const less = pieces.some(({ usable }) => fits(usable, 0)) ? `, ${LESS_MARGIN}` : '';
  const why = boxes.some((part) => turnsIn(reach, part)) ? less : `, ${TURNS_IN_NONE}`;
  return `${BEYOND_SECTIONS} of ${wood} that the saw's throat and longest board allow${why}`;
}

/** Whether a piece of board no larger than a box can be swung at the saw. */
function turnsIn(reach: Batch['reach'], { minX, minY, maxX, maxY }: Box): boolean {
  const { throat = Number.POSITIVE_INFINITY, longest = Number.POSITIVE_INFINITY } = reach ?? {};
  const [length, width] = [maxX - minX, maxY - minY];
  return length <= longest && length * length + width * width <= throat * throat;
}

/** Room to spare on a board below which a part may find none, mm: curves are taken up to 0.1 mm larger on either side. */
const SPARE_FOR_CURVES = 0.25;

/** True when a part, by its box in some lie, has room on a piece though its curves are taken larger than drawn. */
function hasSpare(
  { edgeMargin }: Batch,
  { rules }: Demand,
  boxes: readonly Box[],
  { usable }: StockPiece,
): boolean {
  const board = boundsOf(usable.outline);
  return boxes.some((part) => roomBetween(edgeMargin, rules, part, board) >= SPARE_FOR_CURVES);
}

/** How the reason begins of a copy that has no room, by what it stands on. */
function roomLacking({ rules }: Demand, wholes: readonly StockPiece[]): string {
  if (!rules.restEdge) return 'no room left on';
  const areStraightAbove = wholes.every(({ kind }) => kind.edges.straightTop !== undefined);
  return areStraightAbove ? NO_EITHER_EDGE : NO_STRAIGHT_EDGE;
}

/** The boards that are large enough, among how many. */
function boardsTried(pieces: readonly StockPiece[], fitting: readonly StockPiece[], wood: string): string {
  // Of one sheet there may be five strips, and of one board three lengths.
  const isWhole = ({ kind, board }: StockPiece) => blanksPerBoard(board) === 1 && (slicesOf(kind) ?? 1) === 1;
  const boards = pieces.every(isWhole) ? 'boards' : 'pieces';
  const count = boardsOf(pieces).size;
  const roomy = boardsOf(fitting).size;
  if (roomy < count)
    return `the ${roomy === 1 ? 'one' : roomy} of ${count} ${boards} of ${wood} large enough for it`;
  return count === 1 ? `the board of ${wood}` : `the ${count} ${boards} of ${wood}`;
}

/** How many of the pieces that are large enough have no lower edge to stand on, by what it lacks. */
function edgesLacking(fitting: readonly StockPiece[]): string[] {
  const roomy = boardsOf(fitting).size;
  return [NOT_RIPPED, UNSOUND_BELOW].flatMap((lack) => {
    const number = boardsOf(fitting.filter((piece) => edgeLackingBelow(piece) === lack)).size;
    if (number === 0) return [];
    const some = number === roomy ? 'all of which have' : counted(number, 'of which has', 'of which have');
    return [`, ${roomy === 1 ? 'which has' : some} ${lack}`];
  });
}

/** What the lower edge of a board lacks: it is not straight, where parts stand only where it is lowest, or it is unsound. */
function edgeLackingBelow({ kind: { board, usable } }: StockPiece): string | undefined {
  const isLevelBelow = ({ outline }: Region) => isLevelAt(outline, boundsOf(outline).maxY);
  if (reachesStraightEdge(board, usable) && isLevelBelow(usable)) return undefined;
  return isLevelBelow(trimmedOutline(board)) ? UNSOUND_BELOW : NOT_RIPPED;
}

/** The boards that would hold the part if they were not cut to sections. */
function heldWhole(wholes: readonly StockPiece[], fitting: readonly StockPiece[]): string[] {
  const inSections = boardsOf(fitting);
  const parted = [...boardsOf(wholes)].filter((board) => !inSections.has(board)).length;
  return parted > 0 ? [`; ${parted} more ${HELD_WHOLE}`] : [];
}

/**
 * True when an entry has more boards than are looked at: they help only where those that are looked at have all found a
 * use.
 */
function isCrowd({ stock, pieces }: Group, carrying: ReadonlySet<string>): boolean {
  return stock.some(
    (kind) =>
      kind.board.quantity * (slicesOf(kind) ?? 1) > MOST_OF_A_KIND &&
      pieces.every((piece) => piece.kind.board !== kind.board || carrying.has(boardNameOf(piece))),
  );
}
