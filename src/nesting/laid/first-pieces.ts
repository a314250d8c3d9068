import type { StockUnit } from '../../stock/units.ts';
import { begunBoards, boardNameOf, type StockPiece, slicesOf } from '../groups/group.ts';

/**
 * Strips and slices come several from one board, and the search does not care which of them it takes. They are given
 * out anew from the first on, so that no more boards are ripped or resawn, or bought, than have to be.
 *
 * @param used names of the boards, strips and slices that carry something, in their order
 * @returns the units to take for each name whose own are not the right ones
 */
export function firstPieces(
  pieces: readonly StockPiece[],
  used: readonly string[],
): ReadonlyMap<string, readonly StockUnit[]> {
  const begun = begunBoards(pieces);
  const free = new Map<StockPiece['kind'], Map<string, readonly StockUnit[]>>();
  for (const piece of pieces) {
    const name = boardNameOf(piece);
    const isOne = (piece.board.strips ?? 1) * (slicesOf(piece.kind) ?? 1) === 1;
    // What is pinned to a board stays on that board.
    if (isOne || begun.has(name)) continue;
    const ofKind = free.get(piece.kind) ?? new Map<string, readonly StockUnit[]>();
    free.set(piece.kind, ofKind.set(name, piece.units));
  }
  const taken = new Map<string, readonly StockUnit[]>();
  for (const ofKind of free.values()) {
    const inOrder = [...ofKind.values()];
    const own = used.filter((name) => ofKind.has(name));
    for (const [i, name] of own.entries()) taken.set(name, inOrder[i]);
  }
  return taken;
}
