import { COMMON_RATES } from '../costing/rates.ts';
import { woodCost } from '../costing/wood-cost.ts';
import { ringArea } from '../geometry/ring.ts';
import { boundsOf } from '../geometry/shapes.ts';
import { counted, firstFew } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import type { Batch } from '../model/batch.ts';
import { boardsToTake } from '../model/boards-to-take.ts';
import { carriesParts } from '../model/carries-parts.ts';
import type { LaidBoard, Layout } from '../model/layout.ts';
import { isSamePart } from '../model/same-part.ts';
import type { Board } from '../model/stock.ts';
import { boardsIn, wholeBoard } from '../model/whole-board.ts';
import { layOutWith } from '../nesting/lay-out.ts';
import { ProblemBuilder } from '../nesting/problem/problem-spec.ts';
import { USUAL_CROSSCUT_KERF } from '../stock/keep-rule.ts';
import { cutInto, mayBeInLengths } from '../stock/ripping.ts';
import { SHORTEST } from '../stock/sections.ts';
import { formatMoney } from '../units/money.ts';
import { CLEARLY_LESS } from './clearly-less.ts';

/** Boards that are named at most. */
const MOST_NAMED = 3;

/**
 * A note where stacks take clearly more wood than single boards would, by a quick layout of those: three boards are begun for
 * three sets that lie on one. Where stacks of lengths cut of one board take clearly less too, that is told. What the cuts that
 * are saved are worth only the maker can tell.
 *
 * @param batch with the boards that the quick layout may take
 * @param stock the boards of the layout, those that are bought too
 * @param signal ends the quick layout
 */
export async function stackWoodIssues(
  batch: Batch,
  { layout, stock }: { readonly layout: Layout; readonly stock: readonly Board[] },
  currency: string,
  file: string,
  signal: AbortSignal | undefined,
): Promise<Issue[]> {
  const inStacks = layout.boards.filter(({ pieces = [] }) => pieces.length > 1);
  // A copy that is pinned to a stack lies on all its boards.
  if (inStacks.length === 0 || layout.unplaced.length > 0 || (batch.pins ?? []).length > 0) return [];
  const quickly = async (changed: Batch, boards: readonly Board[]) => {
    const options = { effort: 0, signal };
    const { layout: laid } = await layOutWith(new ProblemBuilder(), changed, options, { brief: true });
    return laid.unplaced.length > 0 ? undefined : woodOf(laid, boards, currency);
  };
  const own = woodOf(layout, stock, currency);
  const single = await quickly(
    { ...batch, demands: batch.demands.map(({ stack: _, ...demand }) => demand) },
    stock,
  );
  if (single === undefined || !isClearlyLess(single, own)) return [];
  let best: { readonly wood: Wood; readonly lengths: readonly Board[] } | undefined;
  for (const heights of heightsOf(batch, inStacks)) {
    const { boards, lengths } = inLengths(batch, heights);
    const wood = lengths.length === 0 ? undefined : await quickly({ ...batch, boards }, boards);
    if (wood !== undefined && (best === undefined || shareOf(wood, best.wood) < 1)) best = { wood, lengths };
  }
  const helpful = best !== undefined && isClearlyLess(best.wood, own) ? best : undefined;
  const named = firstFew(
    (helpful?.lengths ?? []).map(({ id, lengths: count }) => `"lengths": ${count} of "${id}"`),
    MOST_NAMED,
  );
  const layers = new Set(inStacks.flatMap(({ placements }) => placements.map(({ layer }) => layer)));
  const [layer] = layers;
  return [
    {
      kind: 'stack-takes-wood',
      severity: 'note',
      message: `in stacks the batch takes ${own.words}; sawn board by board ${single.words} would do${saved(single, own)}${helpful === undefined ? '' : `, and in stacks made of lengths of a board ${helpful.wood.words}${saved(helpful.wood, own)}`}, by a quick layout`,
      remedy:
        helpful === undefined
          ? 'Leave "stacked" out if the wood is worth more to you than the cuts that are saved, or ask for more sets.'
          : `Say ${named}, so that a stack is made of one board; or leave "stacked" out.`,
      where: { file, field: layers.size === 1 ? `layers.${layer}.stacked` : 'layers' },
    },
  ];
}

