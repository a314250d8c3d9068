import { ringArea } from '../geometry/ring.ts';
import { counted } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import type { Batch } from '../model/batch.ts';
import { boardsToTake } from '../model/boards-to-take.ts';
import type { Layout } from '../model/layout.ts';
import { partKey } from '../model/same-part.ts';
import type { Board } from '../model/stock.ts';
import { wholeBoard } from '../model/whole-board.ts';
import { layOutWith } from '../nesting/lay-out.ts';
import { ProblemBuilder } from '../nesting/problem/problem-spec.ts';
import { woodBounds } from '../nesting/wood-bounds.ts';
import { stockToBuyFrom } from '../stock/offers.ts';
import { rippedAnew } from '../stock/ripping.ts';
import { formatMoney } from '../units/money.ts';
import { CLEARLY_LESS } from './clearly-less.ts';
import { type StripTrial, stripTrials, type Wood, woodsOf } from './strip-trials.ts';

/** What is told of boards that would hold more in other strips. */

/** A layout, and what it was made from. */
interface Laid {
  readonly layout: Layout;
  /** Boards for sale that were looked at; none where those at hand do. */
  readonly offers: readonly Board[];
}

/** What the job says beside its batch. */
interface Telling {
  /** Width of a rip cut, mm. */
  readonly kerf: number;
  readonly currency: string;
  /** Ids of the boards whose entries say how many strips they are ripped into: that stays. */
  readonly stripsStated: readonly string[];
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

/** What came of a trial. */
interface Tried {
  readonly why: StripTrial['why'];
  readonly after: Taken;
  /** The boards it rips that carry parts. */
  readonly used: readonly Board[];
  readonly isOwn: boolean;
}

/**
 * A note for every wood whose boards, ripped into another number of strips, would hold copies that found no place, or would be
 * clearly fewer, by quick layouts: boards on whose straight edges parts stand, for every strip has one of its own, and boards
 * ripped unasked for the throat, for no section that turns tells how many parts a sheet of such holds. Boards at hand alone are
 * looked at before those for sale. Whether a wide offcut is worth more only the maker can tell.
 *
 * @param batch with the boards at hand
 * @param signal ends the quick layouts
 */
export async function stripIssues(
  batch: Batch,
  laid: Laid,
  telling: Telling,
  signal: AbortSignal | undefined,
): Promise<Issue[]> {
  const notes: Issue[] = [];
  for (const wood of woodsOf(batch, laid.offers)) {
    if (signal?.aborted) break;
    notes.push(...(await stripIssuesOf(wood, laid.layout, telling, signal)));
  }
  return notes;
}

async function stripIssuesOf(
  { batch, offers }: Wood,
  layout: Layout,
  { kerf, currency, stripsStated }: Telling,
  signal: AbortSignal | undefined,
): Promise<Issue[]> {
  const known = [...batch.boards, ...offers];
  // What is pinned is measured on the boards as they are.
  const pinned = (batch.pins ?? []).map(({ board }) => board);
  const open = known.filter(({ id }) => !stripsStated.includes(id) && !pinned.includes(id));
  const trials = stripTrials(open, batch, kerf);
  const keys = new Set(batch.demands.map(partKey));
  const before = takenBy(keys, layout, known, currency);
  if (trials.length === 0) return [];
  const least = leastOf(batch, known, layout, kerf);
  if (before.unplaced === 0 && least > (1 - CLEARLY_LESS) * before.amount) return [];
  const builder = new ProblemBuilder();
  for (const stock of offers.length > 0 ? (['own', 'bought'] as const) : (['own'] as const)) {
    let best: Tried | undefined;
    for (const { strips, why } of trials) {
      const isBest = best?.after.unplaced === 0 && best.after.amount <= least;
      if (isBest || signal?.aborted) break;
      const anew = (boards: readonly Board[]) =>
        boards.map((board) => {
          const count = strips.get(board);
          return count === undefined ? board : rippedAnew(board, count, kerf);
        });
      const own = anew(batch.boards);
      const boards = stock === 'own' ? own : stockToBuyFrom({ ...batch, boards: own }, anew(offers));
      const options = { effort: 0, signal };
      const { layout: quick } = await layOutWith(builder, { ...batch, boards }, options, { brief: true });
      const takes = (id: string) => quick.boards.some((board) => board.stock === id);
      const used = anew([...strips.keys()]).filter(({ id }) => takes(id));
      const isOwn = !offers.some(({ id }) => takes(id));
      const tried: Tried = { why, after: takenBy(keys, quick, known, currency), used, isOwn };
      if (used.length > 0 && (best === undefined || isBetter(tried.after, best.after))) best = tried;
    }
    if (best !== undefined && isClearlyBetter(best.after, before))
      return [noteOf(before, best, offers.length > 0 && best.isOwn ? ' of your own' : '')];
  }
  return [];
}

function isBetter(some: Taken, other: Taken): boolean {
  return (
    some.unplaced < other.unplaced || (some.unplaced === other.unplaced && some.amount < other.amount - 1e-6)
  );
}

function isClearlyBetter(after: Taken, before: Taken): boolean {
  const isLess = after.amount < before.amount && after.amount <= (1 - CLEARLY_LESS) * before.amount;
  return after.unplaced < before.unplaced || (after.unplaced === before.unplaced && isLess);
}

function noteOf(before: Taken, { why, after, used }: Tried, whose: string): Issue {
  const more = before.unplaced - after.unplaced;
  const isAsDear = after.price === before.price;
  const [now, then] = [before, after].map(({ boards, price }) => ({
    boards: counted(boards, 'board'),
    price: price === undefined || isAsDear ? '' : ` for ${price}`,
  }));
  const asTheyAre = before.boards === 1 ? 'does as it is' : 'do as they are';
  const would =
    more > 0
      ? `${then.boards}${whose}${then.price} would hold ${counted(more, 'more copy', 'more copies')} than ${now.boards}${now.price} ${asTheyAre}`
      : `${then.boards}${whose}${then.price} would do in place of ${now.boards}${now.price}`;
  const which = used.map(({ id, strips }) => `"strips": ${strips} of "${id}"`).join(', ');
  return {
    kind: 'strips-take-less',
    severity: 'note',
    message: `${WHY[why]}, ${would}, by a quick layout`,
    remedy: `Say ${which}, unless wide offcuts are worth more to you.`,
    where: used.length === 1 ? { board: used[0].id } : { field: 'boards' },
  };
}

const WHY = {
  'straight edges':
    'parts stand on the straight edge of their boards, and every strip has one: ripped into strips first',
  throat:
    'boards are ripped into the strips with the largest sections that turn in the throat: in another number of strips',
} as const;

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
  const amountOf = amountsIn(stock);
  const amount = taken.reduce((sum, { number, whole }) => sum + number * amountOf(whole), 0);
  const price = arePriced(stock) ? formatMoney(Math.round(amount), currency) : undefined;
  const unplaced = layout.unplaced.filter((copy) => parts.has(partKey(copy))).length;
  return { unplaced, amount, price, boards: number };
}

