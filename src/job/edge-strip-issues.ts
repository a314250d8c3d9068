import { ringArea } from '../geometry/ring.ts';
import { boundsOf } from '../geometry/shapes.ts';
import { counted } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import { type Batch, type Demand, marginsAcross } from '../model/batch.ts';
import { boardsToTake } from '../model/boards-to-take.ts';
import type { Layout } from '../model/layout.ts';
import { partKey } from '../model/same-part.ts';
import type { Board } from '../model/stock.ts';
import { wholeBoard } from '../model/whole-board.ts';
import { layOutWith } from '../nesting/lay-out.ts';
import { ProblemBuilder } from '../nesting/problem/problem-spec.ts';
import { stockToBuyFrom } from '../stock/offers.ts';
import { blankSize, cutInto, mayBeRipped } from '../stock/ripping.ts';
import { SHORTEST } from '../stock/sections.ts';
import { woodSteps } from '../stock/wood-choice.ts';
import { formatMoney } from '../units/money.ts';
import { CLEARLY_LESS } from './clearly-less.ts';
import { waysToLie } from './stock-in-blanks.ts';

/** What a maker does whose straight edges are full: a strip is ripped off, and what is left has a straight edge again. */

/** A layout, and what it was made from. */
interface Laid {
  readonly layout: Layout;
  /** Boards for sale that were looked at; none where those at hand do. */
  readonly offers: readonly Board[];
}

/** How straight cuts are made and money is told. */
interface Telling {
  /** Width of a rip cut, mm. */
  readonly kerf: number;
  readonly currency: string;
}

/** Part of a layout, and what it takes. */
interface Taken {
  readonly unplaced: number;
  /** Cents of whole boards, or their area in mm2 where one has no price. */
  readonly amount: number;
  /** What they cost; undefined where one has no price. */
  readonly price: string | undefined;
  /** Number of whole boards. */
  readonly boards: number;
}

/**
 * A note where parts that stand on the straight edge take clearly more boards than they would of boards that are ripped into
 * strips first, each with a straight edge of its own, by a quick layout of those; or where such strips would hold copies
 * that found no place. Boards at hand alone are looked at before those for sale. Whether a wide offcut is worth more only
 * the maker can tell.
 *
 * @param batch with the boards at hand
 * @param signal ends the quick layout
 */
export async function edgeStripIssues(
  batch: Batch,
  { layout, offers }: Laid,
  { kerf, currency }: Telling,
  signal: AbortSignal | undefined,
): Promise<Issue[]> {
  const ripped = (boards: readonly Board[]) =>
    boards.map((board) => cutInto({ strips: stripsToStandOn(board, batch, kerf), lengths: 1 }, board, kerf));
  const own = ripped(batch.boards);
  const bought = offers.length > 0 ? ripped(offers) : [];
  const known = [...batch.boards, ...offers];
  const strips = [...own, ...bought].filter((board, i) => board !== known[i]);
  const demands = batch.demands.filter((demand) => strips.some((board) => givesWood(board, demand, batch)));
  const keys = new Set(demands.map(partKey));
  const wood = known.filter((board) => demands.some((demand) => givesWood(board, demand, batch)));
  const before = takenBy(keys, layout, wood, currency);
  if (strips.length === 0 || (before.unplaced === 0 && before.boards < 2)) return [];
  const pins = (batch.pins ?? []).filter((pin) => keys.has(partKey(pin)));
  const stocks = [own, ...(offers.length > 0 ? [stockToBuyFrom({ ...batch, boards: own }, bought)] : [])];
  for (const boards of stocks) {
    const options = { effort: 0, signal };
    const { layout: quick } = await layOutWith(
      new ProblemBuilder(),
      { ...batch, demands, pins, boards },
      options,
    );
    const after = takenBy(keys, quick, wood, currency);
    const more = before.unplaced - after.unplaced;
    if (more < 0 || (more === 0 && after.amount > (1 - CLEARLY_LESS) * before.amount)) continue;
    const used = strips.filter(({ id }) => quick.boards.some(({ stock }) => stock === id));
    const isOwn = offers.every(({ id }) => quick.boards.every(({ stock }) => stock !== id));
    const whose = offers.length > 0 && isOwn ? ' of your own' : '';
    if (used.length > 0) return [noteOf(before, after, used, whose)];
  }
  return [];
}

function noteOf(before: Taken, after: Taken, used: readonly Board[], whose: string): Issue {
  const more = before.unplaced - after.unplaced;
  const [now, then] = [before, after].map(({ boards, price }) => ({
    boards: counted(boards, 'board'),
    price: price === undefined ? '' : ` for ${price}`,
  }));
  const would =
    more > 0
      ? `${then.boards}${whose} would hold ${counted(more, 'more copy', 'more copies')} than ${now.boards} do as they are`
      : `${then.boards}${whose}${then.price} would do in place of ${now.boards}${now.price}`;
  const which = used.map(({ id, strips }) => `${strips} for "${id}"`).join(', ');
  return {
    kind: 'strips-take-less',
    severity: 'note',
    message: `parts stand on the straight edge of their boards, and every strip has one: ripped into strips first, ${would}, by a quick layout`,
    remedy: `Say "strips" of the board (${which}), unless wide offcuts are worth more to you.`,
    where: used.length === 1 ? { board: used[0].id } : { field: 'boards' },
  };
}

/** Number of strips with the most straight edges that all parts of the wood find room in; 1 where they find it in none. */
function stripsToStandOn(board: Board, batch: Batch, kerf: number): number {
  const own = batch.demands.filter((demand) => givesWood(board, demand, batch));
  // What is pinned is measured on the whole board.
  if ((batch.pins ?? []).some((pin) => pin.board === board.id)) return 1;
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

/** Whether a part may be cut from a board, planed or resawn if need be. */
function givesWood(board: Board, { species, thickness }: Demand, { thicknessTolerance }: Batch): boolean {
  return woodSteps([board], species, thickness, thicknessTolerance).length > 0;
}

/** Whole boards that carry these parts, for a strip is not sold: so many, what they cost, and which copies have no place. */
function takenBy(
  parts: ReadonlySet<string>,
  layout: Layout,
  stock: readonly Board[],
  currency: string,
): Taken {
  const boards = layout.boards.filter(({ placements }) =>
    placements.some((copy) => parts.has(partKey(copy))),
  );
  const taken = boardsToTake({ boards }).flatMap(({ stock: id, boards: number }) => {
    const entry = stock.find((board) => board.id === id);
    return entry === undefined ? [] : [{ number, whole: wholeBoard(entry) }];
  });
  const number = taken.reduce((sum, each) => sum + each.number, 0);
  const priced = stock.every(({ price }) => price !== undefined);
  const amount = taken.reduce(
    (sum, { number, whole }) => sum + number * (priced ? 100 * (whole.price ?? 0) : ringArea(whole.outline)),
    0,
  );
  const price = priced ? formatMoney(Math.round(amount), currency) : undefined;
  const unplaced = layout.unplaced.filter((copy) => parts.has(partKey(copy))).length;
  return { unplaced, amount, price, boards: number };
}
