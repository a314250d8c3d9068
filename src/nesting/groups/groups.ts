import { regionArea } from '../../geometry/ring.ts';
import type { Issue } from '../../issues/issue.ts';
import type { Batch, Demand } from '../../model/batch.ts';
import type { LaidBoard, Layout } from '../../model/layout.ts';
import { partKey } from '../../model/same-part.ts';
import { speciesKey } from '../../model/same-wood.ts';
import type { Board } from '../../model/stock.ts';
import { usableOf } from '../../stock/usable.ts';
import { type Candidate, woodSteps } from '../../stock/wood-choice.ts';
import { type Group, highestStack, type StockKind, woodName } from './group.ts';
import { withPartings } from './partings.ts';
import { pinnedBoards } from './pinned.ts';
import { straightEdgesOf } from './straight-edges.ts';

/** What is laid out already and stays. */
export interface LaidAlready {
  /** Demands of the batch of which every copy has its place. */
  readonly demands: readonly Demand[];
  /** The boards they lie on, with nothing else on them. */
  readonly boards: readonly LaidBoard[];
}

/** The demands of a batch that are not laid out already. */
export function stillToLay({ demands }: Batch, already: LaidAlready): Demand[] {
  const laid = new Set(already.demands.map(partKey));
  return demands.filter((demand) => !laid.has(partKey(demand)));
}

/** Demands with the boards they share. */
export interface DemandsOnBoards {
  readonly demands: readonly Demand[];
  /** The boards that ask for least work, and those that something is pinned to. */
  readonly stock: readonly StockKind[];
  /** The boards to go on to, step by step, where copies find no place on those: each step holds those before it. */
  readonly further: readonly (readonly StockKind[])[];
}

/**
 * Sorts the demands of a batch by the boards they share. A board fits a demand when its species is the same and its
 * thickness can be had from it; demands sawn in stacks share boards with demands of the same height only.
 */
export function demandsByBoards(batch: Batch): DemandsOnBoards[] {
  const kindOf = stockKinds();
  return sharingBoards(batch).map(({ demands, found }) => {
    const stock = found.map(kindOf);
    return {
      demands,
      stock: withPartings(batch, demands, stock),
      further: furtherStock(batch, demands, stock).map((step) =>
        withPartings(batch, demands, step.map(kindOf)),
      ),
    };
  });
}

/**
 * The demands of a batch that are wholly laid out, with their boards, where all that share those boards are: what is
 * decided of other wood is no matter of theirs.
 */
export function laidWhole(
  batch: Batch,
  { boards, unplaced }: Pick<Layout, 'boards' | 'unplaced'>,
): LaidAlready {
  const short = new Set(unplaced.map(partKey));
  const demands = sharingAsLaid(batch, boards)
    .filter((group) => !group.some((demand) => short.has(partKey(demand))))
    .flat();
  const whole = new Set(demands.map(partKey));
  // Groups share no board, so one copy tells whose board it is.
  const own = boards.filter(({ placements }) => placements.some((copy) => whole.has(partKey(copy))));
  return { demands, boards: own };
}

/**
 * The demands of a batch by the boards they share as they are laid out: where no stack came about, what was to be stacked may lie
 * beside parts that were not, and is of one group with them.
 */
export function sharingAsLaid(batch: Batch, boards: readonly LaidBoard[]): readonly Demand[][] {
  let groups = sharingBoards(batch).map(({ demands }) => demands);
  for (const { placements } of boards) {
    const parts = new Set(placements.map(partKey));
    const isOn = (demands: readonly Demand[]) => demands.some((demand) => parts.has(partKey(demand)));
    const [first, ...others] = groups.filter(isOn);
    if (others.length === 0) continue;
    groups = groups
      .filter((group) => !others.includes(group))
      .map((group) => (group === first ? [first, ...others].flat() : group));
  }
  return groups;
}

