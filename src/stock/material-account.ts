import { listOf, number, optional, record, words } from '../issues/checks.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { BoardAreas, LaidBoard, Layout } from '../model/layout.ts';
import { boardAreasCheck } from '../model/layout-checks.ts';
import type { MaterialAccount } from '../model/material-account.ts';
import { speciesKey } from '../model/same-wood.ts';
import type { Board } from '../model/stock.ts';
import { boardsIn, wholeBoard } from '../model/whole-board.ts';
import { stockCheck } from './board-checks.ts';
import { boardFeetOf, tallyBoardFeet } from './lumber-measure.ts';

const count = number({ least: 1, most: 1_000_000, whole: true });

/** What is read of a layout here: where its parts lie is no matter of how much wood they take. */
const countedCheck = record(
  {
    boards: listOf(
      record({
        stock: words(),
        species: words(),
        copies: count,
        slices: optional(count),
        strips: optional(count),
        lengths: optional(count),
        areas: optional(boardAreasCheck),
      }),
    ),
    figures: record({ completeSets: number({ least: 0, most: 1_000_000 }) }),
  },
  'Hand in a layout of `layOut`, after `withRemains`.',
);

/**
 * The account of a layout, species by species. Areas are those that `withRemains` measures: a board of a layout that has
 * not been through it counts in board feet, with areas of 0. A board that is not among the stock counts with its areas
 * and no board feet.
 *
 * @throws FretlayError for what is no layout, and when the stock is no list of boards
 */
export function materialAccount(layout: Layout, stock: readonly Board[]): MaterialAccount[] {
  throwOnErrors([...countedCheck('layout', layout), ...stockCheck('stock', stock)]);
  const { boards, figures } = layout;
  const groups = new Map<string, LaidBoard[]>();
  for (const laid of boards) {
    const key = speciesKey(laid.species);
    groups.set(key, [...(groups.get(key) ?? []), laid]);
  }
  return [...groups.values()].map((laid) => accountOf(laid, stock, figures.completeSets));
}

function accountOf(laid: readonly LaidBoard[], stock: readonly Board[], sets: number): MaterialAccount {
  const areas = sumOfAreas(laid);
  // Each entry once, with as many whole boards as are taken of it: a slice or a strip is its share of one, saw cuts included.
  const byEntry = new Map<string, number>();
  for (const board of laid) byEntry.set(board.stock, (byEntry.get(board.stock) ?? 0) + boardsIn(board));
  const taken = [...byEntry].flatMap(([id, quantity]): Board[] => {
    const board = stock.find((one) => one.id === id);
    return board === undefined ? [] : [{ ...wholeBoard(board), quantity }];
  });
  const usedUp = areas.board - areas.keepers;
  const sound = usedUp - areas.trims - areas.defects;
  return {
    species: laid[0].species,
    areas,
    exactBoardFeet: taken.reduce((sum, board) => sum + board.quantity * boardFeetOf(board), 0),
    tallyBoardFeet: tallyBoardFeet(taken),
    yieldOfUsed: sound > 0 ? areas.parts / sound : 0,
    flawShare: areas.board > 0 ? (areas.trims + areas.defects) / areas.board : 0,
    usedPerSet: sets > 0 ? usedUp / sets : undefined,
  };
}

function sumOfAreas(laid: readonly LaidBoard[]): BoardAreas {
  const sum = (key: keyof BoardAreas) =>
    laid.reduce((total, { copies, areas }) => total + copies * (areas?.[key] ?? 0), 0);
  return {
    board: sum('board'),
    trims: sum('trims'),
    defects: sum('defects'),
    parts: sum('parts'),
    openings: sum('openings'),
    kerf: sum('kerf'),
    keepers: sum('keepers'),
    scrap: sum('scrap'),
  };
}
