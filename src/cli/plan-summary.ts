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
  const metres = (mm: number) =>
    unit === 'mm' ? `${(mm / 1000).toFixed(1)} m` : `${(mm / 304.8).toFixed(1)} ft`;
  const row = (name: string, t: Totals) => [
    name,
    `${t.boards}`,
    `${t.parts}`,
    `${(100 * t.yield).toFixed(1)} %`,
    t.boardFeet.toFixed(2),
    metres(t.cutLength),
    `${t.openings}`,
  ];
  const table = textTable([
    [
      '',
      layout.boards.some(isInPieces) ? 'pieces' : 'boards',
      'parts',
      'yield',
      'exact board feet',
      'lines of parts',
      'openings',
    ],
    ...Object.entries(figures.bySpecies).map(([species, totals]) => row(species, totals)),
    row('All', figures),
  ]);
  const bought = new Set(purchase?.items.map(({ id }) => id));
  const taken = boardsToTake(layout).map(
    ({ stock, boards }) => `${boards} of ${stock}${bought.has(stock) ? ' (to buy)' : ''}`,
  );
  const least = verification.leastDistance;
  const isWhole = notInBatch(pattern, layout.setContents).length === 0;
  return [
    `${figures.completeSets} of ${layout.sets} sets complete.`,
    '',
    ...table.split('\n'),
    '',
    // Strips and slices are counted above: what is taken from the rack is whole.
    ...(taken.length === 0 ? [] : [`Boards to take: ${taken.join(', ')}.`]),
    ...(layout.unplaced.length > 0 && purchase === undefined
      ? ['To be told what to buy for the rest, put what your supplier has under "forSale" in the job.']
      : []),
    verification.ok
      ? lengthsInText(
          `Checked independently: ${counted(verification.pairsMeasured, 'pair')} of neighbours, least distance ${
            least === undefined ? 'none to measure' : formatLength(least, 'mm', 3)
          } (asked for ${formatLength(layout.kerf + layout.clearance, 'mm', 3)}), no rule broken.`,
          unit,
        )
      : `The independent check found ${counted(verification.breaches.length, 'broken rule')}: do not cut from this layout. No sheets are written.`,
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
