import { regionArea } from '../../geometry/ring.ts';
import { carriesParts } from '../../model/carries-parts.ts';
import { cutLength } from '../../model/cut-length.ts';
import type { Figures, LaidBoard, Placement, SetContent, Totals } from '../../model/layout.ts';
import { partKey } from '../../model/same-part.ts';
import { speciesKey, woodsAmong } from '../../model/same-wood.ts';
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
  const woods = woodsAmong(boards.map(({ species }) => species));
  const used = boards.filter(carriesParts).map((board) => boardFigures(board, stock));
  // From entries: an assignment would lose a species named `__proto__`.
  const bySpecies = Object.fromEntries(
    woods.map((wood) => [wood, totalsOf(used.filter(({ species }) => species === speciesKey(wood)))]),
  );
  return { ...totalsOf(used), completeSets: completeSets(boards, contents, sets), bySpecies };
}

/** What one of the boards that are sawn alike is and holds; measured once, for all species and for its own. */
interface BoardFigures extends Omit<Totals, 'boards' | 'yield'> {
  /** As `speciesKey` has it. */
  readonly species: string;
  readonly copies: number;
}

function boardFigures(board: LaidBoard, stock: readonly Board[]): BoardFigures {
  const { species, copies, usable, placements } = board;
  const sum = (each: (placement: Placement) => number) =>
    placements.reduce((total, placement) => total + each(placement), 0);
  const piece = stock.find(({ id }) => id === board.stock);
  return {
    species: speciesKey(species),
    copies,
    parts: placements.length,
    partArea: sum(({ region }) => regionArea(region)),
    boardArea: regionArea(usable),
    // A strip or a slice is its share of a whole board, saw cuts included.
    boardFeet: piece === undefined ? 0 : boardFeetOf(wholeBoard(piece)) * boardsIn({ ...board, copies: 1 }),
    cutLength: sum(cutLength),
    openings: sum(({ region }) => region.openings.length),
  };
}

function totalsOf(used: readonly BoardFigures[]): Totals {
  const sum = (each: (board: BoardFigures) => number) =>
    used.reduce((total, board) => total + board.copies * each(board), 0);
  const partArea = sum((board) => board.partArea);
  const boardArea = sum((board) => board.boardArea);
  return {
    boards: sum(() => 1),
    parts: sum(({ parts }) => parts),
    partArea,
    boardArea,
    yield: boardArea > 0 ? partArea / boardArea : 0,
    boardFeet: sum(({ boardFeet }) => boardFeet),
    cutLength: sum((board) => board.cutLength),
    openings: sum(({ openings }) => openings),
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
