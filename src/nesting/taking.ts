import { unitName } from '../stock/units.ts';
import type { Group } from './groups/group.ts';
import type { LaidGroup } from './laid/laid-group.ts';
import { leftOut, lossOf } from './laid/loss.ts';
import { withLowPiles } from './laid/lower-piles.ts';
import { compareLosses, type Loss, sumOf } from './problem/compare-losses.ts';

/** What groups laid out take of the stock, and what they come to together. */

/** A group as its boards are parted, laid out. */
export interface LaidParting {
  readonly group: Group;
  readonly found: LaidGroup;
}

/** A group laid out, with the names of the boards and strips it takes from the stock: of a slice, those of its board. */
export interface Taking {
  readonly parts: readonly LaidParting[];
  readonly laid: LaidGroup;
  readonly takes: ReadonlySet<string>;
}

/** What is laid out, without what it takes. */
export function laidOf(all: readonly Taking[]): LaidGroup[] {
  return all.map(({ laid }) => laid);
}

/** Parts of a batch as they are laid out, with what they take of the stock. */
export function takingOf(parts: readonly LaidParting[]): Taking {
  const takes = new Set<string>();
  for (const { group, found } of parts) takeFrom(group, found, takes);
  const boards = parts.flatMap(({ found }) => found.boards);
  return { parts, laid: { boards, unplaced: parts.flatMap(({ found }) => found.unplaced) }, takes };
}

/** Takes the boards that carry something of a group from the stock; what a pile was lowered by stays there. */
function takeFrom({ pieces }: Group, { boards }: LaidGroup, taken: Set<string>): void {
  const used = new Set(boards.flatMap(({ id, pieces: names = [id] }) => names));
  for (const { board, units } of pieces) {
    for (const unit of units)
      if (used.has(unitName(board, unit))) taken.add(unitName(board, { ...unit, slice: undefined }));
  }
}

/** A group laid out, with its last piles no higher than the sets need. */
export function lowered(group: Group, found: LaidGroup): LaidParting {
  return { group, found: withLowPiles(group, found) };
}

/** The one that leaves less out, costs less, or takes up less; the first when they are alike. */
export function lesser(a: LaidParting, b: LaidParting): LaidParting {
  return compareLosses(lossOf(b.group, b.found), lossOf(a.group, a.found)) < 0 ? b : a;
}

/** What groups leave out together, and what their fresh boards and all their boards cost. */
export function outlay(all: readonly Taking[], isPriced: boolean): Loss {
  const losses = all.flatMap(({ parts }) => parts.map(({ group, found }) => lossOf(group, found, isPriced)));
  const [, , fresh, , cost] = sumOf(losses);
  return [...leftOut(laidOf(all)), fresh, cost];
}

/**
 * What a stopped search hands back: what it has found for the groups it came to, the quick layouts of the others.
 * Where both want one board, or the quick layouts leave less out, all groups keep their quick ones.
 */
export function atTheStop(searched: readonly Taking[], quick: readonly Taking[]): readonly Taking[] {
  const last = searched.length - 1;
  const lastIsQuick =
    last >= 0 && compareLosses(leftOut([quick[last].laid]), leftOut([searched[last].laid])) < 0;
  const done = lastIsQuick ? searched.slice(0, last) : searched;
  const mixed = [...done, ...quick.slice(done.length)];
  // What is taken, not what is sawn: one group may saw a board whole, another slices of it that have names of their own.
  const taken = mixed.flatMap(({ takes }) => [...takes]);
  const isOneEach = new Set(taken).size === taken.length;
  return isOneEach && compareLosses(leftOut(laidOf(mixed)), leftOut(laidOf(quick))) <= 0 ? mixed : quick;
}
