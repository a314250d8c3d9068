import { regionArea } from '../../geometry/ring.ts';
import type { Region } from '../../geometry/shapes.ts';
import type { Issue } from '../../issues/issue.ts';
import type { Batch, Demand } from '../../model/batch.ts';
import { speciesKey } from '../../model/same-wood.ts';
import type { Board } from '../../model/stock.ts';
import { usableOf } from '../../stock/usable.ts';
import { type Candidate, woodSteps } from '../../stock/wood-choice.ts';
import { type Group, type StockKind, stackOf, woodName } from './group.ts';
import { withPartings } from './partings.ts';
import { pinnedBoards } from './pinned.ts';

/**
 * Sorts the demands of a batch by the boards they share. A board fits a demand when its species is the same and its
 * thickness can be had from it; demands sawn in stacks share boards with demands of the same height only.
 */
export function demandsByBoards(batch: Batch): { demands: readonly Demand[]; stock: readonly StockKind[] }[] {
  const kindOf = stockKinds();
  const groups = new Map<string, { demands: Demand[]; stock: StockKind[] }>();
  for (const demand of batch.demands) {
    const found = candidatesOf(batch, demand);
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

/** A board that a group may take, or of whose boards it takes only those that carry pinned copies. */
type GroupCandidate = Candidate & Pick<StockKind, 'onlyPinned'>;

/** The boards that ask for least work, and those that copies of this wood are pinned to, whatever work they ask for. */
function candidatesOf(batch: Batch, { species, thickness }: Demand): GroupCandidate[] {
  const [first = [], ...others] = woodSteps(batch.boards, species, thickness, batch.thicknessTolerance);
  const pinned = pinnedBoards(batch, species, thickness);
  return [
    ...first,
    ...others
      .flat()
      .filter(({ board }) => pinned.has(board.id))
      .map((candidate) => ({ ...candidate, onlyPinned: true })),
  ];
}

/** Demands with the same key lie on the same boards. Wood that is thinned serves one thickness only. */
function groupKey(batch: Batch, demand: Demand, found: readonly GroupCandidate[]): string {
  const stack = stackOf(demand);
  if (found.length === 0) return `none ${speciesKey(demand.species)} ${demand.thickness} ${stack}`;
  const boards = found.map(({ board }) => batch.boards.indexOf(board)).join(' ');
  return found.every(({ fit }) => fit.work === 'none')
    ? `${boards} x${stack}`
    : `${boards} x${stack} to ${demand.thickness}`;
}

/** A board of a candidate with what may be used of it; measured once for every board. */
function stockKinds(): (candidate: GroupCandidate) => StockKind {
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
