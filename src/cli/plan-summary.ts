import path from 'node:path';
import {
  boardsToTake,
  counted,
  type Estimate,
  type Finding,
  formatHours,
  formatLength,
  formatMoney,
  isInPieces,
  type JobDrawings,
  type JobResult,
  lengthsInText,
  notInBatch,
  plainLine,
  type Totals,
  unpricedWood,
} from '../index.ts';
import { ofPartsCut } from '../job/cut-in-batch.ts';
import { textTable } from './messages.ts';

/**
 * What `plan` says when it is done: sets, boards, yield, lines of the parts, the check, and where to look. Of a layout that
 * breaks a rule neither sheets nor prices are told: there are no sheets, and the prices would be those of no piece.
 *
 * @param unit unit of the job: metres and mm, or feet and inches
 * @param out folder of the results as the maker named it
 */
export function summary(
  { pattern, layout, verification, check, purchase }: JobResult,
  { pdfs, work }: JobDrawings,
  unit: 'mm' | 'in',
  out: string,
): string {
  const { figures } = layout;
  const isWhole = notInBatch(pattern, layout.setContents).length === 0;
  return [
    `${figures.completeSets} of ${layout.sets} sets complete.`,
    '',
    ...totals(layout, unit).split('\n'),
    '',
    ...boardsLine(layout, purchase),
    ...(layout.unplaced.length > 0 && purchase === undefined
      ? ['To be told what to buy for the rest, put what your supplier has under "forSale" in the job.']
      : []),
    verifiedLine(verification, layout, unit),
    checkLine(check, layout),
    ...(verification.ok ? [estimateLine(work.estimate, figures.completeSets, isWhole)] : []),
    '',
    `Look at ${path.join(out, 'report.html')}`,
    ...(verification.ok ? pdfs : []).map(
      ({ of, pages }) =>
        `Print ${path.join(out, `${of}.pdf`)} (${counted(pages, 'page')}) at 100 %, then measure the printed square before sawing.`,
    ),
    ...(verification.ok ? [CAUTION] : []),
  ]
    .map(plainLine)
    .join('\n');
}

/** The figures of each species and of all, as a table. */
function totals({ boards, figures }: JobResult['layout'], unit: 'mm' | 'in'): string {
  const long = (mm: number) =>
    unit === 'mm' ? `${(mm / 1000).toFixed(1)} m` : `${(mm / 304.8).toFixed(1)} ft`;
  const row = (name: string, t: Totals) => [
    name,
    `${t.boards}`,
    `${t.parts}`,
    `${(100 * t.yield).toFixed(1)} %`,
    t.boardFeet.toFixed(2),
    long(t.cutLength),
    `${t.openings}`,
  ];
  const [counts, lines] = [boards.some(isInPieces) ? 'pieces' : 'boards', 'lines of parts'];
  return textTable([
    ['', counts, 'parts', 'yield', 'exact board feet', lines, 'openings'],
    ...Object.entries(figures.bySpecies).map(([species, of]) => row(species, of)),
    row('All', figures),
  ]);
}

/** Strips and slices are counted in the table: what is taken from the rack is whole. */
function boardsLine(layout: JobResult['layout'], purchase: JobResult['purchase']): string[] {
  const bought = new Set(purchase?.items.map(({ id }) => id));
  const taken = boardsToTake(layout).map(
    ({ stock, boards }) => `${boards} of ${stock}${bought.has(stock) ? ' (to buy)' : ''}`,
  );
  return taken.length === 0 ? [] : [`Boards to take: ${taken.join(', ')}.`];
}

/** What the independent check found; distances in mm, and in the unit of the job. */
function verifiedLine(
  { ok, breaches, leastDistance, pairsMeasured }: JobResult['verification'],
  { kerf, clearance }: JobResult['layout'],
  unit: 'mm' | 'in',
): string {
  if (!ok)
    return `The independent check found ${counted(breaches.length, 'broken rule')}: do not cut from this layout. No sheets are written.`;
  const least = leastDistance === undefined ? 'none to measure' : formatLength(leastDistance, 'mm', 3);
  const asked = formatLength(kerf + clearance, 'mm', 3);
  return lengthsInText(
    `Checked independently: ${counted(pairsMeasured, 'pair')} of neighbours, least distance ${least} (asked for ${asked}), no rule broken.`,
    unit,
  );
}

/** The cautions themselves stand in the report and on every sheet. */
const CAUTION =
  'Before you saw: fingers an inch (25 mm) from the blade, eyes and lungs protected, the saw unplugged to thread a blade; its manual comes before this plan.';

/**
 * What a piece costs, takes and should bring in: the report says how that comes about.
 *
 * @param isWhole false where only some parts of the piece are cut
 */
function estimateLine(estimate: Estimate, completeSets: number, isWhole: boolean): string {
  const { piece, pieces, time, prices, currency } = estimate;
  if (completeSets === 0) return 'No estimate for a piece: no set is complete.';
  const lacking = unpricedWood(estimate);
  const without = lacking === undefined ? '' : ` ${lacking}`;
  const money = (cents: number) => formatMoney(cents, currency);
  const asked = prices.map(({ channel, price }) => `${money(price)} ${channel}`);
  const of = isWhole ? 'a piece' : 'a set of the parts in this batch, no whole piece';
  return `Estimate for ${of}: cost ${money(piece.likely)} (${money(piece.low)} to ${money(piece.high)})${without}, ${formatHours(time.total.likely / pieces)} of work; price ${asked.join(', ')}.`;
}

/** One line on what the pattern check found in the parts that are cut, by kind. */
function checkLine({ findings }: JobResult['check'], layout: JobResult['layout']): string {
  const counts = new Map<Finding['kind'], number>();
  for (const { kind } of ofPartsCut(findings, layout)) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  const list = [...counts].map(([kind, count]) => counted(count, ...FINDING_WORDS[kind]));
  return list.length === 0
    ? 'The pattern check found nothing for the saw to watch.'
    : `For the saw to watch: ${list.join(', ')}; each is in the report.`;
}

const FINDING_WORDS: Readonly<Record<Finding['kind'], readonly [one: string, many: string]>> = {
  'neck-thin': ['thin neck', 'thin necks'],
  'neck-short-grain': ['neck across the grain', 'necks across the grain'],
  'turn-tight': ['part with tight turns', 'parts with tight turns'],
  'opening-small': ['opening too small to thread', 'openings too small to thread'],
  'lost-in-kerf': ['slot narrower than the cut', 'slots narrower than the cut'],
  'part-small': ['part too small to hold', 'parts too small to hold'],
};
