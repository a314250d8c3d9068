import type { Demand } from '../../model/batch.ts';
import type { LaidBoard, Placement } from '../../model/layout.ts';
import { isSamePart } from '../../model/same-part.ts';
import { boardNameOf, type Group } from '../groups/group.ts';
import type { LaidGroup } from './laid-group.ts';

/**
 * Piles sawn lower than the others. Fourteen sets in stacks of three are five copies, and one set is to spare: when
 * the last pile carries one copy, two boards make it as high as is needed. A pile that carries more than there is to
 * spare stays as high as the rest, for the copies beside the last one need its boards.
 */

/** The layout of a group with its piles as low as the wanted sets allow, and its sets numbered accordingly. */
export function withLowPiles(group: Group, laid: LaidGroup): LaidGroup {
  if (group.stack < 2) return laid;
  // Where copies are missing, nothing is to spare.
  const placed = laid.boards.reduce((sum, { placements }) => sum + placements.length, 0);
  const wanted = group.demands.reduce((sum, { copiesPerSet }) => sum + Math.floor(copiesPerSet), 0);
  if (placed < group.sets * wanted) return laid;
  const rows = group.demands.map((demand) => new SetRows(group, demand));
  const pinned = new Set(group.pieces.filter((piece) => piece.pinned.length > 0).map(boardNameOf));
  const fewestFirst = [...laid.boards].sort((a, b) => a.placements.length - b.placements.length);
  const layersOff = new Map<string, number>();
  for (const board of fewestFirst) {
    // A pinned copy names its board, which has to stay in the pile.
    if (pinned.has(board.id)) continue;
    let off = board.copies - 1;
    const counts = rows.map(({ demand }) => board.placements.filter((one) => isSamePart(one, demand)).length);
    while (off > 0 && !rows.every((row, i) => row.canTake(off, counts[i]))) off--;
    if (off === 0) continue;
    for (const [i, row] of rows.entries()) row.take(off, counts[i]);
    layersOff.set(board.id, off);
  }
  if (layersOff.size === 0) return laid;
  const lowered = laid.boards.map((board) => lower(board, layersOff.get(board.id) ?? 0));
  return { ...laid, boards: renumbered(rows, lowered) };
}

function lower(board: LaidBoard, off: number): LaidBoard {
  if (off === 0) return board;
  const copies = board.copies - off;
  return { ...board, copies, pieces: board.pieces?.slice(0, copies) };
}

/** One of the rows of a part: a copy of it for every set, one after the other. */
interface SetRow {
  /** Sets it makes beyond those that are wanted. */
  spare: number;
  /** How high its lower copies lie, boards. */
  readonly low: number[];
  /** Number of the next set to make. */
  next: number;
  /** Copies of the full height still to come. */
  full: number;
}

/** The copies of one part in rows, as many as a set has copies of it: what a row has to spare its copies may lose. */
class SetRows {
  readonly demand: Demand;
  private readonly height: number;
  private readonly rows: readonly SetRow[];

  constructor({ stack, sets, firstSet, lastSet }: Group, demand: Demand) {
    this.demand = demand;
    this.height = stack;
    const spare = stack * sets - (lastSet - firstSet + 1);
    this.rows = Array.from(
      { length: Math.floor(demand.copiesPerSet) },
      (): SetRow => ({ spare, low: [], next: firstSet, full: sets }),
    );
  }

  /** Whether `count` copies can do with `off` layers less. */
  canTake(off: number, count: number): boolean {
    return count <= this.rows.reduce((sum, { spare }) => sum + Math.floor(spare / off), 0);
  }

  /** Lowers `count` copies, each in the row with most to spare, so that the rows stay alike. */
  take(off: number, count: number): void {
    for (let i = 0; i < count; i++) {
      const row = this.rows.reduce((most, one) => (one.spare > most.spare ? one : most));
      row.spare -= off;
      row.low.push(this.height - off);
      row.full--;
    }
  }

  /** The set that the next copy of a height begins with; copies have to come in the order of the sets. */
  number(height: number): number {
    const isFull = height === this.height;
    const open = this.rows.filter(({ full, low }) => (isFull ? full > 0 : low.includes(height)));
    const row = open.reduce((least, one) => (one.next < least.next ? one : least));
    const set = row.next;
    row.next += height;
    if (isFull) row.full--;
    else row.low.splice(row.low.indexOf(height), 1);
    return set;
  }
}

/** The sets numbered anew: full piles first, along the boards, then the lower ones, each for the sets it is high. */
function renumbered(rows: readonly SetRows[], boards: readonly LaidBoard[]): LaidBoard[] {
  const setOf = new Map<Placement, number>();
  for (const row of rows) {
    const copies = boards
      .flatMap(({ copies, placements }) => placements.map((placement) => ({ height: copies, placement })))
      .filter(({ placement }) => isSamePart(placement, row.demand))
      .sort((a, b) => b.height - a.height || a.placement.set - b.placement.set);
    for (const { height, placement } of copies) setOf.set(placement, row.number(height));
  }
  return boards.map((board) => ({
    ...board,
    placements: board.placements.map((placement) => ({ ...placement, set: setOf.get(placement)! })),
  }));
}
