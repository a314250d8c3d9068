import { boundsOf } from '../geometry/shapes.ts';
import { type Batch, type Demand, marginsAcross } from '../model/batch.ts';
import { partKey } from '../model/same-part.ts';
import type { Board } from '../model/stock.ts';
import { otherStrips } from '../stock/other-strips.ts';
import { blankSize, mayBeRipped } from '../stock/ripping.ts';
import { SHORTEST } from '../stock/sections.ts';
import { isStraightAbove } from '../stock/sound-edges.ts';
import { woodSteps } from '../stock/wood-choice.ts';
import { waysToLie, waysWithin } from './stock-in-blanks.ts';

/**
 * What a maker does whose boards hold too little as they are: one whose straight edge is full is ripped, for what is left has a
 * straight edge again, and one that is ripped for the throat is ripped into strips that his parts fill.
 */

/** Other numbers of strips that are laid out for a board ripped for the throat, at most. */
const MOST_TRIED = 4;

/** One wood: the parts that share boards, and all those boards. */
export interface Wood {
  readonly batch: Batch;
  readonly offers: readonly Board[];
}

/** What boards are ripped into to see what they then hold: a number of strips for some of them. */
export interface StripTrial {
  readonly strips: ReadonlyMap<Board, number>;
  /** What of the boards asks for it. */
  readonly why: 'straight edges' | 'throat';
}

/** What is worth a quick layout: boards in strips with straight edges of their own, or in other numbers of strips that turn. */
export function stripTrials(boards: readonly Board[], batch: Batch, kerf: number): StripTrial[] {
  const ripped = boards.filter(({ strips }) => strips !== undefined);
  return [...trialsToStand(boards, batch, kerf), ...trialsInThroat(ripped, batch, kerf)];
}

/** The batch parted by wood: parts and boards that share none with the others. */
export function woodsOf(batch: Batch, offers: readonly Board[]): Wood[] {
  const known = [...batch.boards, ...offers];
  let woods: { demands: readonly Demand[]; boards: ReadonlySet<Board> }[] = [];
  for (const demand of batch.demands) {
    const own = known.filter((board) => givesWood(board, demand, batch));
    const sharing = woods.filter(({ boards }) => own.some((board) => boards.has(board)));
    const joined = {
      demands: [...sharing.flatMap(({ demands }) => demands), demand],
      boards: new Set([...sharing.flatMap(({ boards }) => [...boards]), ...own]),
    };
    woods = [...woods.filter((wood) => !sharing.includes(wood)), joined];
  }
  return woods.map(({ demands, boards }) => {
    const keys = new Set(demands.map(partKey));
    const pins = (batch.pins ?? []).filter((pin) => keys.has(partKey(pin)));
    const own = batch.boards.filter((board) => boards.has(board));
    return {
      batch: { ...batch, demands, boards: own, pins },
      offers: offers.filter((board) => boards.has(board)),
    };
  });
}

/** All boards with parts on their straight edges ripped into as many strips as those have room in; none where there are no such. */
function trialsToStand(boards: readonly Board[], batch: Batch, kerf: number): StripTrial[] {
  const strips = new Map<Board, number>();
  for (const board of boards) {
    const count = stripsToStandOn(board, batch, kerf);
    if (count > 1) strips.set(board, count);
  }
  return strips.size === 0 ? [] : [{ strips, why: 'straight edges' }];
}

/** Number of strips with the most straight edges that all parts of the wood find room in; 1 where they find it in none. */
function stripsToStandOn(board: Board, batch: Batch, kerf: number): number {
  const own = batch.demands.filter((demand) => givesWood(board, demand, batch));
  if (board.strips !== undefined || !mayBeRipped(board) || !own.some(({ rules }) => rules.restEdge)) return 1;
  const { minY, maxY } = boundsOf(board.outline);
  const heights = own.map((demand) => {
    const across = Math.min(...waysToLie(demand).map(([, height]) => height));
    return across + marginsAcross(demand.rules, batch.edgeMargin);
  });
  const least = Math.max(SHORTEST, ...heights);
  let strips = 1;
  while (blankSize(maxY - minY, strips + 1, kerf) >= least) strips++;
  return strips;
}

/** All boards that are ripped, each into the first of the other numbers that are worth a layout, then each into the second, and so on. */
function trialsInThroat(ripped: readonly Board[], batch: Batch, kerf: number): StripTrial[] {
  const { reach = { throat: undefined, longest: undefined }, edgeMargin: margin } = batch;
  const rules = { reach, kerf, margin, gap: batch.kerf + batch.clearance };
  const choices = ripped.map((board) => {
    const own = batch.demands.filter((demand) => givesWood(board, demand, batch));
    const parts = own.map((demand) => ({
      ways: waysWithin(demand, margin),
      copiesPerSet: demand.copiesPerSet,
      mostRows: demand.rules.restEdge ? (isStraightAbove(board) ? 2 : 1) : Number.POSITIVE_INFINITY,
    }));
    return otherStrips(board, parts, MOST_TRIED, rules);
  });
  const most = Math.max(0, ...choices.map(({ length }) => length));
  return Array.from({ length: most }, (_, n): StripTrial => {
    const strips = ripped.flatMap((board, i) =>
      choices[i][n] === undefined ? [] : [[board, choices[i][n]] as const],
    );
    return { strips: new Map(strips), why: 'throat' };
  });
}

/** Whether a part may be cut from a board, planed or resawn if need be. */
function givesWood(board: Board, { species, thickness }: Demand, { thicknessTolerance }: Batch): boolean {
  return woodSteps([board], species, thickness, thicknessTolerance).length > 0;
}
