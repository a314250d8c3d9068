import { counted } from '../../issues/counted.ts';
import { type BoardsToTake, boardsToTake, isInPieces } from '../../model/boards-to-take.ts';
import { cheaperInWords } from '../../model/cheaper-in-words.ts';
import type { Estimate } from '../../model/estimate.ts';
import { incompleteBatch } from '../../model/incomplete-batch.ts';
import type { LaidBoard, Layout } from '../../model/layout.ts';
import { notInBatch } from '../../model/not-in-batch.ts';
import type { Purchase } from '../../model/purchase.ts';
import { speciesKey } from '../../model/same-wood.ts';
import { unpricedWood } from '../../model/unpriced-wood.ts';
import { blanksPerBoard } from '../../model/whole-board.ts';
import { formatThickness } from '../../units/distances.ts';
import { formatHours, formatHoursRange } from '../../units/hours.ts';
import type { DisplayUnit } from '../../units/length.ts';
import { formatMoney, toCents } from '../../units/money.ts';
import { shortened } from '../marks/text-width.ts';
import { type Html, html, LONGEST_NAME, named } from './html.ts';
import type { ReportWork } from './work-sections.ts';

/** Places of sale whose price stands at the top; the others are found in their table. */
const MOST_PRICES = 3;

/** What the top of the report is made from besides the layout. */
export interface SummaryFacts {
  readonly unit: DisplayUnit;
  readonly work?: ReportWork;
  /** What to buy; undefined when nothing was searched for. */
  readonly purchase?: Purchase;
  /** Number of rules found broken: what a piece of such a layout costs and brings, and what to buy, is not told. */
  readonly breaches?: number;
}

/** A figure at the top: its name, the figure, and what it depends on or ranges over. */
type Fact = readonly [name: string, value: string, aside?: string];

/** What a maker wants to know first: what a piece brings and costs, how long it takes, which boards it takes. */
export function summarySection(layout: Layout, { unit, work, purchase, breaches = 0 }: SummaryFacts): Html {
  return html('section', { class: 'summary' }, [
    html(
      'dl',
      {},
      [...(work === undefined || breaches > 0 ? [] : workFacts(work, layout)), ...countFacts(layout)].map(
        ([name, value, aside]) =>
          html('div', {}, [
            html('dt', {}, [name]),
            html('dd', {}, [named(value)]),
            ...(aside === undefined ? [] : [html('dd', { class: 'aside' }, [named(aside)])]),
          ]),
      ),
    ),
    line('Boards to take', takeWords(layout, unit, breaches > 0 ? undefined : purchase)),
    ...(work === undefined || breaches > 0 ? [] : [line('Blades that wear out', bladesWorn(work))]),
    // Nothing is bought for a layout that is not sawn.
    ...(breaches > 0 ? [] : [line('Boards to buy', toBuy(layout, unit, purchase, work?.estimate.currency))]),
  ]);
}

function line(name: string, text: string): Html {
  return html('p', {}, [html('strong', {}, [`${name}: `]), named(text)]);
}

function bladesWorn({ cutPlan: { blades } }: ReportWork): string {
  const likely = blades.map(({ blade, worn }) => `${Math.ceil(worn.likely)} of ${blade.name}`);
  return likely.length === 0 ? 'none.' : `about ${likely.join(', ')}.`;
}

function countFacts({ figures, sets }: Layout): Fact[] {
  return [['Complete sets', `${figures.completeSets} of ${sets}`, counted(figures.parts, 'part')]];
}

function workFacts({ estimate, pattern }: ReportWork, layout: Layout): Fact[] {
  const { time, piece, pieces, currency } = estimate;
  const money = (cents: number) => formatMoney(cents, currency);
  const hours = formatHours(time.total.likely, time.total.high);
  // Without a whole piece there is no cost of one: what the parts cost so far stands in the table of costs.
  if (layout.figures.completeSets === 0) return [['Work on the batch', hours, formatHoursRange(time.total)]];
  const lacking = unpricedWood(estimate);
  const range = `estimate, ${money(piece.low)} to ${money(piece.high)}`;
  // A figure of some parts is no price to sell by.
  const only =
    notInBatch(pattern, layout.setContents).length > 0 ? 'only for the parts of this batch' : undefined;
  const beyond = [only, beyondWords(layout)].filter(Boolean).join('; ');
  return [
    ...priceFacts(estimate, beyond),
    ['Cost of a piece', money(piece.likely), [range, lacking, beyond].filter(Boolean).join('; ')],
    [
      'Work on the batch',
      hours,
      `${formatHoursRange(time.total)}; ${formatHours(time.total.likely / pieces)} a piece`,
    ],
  ];
}

/** What a piece pays for besides itself; undefined where the batch is whole or nothing is cut beyond whole sets. */
function beyondWords(layout: Layout): string | undefined {
  const batch = incompleteBatch(layout);
  if (batch === undefined || batch.partsBeyond === 0) return undefined;
  const { complete, sets, partsBeyond } = batch;
  return `${complete} of ${sets} sets are complete and pay for ${counted(partsBeyond, 'part')} beyond them`;
}

function priceFacts({ prices, currency }: Estimate, beyond: string): Fact[] {
  return prices
    .slice(0, MOST_PRICES)
    .map(({ channel, price }) => [
      'Price of a piece',
      formatMoney(price, currency),
      [shortened(channel, LONGEST_NAME), beyond].filter(Boolean).join('; '),
    ]);
}

