import { regionArea } from '../geometry/ring.ts';
import type { Region } from '../geometry/shapes.ts';
import type { Issue } from '../issues/issue.ts';
import type { Batch, Demand } from '../model/batch.ts';
import type { Board } from '../model/stock.ts';
import { speciesKey } from '../stock/same-wood.ts';
import { usableOf } from '../stock/usable.ts';

/** Demands that are cut from the same boards, with those boards: one nesting problem. */
export interface Group {
  readonly species: string;
  readonly thickness: number;
  readonly demands: readonly Demand[];
  readonly pieces: readonly StockPiece[];
}

/** One single board of the stock. */
export interface StockPiece {
  readonly board: Board;
  /** Which of the boards of its kind, from 1. */
  readonly number: number;
  readonly usable: Region;
}

/** Boards of one kind that a problem looks at; more than any batch of a small shop uses. */
const MOST_OF_A_KIND = 60;

/**
 * Sorts the demands of a batch into groups that share their boards. A board fits a demand when its species is the
 * same and its thickness within the batch's tolerance.
 */
export function groupDemands(batch: Batch): Group[] {
  const usable = new Map(batch.boards.map((board) => [board, usableOf(board)]));
  const groups = new Map<string, { demands: Demand[]; boards: Board[] }>();
  for (const demand of batch.demands) {
    const boards = batch.boards.filter((board) => fits(board, demand, batch.thicknessTolerance));
    const key =
      boards.length > 0
        ? boards.map((board) => batch.boards.indexOf(board)).join(' ')
        : `none ${speciesKey(demand.species)} ${demand.thickness}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { demands: [demand], boards });
    else group.demands.push(demand);
  }
  return [...groups.values()].map(({ demands, boards }) => ({
    species: demands[0].species,
    thickness: demands[0].thickness,
    demands,
    pieces: boards.flatMap((board) => piecesOf(board, usable.get(board)!)),
  }));
}

function fits(board: Board, demand: Demand, tolerance: number): boolean {
  return (
    speciesKey(board.species) === speciesKey(demand.species) &&
    Math.abs(board.thickness - demand.thickness) <= tolerance + 1e-9
  );
}

function piecesOf(board: Board, usable: Region): StockPiece[] {
  if (usable.outline.length < 3 || regionArea(usable) <= 0) return [];
  const count = Math.min(MOST_OF_A_KIND, Math.max(0, Math.floor(board.quantity)));
  return Array.from({ length: count }, (_, i) => ({ board, number: i + 1, usable }));
}

/** A warning for every group without a single board. */
export function boardlessIssues(groups: readonly Group[]): Issue[] {
  return groups
    .filter(({ pieces }) => pieces.length === 0)
    .flatMap(({ demands }) => demands)
    .map((demand) => ({
      kind: 'no-board-of-this-wood',
      severity: 'warning',
      message: `there is no board of ${woodName(demand.species, demand.thickness)}`,
      remedy: 'Add such a board to the stock, or change the species or thickness of the layer.',
      where: { layer: demand.layer, part: demand.part },
    }));
}

/** The wood of a group as a person says it, `black walnut 19 mm`. */
export function woodName(species: string, thickness: number): string {
  return `${species.trim()} ${Number(thickness.toFixed(2))} mm`;
}
