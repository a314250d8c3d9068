import { COMMON_RATES } from '../costing/rates.ts';
import { woodCost } from '../costing/wood-cost.ts';
import { ringArea } from '../geometry/ring.ts';
import { counted } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import type { Batch } from '../model/batch.ts';
import { boardsToTake } from '../model/boards-to-take.ts';
import type { Layout } from '../model/layout.ts';
import type { Board } from '../model/stock.ts';
import { wholeBoard } from '../model/whole-board.ts';
import { layOutWith } from '../nesting/lay-out.ts';
import { ProblemBuilder } from '../nesting/problem/problem-spec.ts';
import { formatMoney } from '../units/money.ts';
import { CLEARLY_LESS } from './clearly-less.ts';

/**
 * A note where stacks take clearly more wood than single boards would, by a quick layout of those: three boards are begun for
 * three sets that lie on one. What the cuts that are saved are worth only the maker can tell.
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
  const demands = batch.demands.map(({ stack: _, ...demand }) => demand);
  const { layout: singly } = await layOutWith(
    new ProblemBuilder(),
    { ...batch, demands },
    { effort: 0, signal },
  );
  if (singly.unplaced.length > 0) return [];
  const [own, single] = [layout, singly].map((laid) => woodOf(laid, stock, currency));
  const [more, less, by] =
    own.cents !== undefined && single.cents !== undefined
      ? [own.cents, single.cents, 'price']
      : [own.area, single.area, 'area'];
  if (less > (1 - CLEARLY_LESS) * more) return [];
  // As many boards may do, only smaller ones.
  const saved = by === 'price' ? '' : ` with ${Math.round(100 * (1 - less / more))} % less wood by area`;
  const layers = new Set(inStacks.flatMap(({ placements }) => placements.map(({ layer }) => layer)));
  const [layer] = layers;
  return [
    {
      kind: 'stack-takes-wood',
      severity: 'note',
      message: `in stacks the batch takes ${own.words}; sawn board by board ${single.words} would do${saved}, by a quick layout`,
      remedy:
        'Leave "stacked" out if the wood is worth more to you than the cuts that are saved, or ask for more sets.',
      where: { file, field: layers.size === 1 ? `layers.${layer}.stacked` : 'layers' },
    },
  ];
}

/** Whole boards that a layout takes, what they cost in cents where all have a price, and their area, mm2. */
function woodOf(layout: Layout, stock: readonly Board[], currency: string) {
  const taken = boardsToTake(layout);
  const { lines, issues } = woodCost(layout, stock, { ...COMMON_RATES, keeperCredit: 0 });
  const cents = issues.length > 0 ? undefined : lines.reduce((sum, { cents: { likely } }) => sum + likely, 0);
  const area = taken.reduce((sum, { stock: id, boards }) => {
    const board = stock.find((one) => one.id === id);
    return sum + (board === undefined ? 0 : boards * ringArea(wholeBoard(board).outline));
  }, 0);
  const count = counted(
    taken.reduce((sum, { boards }) => sum + boards, 0),
    'board',
  );
  return { cents, area, words: cents === undefined ? count : `${count} for ${formatMoney(cents, currency)}` };
}
