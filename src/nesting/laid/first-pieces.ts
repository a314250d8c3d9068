import type { LaidBoard } from '../../model/layout.ts';
import { type StockUnit, unitName } from '../../stock/units.ts';
import { begunBoards, boardNameOf, type StockPiece } from '../groups/group.ts';

/**
 * The search does not care which of several boards, strips or slices alike it takes. They are given out anew from the first
 * on: strips and slices come several from one board, so that no more of them are ripped or resawn, or bought, than have to
 * be; and whoever takes two of three boards alike looks for a first and a second one.
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
    // What is pinned to a board stays on that board.
    if (begun.has(name)) continue;
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

/** Laid boards, each as one of the first that are alike: what lies on them and how they are cut stays. */
export function onFirstPieces(pieces: readonly StockPiece[], laid: readonly LaidBoard[]): LaidBoard[] {
  const first = firstPieces(
    pieces,
    laid.map(({ id }) => id),
  );
  const boards = new Map(pieces.map((piece) => [boardNameOf(piece), piece.board]));
  return laid.map((own) => {
    const board = boards.get(own.id);
    const units = first.get(own.id);
    if (board === undefined || units === undefined) return own;
    const names = units.map((unit) => unitName(board, unit));
    return { ...own, id: names[0], pieces: names };
  });
}
