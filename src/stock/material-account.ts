import type { BoardAreas, LaidBoard, Layout } from '../model/layout.ts';
import type { Board } from '../model/stock.ts';
import { boardFeetOf, tallyBoardFeet } from './lumber-measure.ts';
import { speciesKey } from './same-wood.ts';

/** Where the wood of a batch goes. Yield is what the layout makes of sound wood; flaws are told apart from it. */
export interface MaterialAccount {
  readonly species: string;
  /** Areas of all boards taken, slices counted each, mm2. */
  readonly areas: BoardAreas;
  /** Board feet of the boards taken: exact by volume, and by the tally rule. */
  readonly exactBoardFeet: number;
  readonly tallyBoardFeet: number;
  /** Parts as a share of the sound wood that was not kept: how well the layout fills what it uses up. */
  readonly yieldOfUsed: number;
  /** Share of the boards lost to defects and trims, which no layout can mend. */
  readonly flawShare: number;
  /** Area used up for one complete set, keepers credited, mm2; undefined without a complete set. */
  readonly usedPerSet: number | undefined;
}

/** The account of a layout, species by species. Boards without measured areas are left out. */
export function materialAccount({ boards, figures }: Layout, stock: readonly Board[]): MaterialAccount[] {
  const groups = new Map<string, LaidBoard[]>();
  for (const laid of boards) {
    const key = speciesKey(laid.species);
    groups.set(key, [...(groups.get(key) ?? []), laid]);
  }
  return [...groups.values()].map((laid) => accountOf(laid, stock, figures.completeSets));
}

function accountOf(laid: readonly LaidBoard[], stock: readonly Board[], sets: number): MaterialAccount {
  const areas = sumOfAreas(laid);
  // Each entry once, with as many boards as are taken of it; a slice is its share of a board.
  const taken = laid.flatMap(({ stock: id, copies, slices = 1 }): Board[] => {
    const board = stock.find((one) => one.id === id);
    return board === undefined ? [] : [{ ...board, quantity: copies / slices }];
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
