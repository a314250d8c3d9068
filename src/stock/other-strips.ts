import type { Board } from '../model/stock.ts';
import { wholeBoard } from '../model/whole-board.ts';
import { hasRoom, type RippingRules, type Room, turningStrips, type WaysToLie } from './ripping.ts';
import { usableSize } from './usable.ts';

/** Numbers of strips that are worth a layout beside the one a board is ripped into for the throat. */

/** A part that is to lie in strips. */
export interface PartInStrips {
  readonly ways: WaysToLie;
  readonly copiesPerSet: number;
  /** Rows that a strip takes at most: what stands on a straight edge asks for one of its own. */
  readonly mostRows: number;
}

/** What a board is ripped for, and how parts lie in its sections. */
interface RowRules extends RippingRules {
  /** Gap between two parts, mm. */
  readonly gap: number;
}

/**
 * Numbers of strips in whose sections all parts have room that have it in those the board is ripped into, and of which fewer
 * boards would do with the boxes of the parts in rows, in rising order. What they save, only a layout tells.
 *
 * @param board in strips
 * @param most numbers wanted: those that fewest boards would do of
 */
export function otherStrips(
  board: Board,
  parts: readonly PartInStrips[],
  most: number,
  rules: RowRules,
): number[] {
  const [length] = usableSize(board) ?? [0];
  const [, width] = usableSize(wholeBoard(board)) ?? [0, 0];
  const all = turningStrips(length, width, rules);
  const now = all.find(({ strips }) => strips === board.strips);
  const held = now === undefined ? [] : parts.filter(({ ways }) => hasRoom(ways, now.room, rules.margin));
  if (now === undefined || held.length === 0) return [];
  const perSet = (choice: typeof now) => stripsPerSet(length, held, choice.room, rules) / choice.strips;
  return all
    .filter(({ room }) => held.every(({ ways }) => hasRoom(ways, room, rules.margin)))
    .map((choice) => ({ strips: choice.strips, wood: perSet(choice) }))
    .filter(({ wood }) => wood < perSet(now) - 1e-9)
    .sort((a, b) => a.wood - b.wood || a.strips - b.strips)
    .slice(0, most)
    .map(({ strips }) => strips)
    .sort((a, b) => a - b);
}

/** Strips of a length that the parts of a set take when each lies in rows of its own. */
function stripsPerSet(length: number, parts: readonly PartInStrips[], room: Room, rules: RowRules): number {
  return parts.reduce((sum, { ways, copiesPerSet, mostRows }) => {
    const counts = ways.map(([along, across]) => {
      const rows = inRow(room.across, across, rules);
      return Math.min(mostRows, rows) * inSections(length, room.along, along, rules);
    });
    return sum + copiesPerSet / Math.max(...counts);
  }, 0);
}

/** Boxes of a length that have room in one row on so much wood. */
function inRow(room: number, box: number, { margin, gap }: RowRules): number {
  return Math.max(0, Math.floor((room - 2 * margin + gap) / (box + gap) + 1e-9));
}

/** Boxes that have room in one row on a strip in sections up to a length, each as long as its row. */
function inSections(length: number, longest: number, box: number, rules: RowRules): number {
  const { margin, gap, kerf } = rules;
  const each = inRow(longest, box, rules);
  if (each === 0) return 0;
  const pitch = each * (box + gap) - gap + 2 * margin + kerf;
  const full = Math.floor((length + kerf) / pitch + 1e-9);
  return full * each + inRow(length - full * pitch, box, rules);
}
