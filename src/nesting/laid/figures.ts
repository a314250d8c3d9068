import { regionArea } from '../../geometry/ring.ts';
import { carriesParts } from '../../model/carries-parts.ts';
import { cutLength } from '../../model/cut-length.ts';
import type { Figures, LaidBoard, Placement, SetContent, Totals } from '../../model/layout.ts';
import { partKey } from '../../model/same-part.ts';
import { speciesKey } from '../../model/same-wood.ts';
import type { Board } from '../../model/stock.ts';
import { boardsIn, wholeBoard } from '../../model/whole-board.ts';
import { boardFeetOf } from '../../stock/lumber-measure.ts';

/** The figures of a layout, computed from what lies on the boards: areas in mm2, lengths in mm, wood in board feet. */
export function figuresOf(
  boards: readonly LaidBoard[],
  stock: readonly Board[],
  contents: readonly SetContent[],
  sets: number,
): Figures {
  const names = new Map<string, string>();
  for (const { species } of boards)
    if (!names.has(speciesKey(species))) names.set(speciesKey(species), species);
  // From entries: an assignment would lose a species named `__proto__`.
  const bySpecies = Object.fromEntries(
    [...names].map(([key, name]) => [
      name,
      totalsOf(
        boards.filter(({ species }) => speciesKey(species) === key),
        stock,
      ),
    ]),
  );
  return {
    ...totalsOf(boards, stock),
    completeSets: completeSets(boards, contents, sets),
    bySpecies,
  };
}

function totalsOf(boards: readonly LaidBoard[], stock: readonly Board[]): Totals {
  const used = boards.filter(carriesParts);
  const sum = (each: (board: LaidBoard) => number) =>
    used.reduce((total, board) => total + board.copies * each(board), 0);
  const sumParts = (each: (placement: Placement) => number) =>
    sum(({ placements }) => placements.reduce((total, placement) => total + each(placement), 0));
  const partArea = sumParts(({ region }) => regionArea(region));
  const boardArea = sum(({ usable }) => regionArea(usable));
  return {
    boards: sum(() => 1),
    parts: sumParts(() => 1),
    partArea,
    boardArea,
    yield: boardArea > 0 ? partArea / boardArea : 0,
    boardFeet: sum((board) => {
      const piece = stock.find(({ id }) => id === board.stock);
      // A strip or a slice is its share of a whole board, saw cuts included.
      return piece === undefined ? 0 : boardFeetOf(wholeBoard(piece)) * boardsIn({ ...board, copies: 1 });
    }),
    cutLength: sumParts(cutLength),
    openings: sumParts(({ region }) => region.openings.length),
  };
}

/** Sets of which every part is placed often enough. */
function completeSets(boards: readonly LaidBoard[], contents: readonly SetContent[], sets: number): number {
  const placed = new Map<string, number>();
  for (const { placements, copies } of boards) {
    for (const placement of placements) {
      const key = partKey(placement);
      placed.set(key, (placed.get(key) ?? 0) + copies);
    }
  }
  return contents.reduce(
    (least, content) =>
      Math.min(least, Math.floor((placed.get(partKey(content)) ?? 0) / content.copiesPerSet)),
    sets,
  );
}