/** What a board counts: cents, or its area in mm2 where one of them has no price. */
function amountsIn(stock: readonly Board[]): (board: Board) => number {
  return arePriced(stock) ? ({ price = 0 }) => 100 * price : ({ outline }) => ringArea(outline);
}

/** Whether prices tell what boards are worth: of wood that is all free, as one's own, they do not. */
function arePriced(stock: readonly Board[]): boolean {
  return stock.every(({ price }) => price !== undefined) && stock.some(({ price }) => price! > 0);
}

/** What the boards of any layout in any strips count at least; nothing where copies found no place. */
function leastOf(batch: Batch, stock: readonly Board[], layout: Layout, kerf: number): number {
  const whole = stock.map(wholeBoard);
  // Strips have more straight edges than the whole board, and what lies on either side of a rip keeps no gap but that.
  const demands = batch.demands.map((demand) => ({ ...demand, rules: { ...demand.rules, restEdge: false } }));
  const gaps = { kerf: Math.min(batch.kerf + batch.clearance, kerf), clearance: 0, edgeMargin: 0 };
  const boards = woodBounds({ ...batch, ...gaps, demands, boards: whole, pins: [] }, layout);
  return Math.min(...whole.map(amountsIn(stock))) * boards.reduce((sum, { atLeast }) => sum + atLeast, 0);
}