/** Wood that a layout takes. */
interface Wood {
  /** What it costs; undefined where not all boards have a price. */
  readonly cents: number | undefined;
  /** mm2 */
  readonly area: number;
  readonly words: string;
}

/** The share of the price that some wood comes to of other wood, or of the area where one of them has no price. */
function shareOf(some: Wood, other: Wood): number {
  return some.cents !== undefined && other.cents !== undefined
    ? some.cents / other.cents
    : some.area / other.area;
}

function isClearlyLess(some: Wood, other: Wood): boolean {
  return shareOf(some, other) <= 1 - CLEARLY_LESS;
}

/** How much less some wood is, where money does not say so: as many boards may do, only smaller ones. */
function saved(some: Wood, other: Wood): string {
  if (some.cents !== undefined && other.cents !== undefined) return '';
  return ` with ${Math.round(100 * (1 - shareOf(some, other)))} % less wood by area`;
}

/**
 * How many boards the highest stack of every entry has; and as many as it may have, where that is more: a layout of whole
 * boards has two in a stack of three sets, for that takes fewer.
 */
function heightsOf({ demands, sets }: Batch, inStacks: readonly LaidBoard[]): ReadonlyMap<string, number>[] {
  const [made, most] = [new Map<string, number>(), new Map<string, number>()];
  for (const { stock, copies, placements } of inStacks) {
    const own = demands.filter((demand) => placements.some((placement) => isSamePart(placement, demand)));
    const may = Math.min(sets, ...own.map(({ stack = 1 }) => stack));
    made.set(stock, Math.max(copies, made.get(stock) ?? 0));
    most.set(stock, Math.max(copies, may, most.get(stock) ?? 0));
  }
  return [...most].some(([stock, height]) => height !== made.get(stock)) ? [made, most] : [made];
}

/** The boards of a batch, those that are stacked in so many lengths that a stack is made of one; and which of them are. */
function inLengths(
  { boards, crosscutKerf = USUAL_CROSSCUT_KERF }: Batch,
  heights: ReadonlyMap<string, number>,
) {
  const cut = boards.map((board) => {
    const height = heights.get(board.id) ?? 1;
    if (height === 1 || board.lengths !== undefined || !mayBeInLengths(board)) return board;
    const blank = cutInto({ strips: 1, lengths: height }, board, crosscutKerf);
    const { minX, maxX } = boundsOf(blank.outline);
    return maxX - minX < SHORTEST ? board : blank;
  });
  return { boards: cut, lengths: cut.filter((board, i) => board !== boards[i]) };
}

/** Boards that a layout takes, what they cost in cents where all have a price, and the area of whole ones, mm2. */
function woodOf(layout: Layout, stock: readonly Board[], currency: string): Wood {
  const taken = boardsToTake(layout);
  const { lines, issues } = woodCost(layout, stock, { ...COMMON_RATES, keeperCredit: 0 });
  const cents = issues.length > 0 ? undefined : lines.reduce((sum, { cents: { likely } }) => sum + likely, 0);
  const area = taken.reduce((sum, { stock: id, boards }) => {
    const board = stock.find((one) => one.id === id);
    return sum + (board === undefined ? 0 : boards * ringArea(wholeBoard(board).outline));
  }, 0);
  const whole = taken.reduce((sum, { boards }) => sum + boards, 0);
  if (cents === undefined) return { cents, area, words: counted(whole, 'board') };
  // The price is that of the strips and slices that carry something: of whole boards it would be more.
  const paid = layout.boards.filter(carriesParts).reduce((sum, board) => sum + boardsIn(board), 0);
  const share = Number(paid.toFixed(2));
  return { cents, area, words: `${counted(share, 'board')} for ${formatMoney(cents, currency)}` };
}