/** The boards that carry something, by wood and thickness, so that they are found in the rack; told of those that have to be bought. */
function takeWords(layout: Layout, unit: DisplayUnit, purchase: Purchase | undefined): string {
  const bought = new Set(purchase?.items.map(({ id }) => id));
  const taken = boardsToTake(layout);
  const byWood = new Map<string, { readonly wood: string; readonly own: string[]; readonly buy: string[] }>();
  for (const entry of taken) {
    const { species, thickness } = entry.laid[0];
    const measure = formatThickness(thickness, unit);
    const key = `${speciesKey(species)} ${measure}`;
    const known = byWood.get(key) ?? { wood: `${species} ${measure}`, own: [], buy: [] };
    byWood.set(key, known);
    (bought.has(entry.stock) ? known.buy : known.own).push(entryWords(entry));
  }
  // Said before the names: behind several it would seem to be said of the last one only.
  const woods = [...byWood.values()].map(({ wood, own, buy }) => {
    const names = [...own, ...(buy.length === 0 ? [] : [`to buy ${buy.join(', ')}`])];
    return `${wood}: ${names.join(', ')}`;
  });
  if (woods.length === 0) return 'none';
  return `${woods.join('; ')}.${letterWords(taken.flatMap(({ laid }) => laid))}`;
}

/** What the letters of blanks and slices stand for, where that is not plain. */
function letterWords(laid: readonly LaidBoard[]): string {
  const isInLengths = laid.some(({ lengths = 1 }) => lengths > 1);
  const isBoth = laid.some((board) => blanksPerBoard(board) > 1 && (board.slices ?? 1) > 1);
  const blank = isInLengths ? 'blank' : 'strip, from the top edge,';
  const cut = isInLengths ? 'rip and cross-cut' : 'rip';
  const lengths =
    ' Lengths are lettered from the left end, of a board in strips one strip after the other from the top edge.';
  // Narrow strips are easier to resaw than a wide board, and keep the letters in order (common practice, no source).
  const order = ` Where a number has two letters the first is the ${blank} and the second the slice: ${cut} first, then resaw.`;
  return `${isInLengths ? lengths : ''}${isBoth ? order : ''}`;
}

/** So many boards of one entry are counted by nobody who reads their names. */
const MANY_BOARDS = 4;

/** Boards by name, and how many where they are many; of those that are sawn up first, how many whole ones, and the names of their pieces. */
function entryWords({ stock, boards, laid }: BoardsToTake): string {
  const names = laid.map(nameWords).join(', ');
  const inAll = `${boards} of ${shortened(stock, LONGEST_NAME)}`;
  if (!laid.some(isInPieces)) return boards < MANY_BOARDS ? names : `${inAll} (${names})`;
  const isRipped = laid.some(({ strips = 1, lengths = 1 }) => strips > 1 && lengths === 1);
  const isInLengths = laid.some(({ lengths = 1 }) => lengths > 1);
  const isResawn = laid.some(({ slices = 1 }) => slices > 1);
  const many = laid.length > 1 || laid[0].copies > 1 ? 's' : '';
  const kinds = [
    ...(isRipped ? [`strip${many}`] : []),
    ...(isInLengths ? [`length${many}`] : []),
    ...(isResawn ? [`slice${many}`] : []),
  ].join(' and ');
  return `${inAll} (${kinds} ${names})`;
}

function nameWords({ id, copies, pieces = [] }: LaidBoard): string {
  const alike = copies > 1 && pieces.length === 0 ? ` (${copies} alike)` : '';
  const stack = pieces.length > 1 ? ` with ${pieces.slice(1).join(' and ')} in a stack` : '';
  return `${shortened(id, LONGEST_NAME)}${alike}${shortened(stack, LONGEST_NAME)}`;
}

function toBuy(
  { unplaced }: Layout,
  unit: DisplayUnit,
  purchase: Purchase | undefined,
  currency = '',
): string {
  const missing = counted(unplaced.length, 'copy', 'copies');
  if (unplaced.length === 0 && (purchase?.items.length ?? 0) === 0) return 'nothing, the boards at hand do.';
  if (purchase === undefined)
    return `boards for ${missing} that found no place. With what your supplier has under "forSale" in the job, the cheapest purchase is found for you.`;
  if (purchase.items.length === 0 && purchase.isStopped)
    return `not known: the search was stopped before it found what to buy for ${missing} without a place.`;
  if (purchase.items.length === 0) return `none of the boards for sale gives ${missing} a place.`;
  const items = purchase.items.map(({ id, boards: count, boardFeet, price }) =>
    [
      `${count} of ${shortened(id, LONGEST_NAME)}`,
      boardFeet > 0 ? ` (${boardFeet.toFixed(2)} board feet)` : '',
      price === undefined ? '' : ` for ${formatMoney(toCents(price), currency)}`,
    ].join(''),
  );
  const even = purchase.isStopped
    ? ' This does not complete the batch, as far as the search came before it was stopped.'
    : ' Even this does not complete the batch.';
  const short = purchase.completes ? '' : even;
  const cheaper = (purchase.cheaper ?? []).map(
    (less) =>
      ` Cheaper with more work: ${cheaperInWords(less, unit, currency, (id) => shortened(id, LONGEST_NAME))}.`,
  );
  return `${items.join(', ')}.${short}${cheaper.join('')}`;
}
