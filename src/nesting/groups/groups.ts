import { applyToRing } from '../../geometry/affine.ts';
import { regionArea } from '../../geometry/ring.ts';
import type { Region } from '../../geometry/shapes.ts';
import { boundsOf } from '../../geometry/shapes.ts';
import type { Issue } from '../../issues/issue.ts';
import type { Batch, Demand, Pin } from '../../model/batch.ts';
import { speciesKey } from '../../model/same-wood.ts';
import type { Board } from '../../model/stock.ts';
import { USUAL_CROSSCUT_KERF } from '../../stock/keep-rule.ts';
import { partingsOf, type SectionPlan, sectionReach } from '../../stock/sections.ts';
import { pilesOf, type StockUnit, unitName, unitsOf } from '../../stock/units.ts';
import { usableOf } from '../../stock/usable.ts';
import { type Candidate, candidatesFor } from '../../stock/wood-choice.ts';
import { allowedLies, turn } from '../problem/orientations.ts';
import { type PinnedCopy, pinnedElsewhere, pinnedOn, withPinned } from './pinned.ts';

/** Distance that the engine keeps between parts, mm: both outlines may lie that far beside the drawn curves. */
export function gapOf({ kerf, clearance, outlineTolerance }: Batch): number {
  return kerf + clearance + 2 * outlineTolerance;
}

/** Distance that the engine keeps from parts to edges and defects, mm. */
export function marginOf({ edgeMargin, outlineTolerance }: Batch): number {
  return edgeMargin + outlineTolerance;
}

/** Parts whose rows give lengths of section to try. */
const ROWS_TRIED = 2;

/** A section is so much longer than the row in it, mm: lengths are cut to the grid of layouts. */
const ROW_PLAY = 0.01;

/** Demands that are cut from the same boards, with those boards: one nesting problem. */
export interface Group {
  readonly species: string;
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
  readonly usable: Region;
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

/**
 * Sorts the demands of a batch by the boards they share. A board fits a demand when its species is the same and its
 * thickness can be had from it; demands sawn in stacks share boards with demands of the same height only.
 */
export function demandsByBoards(batch: Batch): { demands: readonly Demand[]; stock: readonly StockKind[] }[] {
  const kindOf = stockKinds();
  const groups = new Map<string, { demands: Demand[]; stock: StockKind[] }>();
  for (const demand of batch.demands) {
    const found = candidatesFor(batch.boards, demand.species, demand.thickness, batch.thicknessTolerance);
    const key = groupKey(batch, demand, found);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { demands: [demand], stock: found.map(kindOf) });
    else group.demands.push(demand);
  }
  return [...groups.values()].map(({ demands, stock }) => ({
    demands,
    stock: withPartings(batch, demands, stock),
  }));
}

/** Demands with the same key lie on the same boards. Wood that is thinned serves one thickness only. */
function groupKey(batch: Batch, demand: Demand, found: readonly Candidate[]): string {
  const stack = stackOf(demand);
  if (found.length === 0) return `none ${speciesKey(demand.species)} ${demand.thickness} ${stack}`;
  const boards = found.map(({ board }) => batch.boards.indexOf(board)).join(' ');
  return found[0].fit.work === 'none' ? `${boards} x${stack}` : `${boards} x${stack} to ${demand.thickness}`;
}

/** Number of boards that are fastened together at most to saw a part. */
export function stackOf(demand: Demand): number {
  return Math.max(1, Math.floor(demand.stack ?? 1));
}

/** A board of a candidate with what may be used of it; measured once for every board. */
function stockKinds(): (candidate: Candidate) => StockKind {
  const known = new Map<Board, Region>();
  return (candidate) => {
    const { board } = candidate;
    let usable = known.get(board);
    if (usable === undefined) {
      const found = usableOf(board);
      const isBoard = found.outline.length >= 3 && regionArea(found) > 0;
      usable = isBoard ? found : { outline: [], openings: [] };
      known.set(board, usable);
    }
    return { ...candidate, usable, sections: [], partings: [[]] };
  };
}

/** The boards with the ways to part them, those that rows of the demanded parts fill among them. */
export function withPartings(
  batch: Batch,
  demands: readonly Demand[],
  stock: readonly StockKind[],
): StockKind[] {
  const { reach, crosscutKerf: kerf = USUAL_CROSSCUT_KERF } = batch;
  if (reach === undefined) return [...stock];
  return stock.map((kind): StockKind => {
    if (kind.usable.outline.length === 0) return kind;
    const filled = filledLengths(batch, demands, sectionReach(kind.usable, reach));
    const partings = partingsOf(kind.usable, { reach, kerf, filled });
    return { ...kind, sections: partings[0], partings };
  });
}

/** Lengths of section up to `longest` that rows of the two parts with most wood in them fill, mm. */
export function filledLengths(batch: Batch, demands: readonly Demand[], longest: number): number[] {
  const gap = gapOf(batch);
  const margins = 2 * marginOf(batch);
  const wood = ({ region, copiesPerSet }: Demand) => copiesPerSet * regionArea(region);
  const main = [...demands].sort((a, b) => wood(b) - wood(a)).slice(0, ROWS_TRIED);
  return main.flatMap((demand): number[] => {
    const [{ degrees, turnedOver }] = allowedLies(demand.rules);
    const { minX, maxX } = boundsOf(applyToRing(turn(degrees, turnedOver), demand.region.outline));
    const pitch = maxX - minX + gap;
    const count = Math.floor((longest - margins + gap) / pitch);
    return count > 0 ? [count * pitch - gap + margins + ROW_PLAY] : [];
  });
}

/** The group with the pieces of stock that are still free. */
export function withPieces(group: Group, taken: ReadonlySet<string>): Group {
  return { ...group, pieces: group.stock.flatMap((kind) => piecesOf(group, kind, taken)) };
}

/** Name of the board that a piece is cut from, or of the first of a pile: unique in the stock. */
export function boardNameOf({ board, units }: Pick<StockPiece, 'board' | 'units'>): string {
  return unitName(board, units[0]);
}

/** Names of the boards that carry something already, on whichever of their pieces. */
export function begunBoards(pieces: readonly StockPiece[]): Set<string> {
  return new Set(pieces.filter(({ pinned }) => pinned.length > 0).map(boardNameOf));
}

function piecesOf(group: Group, kind: StockKind, taken: ReadonlySet<string>): StockPiece[] {
  const { board, usable } = kind;
  if (usable.outline.length === 0) return [];
  const free = unitsOf(board, slicesOf(kind), new Set([...taken, ...pinnedElsewhere(group, board)]));
  return pilesOf(free, group.stack).flatMap((units): StockPiece[] => {
    const pinned = pinnedOn(group, board, units);
    const sections = group.parted?.get(boardNameOf({ board, units })) ?? kind.sections;
    if (sections.length === 0)
      return [{ kind, board, units, section: undefined, sections, ...withPinned(usable, pinned) }];
    return sections
      .filter((section) => section.usable.outline.length > 0)
      .map((section) => {
        const inside = pinned.filter(({ middle }) => middle >= section.from && middle <= section.to);
        return { kind, board, units, section, sections, ...withPinned(section.usable, inside) };
      });
  });
}

/** Number of slices a board is resawn into; undefined when it is not. */
export function slicesOf({ fit }: StockKind): number | undefined {
  return fit.work === 'resaw' ? fit.slices : undefined;
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
