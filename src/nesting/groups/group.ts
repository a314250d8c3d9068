import { ROUNDING_OF_SIDES } from '../../geometry/integer-grid.ts';
import type { Region } from '../../geometry/shapes.ts';
import type { Batch, Demand, Pin } from '../../model/batch.ts';
import type { Board } from '../../model/stock.ts';
import type { SectionPlan } from '../../stock/sections.ts';
import { type StockUnit, unitName } from '../../stock/units.ts';
import type { Candidate } from '../../stock/wood-choice.ts';
import type { PinnedCopy } from './pinned.ts';
import type { StraightEdges } from './straight-edges.ts';

/** What belongs together in a batch: demands, and the boards they are cut from. */

/** Demands that are cut from the same boards, with those boards: one nesting problem. */
export interface Group {
  readonly species: string;
  /** Thickness of the finished parts, mm. */
  readonly thickness: number;
  readonly demands: readonly Demand[];
  /** Boards sawn at once; every placement counts that many copies. */
  readonly stack: number;
  /** Sets laid out: each stands for `stack` sets of the batch. */
  readonly sets: number;
  /** Number of the first set of the batch in this group, from 1. */
  readonly firstSet: number;
  /** Number of the last set it is for: what its stacks give beyond that is to spare. */
  readonly lastSet: number;
  readonly stock: readonly StockKind[];
  /** All pins of the batch: a board with pins of other parts is none for this group. */
  readonly pins: readonly Pin[];
  readonly pieces: readonly StockPiece[];
  /** Sections of single boards, by the name of the board; the others are parted as their kind says. */
  readonly parted?: ReadonlyMap<string, readonly SectionPlan[]>;
}

/** One board entry as it serves a group. */
export interface StockKind extends Candidate {
  /** True when only those of its boards are taken that carry pinned copies: the others ask for more work than need be. */
  readonly onlyPinned?: boolean;
  /** True for boards that ask for less work than others of the group, and so are filled before those. */
  readonly first?: boolean;
  readonly usable: Region;
  readonly edges: StraightEdges;
  /** The sections it is cross-cut to; none when it stays whole. */
  readonly sections: readonly SectionPlan[];
  /** Ways to part it into sections that are worth a try, `sections` the first; one when it stays whole. */
  readonly partings: readonly (readonly SectionPlan[])[];
}

/** What becomes one container of the engine: a board, a pile of boards, or a section of either. */
export interface StockPiece {
  readonly kind: StockKind;
  readonly board: Board;
  /** The boards or slices of the pile; one when nothing is stacked. */
  readonly units: readonly StockUnit[];
  readonly section: SectionPlan | undefined;
  /** All sections of its board; none when it stays whole. */
  readonly sections: readonly SectionPlan[];
  /** What may be used of the piece. */
  readonly usable: Region;
  /** Copies that lie on it already. */
  readonly pinned: readonly PinnedCopy[];
}

/** Number of boards that are fastened together at most to saw a part. */
export function highestStack(demand: Demand): number {
  return Math.max(1, Math.floor(demand.stack ?? 1));
}

/**
 * True for a board that is filled before others of the stock: one that asks for less work, or where all ask for alike, one
 * that the maker wants filled first.
 */
export function isFilledFirst({ first, board }: StockKind, stock: readonly StockKind[]): boolean {
  return stock.some((kind) => kind.first === true) ? first === true : board.takenFirst === true;
}

/**
 * Number of slices a board is resawn into; undefined when it is not, or is too thin for a second one: it is then one
 * piece that the surplus is sawn off from, and has no letter.
 */
export function slicesOf({ fit }: StockKind): number | undefined {
  return fit.work === 'resaw' && fit.slices > 1 ? fit.slices : undefined;
}

/** Name of the board that a piece is cut from, or of the first of a pile: unique in the stock. */
export function boardNameOf({ board, units }: Pick<StockPiece, 'board' | 'units'>): string {
  return unitName(board, units[0]);
}

/** Names of the boards that carry something already, on whichever of their pieces. */
export function begunBoards(pieces: readonly StockPiece[]): Set<string> {
  return new Set(pieces.filter(({ pinned }) => pinned.length > 0).map(boardNameOf));
}

/** The wood of a group as a person says it, `black walnut 19 mm`. */
export function woodName(species: string, thickness: number): string {
  return `${species.trim()} ${Number(thickness.toFixed(2))} mm`;
}

/**
 * Distance that the engine keeps between parts, mm: both outlines may lie that far beside the drawn curves. Where all is
 * straight, rounding to the grid must not keep out the last of a row that fills its board to the margins.
 */
export function gapOf({ kerf, clearance, outlineTolerance }: Batch): number {
  return outlineTolerance > 0
    ? kerf + clearance + 2 * outlineTolerance
    : Math.max(0, kerf + clearance - ROUNDING_OF_SIDES);
}