/** The groups of a batch: demands, and the boards of least work that all of them fit. */
export function sharingBoards(batch: Batch): { demands: Demand[]; found: readonly GroupCandidate[] }[] {
  const groups = new Map<string, { demands: Demand[]; found: readonly GroupCandidate[] }>();
  for (const demand of batch.demands) {
    const found = candidatesOf(batch, demand);
    const key = groupKey(batch, demand, found);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { demands: [demand], found });
    else group.demands.push(demand);
  }
  return [...groups.values()];
}

/** The thickness of the finished parts of a group, mm: in the middle, where they differ within the tolerance. */
export function commonThickness(demands: readonly Demand[]): number {
  const all = demands.map(({ thickness }) => thickness);
  return (Math.min(...all) + Math.max(...all)) / 2;
}

/** The stock with boards that have to be planed, then with those to be resawn too; those before them are filled first. */
function furtherStock(
  batch: Batch,
  demands: readonly Demand[],
  stock: readonly GroupCandidate[],
): GroupCandidate[][] {
  const least = stock.filter(({ onlyPinned }) => onlyPinned !== true);
  if (least.length === 0) return [];
  const { boards, thicknessTolerance } = batch;
  const wider: GroupCandidate[][] = [];
  let sofar = least.map(({ board, fit }): GroupCandidate => ({ board, fit, first: true }));
  for (const step of woodSteps(boards, demands[0].species, commonThickness(demands), thicknessTolerance)) {
    const more = step.filter(
      ({ board, fit }) => fit.work !== 'none' && !least.some((known) => known.board === board),
    );
    if (more.length === 0) continue;
    const pinned = stock.filter(
      ({ board, onlyPinned }) => onlyPinned === true && !more.some((one) => one.board === board),
    );
    wider.push([
      ...sofar,
      ...more,
      ...pinned.filter(({ board }) => !sofar.some((one) => one.board === board)),
    ]);
    sofar = [...sofar, ...more];
  }
  return wider;
}

/** A board that a group may take, or of whose boards it takes only those that carry pinned copies. */
type GroupCandidate = Candidate & Pick<StockKind, 'onlyPinned' | 'first'>;

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
  const stack = highestStack(demand);
  if (found.length === 0) return `none ${speciesKey(demand.species)} ${demand.thickness} ${stack}`;
  const boards = found.map(({ board }) => batch.boards.indexOf(board)).join(' ');
  return found.every(({ fit }) => fit.work === 'none')
    ? `${boards} x${stack}`
    : `${boards} x${stack} to ${demand.thickness}`;
}

/** A board of a candidate with what may be used of it; measured once for every board. */
function stockKinds(): (candidate: GroupCandidate) => StockKind {
  const known = new Map<Board, Pick<StockKind, 'usable' | 'edges'>>();
  return (candidate) => {
    const { board } = candidate;
    let measured = known.get(board);
    if (measured === undefined) {
      const found = usableOf(board);
      const isBoard = found.outline.length >= 3 && regionArea(found) > 0;
      const usable = isBoard ? found : { outline: [], openings: [] };
      measured = { usable, edges: straightEdgesOf(board, usable) };
      known.set(board, measured);
    }
    return { ...candidate, ...measured, sections: [], partings: [[]] };
  };
}

/**
 * A warning for every part without a place of whose wood there is not a single board. Where there are some that others
 * have, as by a pin, the reason of its copies tells.
 */
export function boardlessIssues(groups: readonly Group[], { unplaced }: Pick<Layout, 'unplaced'>): Issue[] {
  const short = new Set(unplaced.map(partKey));
  return groups
    .filter(({ stock }) => stock.length === 0)
    .flatMap(({ demands }) => demands)
    .filter((demand) => short.has(partKey(demand)))
    .map((demand) => ({
      kind: 'no-board-of-this-wood',
      severity: 'warning',
      message: `there is no board of ${woodName(demand.species, demand.thickness)}`,
      remedy: 'Add such a board to the stock, or change the species or thickness of the layer.',
      where: { layer: demand.layer, part: demand.part },
    }));
}
