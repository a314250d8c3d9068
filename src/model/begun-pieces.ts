import { withoutLetter } from './boards-to-take.ts';
import type { LaidBoard } from './layout.ts';

/** A board, or blank where boards are cut up first, that carries something. */
interface BegunPiece {
  /** The first layout on it: what is done to a board before it is resawn is told by any of its slices. */
  readonly laid: LaidBoard;
  readonly slices: number;
  /** Slices of it that carry something, where it is resawn. */
  readonly taken: number;
  /** Number of such boards: several that are sawn alike without names of their own are in copies of one name. */
  readonly begun: number;
}

/** The boards of one entry, or blanks where they are cut up first, that carry something. */
export function begunPieces(boards: readonly LaidBoard[]): BegunPiece[] {
  const pieces = new Map<string, { readonly laid: LaidBoard; taken: number }>();
  for (const laid of boards) {
    const { id, copies, pieces: names = [id], slices = 1 } = laid;
    for (const name of names) {
      const key = slices > 1 ? withoutLetter(name) : name;
      const piece = pieces.get(key) ?? { laid, taken: 0 };
      piece.taken += copies / names.length;
      pieces.set(key, piece);
    }
  }
  return [...pieces.values()].map(({ laid, taken }) => {
    const { slices = 1 } = laid;
    return { laid, slices, taken, begun: Math.ceil(taken / slices) };
  });
}
