import { isBox } from '../geometry/ring.ts';
import { boundsOf, boxRing } from '../geometry/shapes.ts';
import type { SawReach } from '../model/batch.ts';
import type { Board } from '../model/stock.ts';
import { wholeBoard } from '../model/whole-board.ts';
import { longestSection, onGrid, SHORTEST } from './sections.ts';
import { isTrimmed } from './trimmed-sides.ts';
import { usableSize } from './usable.ts';

/** Cutting a board into blanks before layout: strips, so that its sections turn in the throat of the saw, and lengths. */

/**
 * A board is ripped when its sections in full width would be shorter than this share of the throat: such slats hold
 * little and take many cuts (common practice, no source).
 */
const LEAST_SECTION = 0.25;

/** Ways a part may lie, each the length along and across the grain that it takes, mm. */
export type WaysToLie = readonly (readonly [along: number, across: number])[];

/** What a board is ripped for. */
export interface RippingRules {
  readonly reach: SawReach;
  /** Width of the rip cut, mm. */
  readonly kerf: number;
  /** Gap to the edges of the strip, mm. */
  readonly margin: number;
}

/** True for a plain rectangle: what has knots, a waney edge or a trim of its edges is ripped by eye. */
export function mayBeRipped(board: Board): boolean {
  return rippedByEye(board) === undefined;
}

/** True for a plain rectangle without any trim: what comes off the ends of a board does not come off those of every length. */
export function mayBeInLengths(board: Board): boolean {
  return mayBeRipped(board) && !isTrimmed(board.trim, 'ends');
}

/**
 * What of a board has to be seen to rip it well; undefined for a plain rectangle, also where its ends are trimmed: each of its
 * strips is then trimmed there.
 */
export function rippedByEye({ outline, defects, trim }: Board): 'defects' | 'trim' | 'outline' | undefined {
  if (defects.length > 0) return 'defects';
  if (isTrimmed(trim, 'edges')) return 'trim';
  return isBox(outline) ? undefined : 'outline';
}

/** The longest section that turns, mm. */
export interface Room {
  readonly along: number;
  readonly across: number;
}

/** The section of a board in its full width; undefined where no such section is worth cutting. */
export function sectionOfFullWidth(board: Board, reach: SawReach): Room | undefined {
  const size = usableSize(board);
  if (size === undefined) return undefined;
  const [length, across] = size;
  return turnsIn(reach, across)
    ? { along: Math.min(length, longestSection(across, reach)), across }
    : undefined;
}

/** True where sections of this width turn in lengths worth cutting. */
function turnsIn({ throat }: SawReach, across: number): boolean {
  return throat === undefined || Math.hypot(across, LEAST_SECTION * throat) <= throat;
}

/** True when a part has room in a section, so many mm from its edges. */
export function hasRoom(ways: WaysToLie, { along, across }: Room, margin: number): boolean {
  return ways.some(([length, height]) => length <= along - 2 * margin && height <= across - 2 * margin);
}

/**
 * Number of strips a board is best ripped into for these parts; 1 when it stays as wide as it is. Strips in whose
 * sections most parts have room come first, then those with the largest sections, then fewer.
 *
 * @param homeless those of the parts that have room on no board of their wood as it is: for others a board is not ripped
 *   that turns in lengths worth cutting
 */
export function stripsToTurn(
  board: Board,
  parts: readonly WaysToLie[],
  homeless: readonly WaysToLie[],
  { reach, kerf, margin }: RippingRules,
): number {
  const [length, width] = usableSize(board) ?? [0, 0];
  const turns = turnsIn(reach, width);
  if (turns && homeless.length === 0) return 1;
  const heldIn = (room: Room) => parts.filter((ways) => hasRoom(ways, room, margin)).length;
  // A board that turns as it is has to hold fewer parts than its strips would.
  const held = turns ? heldIn(longestRoom(length, width, reach)) : -1;
  let best = { strips: 1, held, area: Number.POSITIVE_INFINITY };
  for (const { strips, room } of turningStrips(length, width, { reach, kerf })) {
    const held = heldIn(room);
    const area = room.along * room.across;
    if (held > best.held || (held === best.held && area > best.area)) best = { strips, held, area };
  }
  return best.strips;
}

/** The longest section of a board of this length and width that turns. */
function longestRoom(length: number, across: number, reach: SawReach): Room {
  return { along: Math.min(length, longestSection(across, reach)), across };
}

/** The numbers of strips, from two on, whose sections turn in lengths worth cutting, each with its longest section. */
export function turningStrips(
  length: number,
  width: number,
  { reach, kerf }: Pick<RippingRules, 'reach' | 'kerf'>,
): { readonly strips: number; readonly room: Room }[] {
  const found: { strips: number; room: Room }[] = [];
  for (let strips = 2; ; strips++) {
    const across = blankSize(width, strips, kerf);
    if (across < SHORTEST) return found;
    if (turnsIn(reach, across)) found.push({ strips, room: longestRoom(length, across, reach) });
  }
}

/** Into how many strips along the grain a board is ripped, and into how many lengths those are cross-cut. */
export interface Blanks {
  readonly strips: number;
  readonly lengths: number;
}

/** The blanks that come out of the boards of an entry, as an entry: quantity, price and what taking one counts are those of single blanks. */
export function cutInto({ strips, lengths }: Blanks, board: Board, kerf: number): Board {
  const blanks = strips * lengths;
  if (blanks <= 1) return board;
  const box = boundsOf(board.outline);
  const maxX = box.minX + blankSize(box.maxX - box.minX, lengths, kerf);
  const maxY = box.minY + blankSize(box.maxY - box.minY, strips, kerf);
  return {
    ...board,
    outline: boxRing({ ...box, maxX, maxY }),
    quantity: board.quantity * blanks,
    price: board.price === undefined ? undefined : board.price / blanks,
    ...(board.takingCost === undefined ? {} : { takingCost: board.takingCost / blanks }),
    ...(strips > 1 ? { strips } : {}),
    ...(lengths > 1 ? { lengths } : {}),
    // Of the blanks alone neither the cuts nor, where it does not divide, the price could be put together again.
    whole: board.whole ?? { outline: board.outline, price: board.price },
  };
}

/**
 * The same boards in another number of strips, each of the lengths they are cut into now. What taking a whole one counts
 * in the search stays.
 */
export function rippedAnew(board: Board, strips: number, kerf: number): Board {
  return cutInto({ strips, lengths: board.lengths ?? 1 }, wholeBoard(board), kerf);
}

/** Width of a strip, or length of a length, where so many are cut of a board, mm. */
export function blankSize(whole: number, count: number, kerf: number): number {
  // The cuts may take more than there is.
  return count === 1 ? whole : Math.max(0, onGrid((whole - (count - 1) * kerf) / count));
}
