import type { BoardPlan, Cut, CutPlan, Range } from '../model/cut-plan.ts';
import { type DisplayUnit, formatLength } from '../units/length.ts';
import { formatThin, formatTravel } from './blocks/distances.ts';
import { type Html, html, named, numbers, table, words } from './html.ts';

/** How the boards are sawn: blades, and board by board the cuts in their order with the reasons. */
export function cutPlanSection(plan: CutPlan, unit: DisplayUnit): Html {
  return html('section', {}, [
    html('h2', {}, ['At the saw']),
    html('p', {}, [overview(plan, unit)]),
    bladeTable(plan, unit),
    ...plan.boards.map((board) => boardTable(board, unit)),
    html(
      'ul',
      {},
      plan.cautions.map((caution) => html('li', {}, [caution])),
    ),
  ]);
}

function overview(plan: CutPlan, unit: DisplayUnit): string {
  const saved = plan.travelAsListed > 0 ? 1 - plan.travel / plan.travelAsListed : 0;
  const shared =
    plan.sharedEdges > 0
      ? `; ${formatTravel(plan.sharedEdges, unit)} of straight edge lie on the board's edge and are not sawn`
      : '';
  return [
    `${formatTravel(plan.cutLength, unit)} to saw${shared}.`,
    `${plan.holes} holes to drill, ${plan.threadings} times the blade is threaded.`,
    `Between cuts the boards move ${formatTravel(plan.travel, unit)}, ${(100 * saved).toFixed(0)} % less than with the cuts of each stage as they are listed.`,
    plan.blades.length === 1
      ? 'One blade saws everything.'
      : `Blades are fitted ${plan.bladeChanges} times board by board, ${plan.bladeChangesGrouped} times when all boards of one wood go through one blade before the next.`,
    'The numbers of the cuts are those on the placement sheet. Blades worn are an estimate: makers report very different lives.',
  ].join(' ');
}

function bladeTable({ blades }: CutPlan, unit: DisplayUnit): Html {
  const rows = blades.map(({ blade, why, cutLength, worn }) => [
    named(blade.name),
    why,
    `${formatThin(blade.kerf, unit)}${blade.kerfMeasured ? '' : ', not measured'}`,
    formatThin(blade.hole, unit),
    formatTravel(cutLength, unit),
    rangeText(worn),
  ]);
  return table(
    'Blades. Numbers differ between makers: what counts is your own blade and a measured test cut',
    [words('Blade'), words('Why'), words('Kerf'), ...['Hole', 'Saws', 'Blades worn'].map(numbers)],
    rows,
  );
}

function rangeText({ low, likely, high }: Range): string {
  return `${likely.toFixed(1)} (${low.toFixed(1)} to ${high.toFixed(1)})`;
}

/** One row for each run of cuts of one kind, blade and reason. */
function boardTable(board: BoardPlan, unit: DisplayUnit): Html {
  const rows = runsOf(board.cuts).map((run) => [
    run.length === 1 ? `${run[0].number}` : `${run[0].number} to ${run[run.length - 1].number}`,
    `${run.length} ${KIND_WORDS[run[0].kind][run.length === 1 ? 0 : 1]}`,
    named(run[0].blade),
    run[0].reason,
    formatTravel(
      run.reduce((sum, { length }) => sum + length, 0),
      unit,
    ),
  ]);
  const { sections, stack = 1, copies } = board;
  const facts = [
    `${formatLength(board.thickness, unit, 2)} under the blade`,
    stack > 1 ? `${stack} boards in a stack` : '',
    copies > 1 ? `${copies} times` : '',
    sections.length > 1 ? `${sections.length} sections` : '',
    `${board.holes.length} holes`,
  ].filter(Boolean);
  return html('div', {}, [
    html('h3', {}, [named(board.board)]),
    table(
      `${facts.join(', ')}`,
      [words('Cuts'), words('What'), words('Blade'), words('Why now'), numbers('Length')],
      rows,
    ),
  ]);
}

const KIND_WORDS = {
  opening: ['opening', 'openings'],
  vein: ['vein', 'veins'],
  outline: ['outline', 'outlines'],
} as const;

function runsOf(cuts: readonly Cut[]): Cut[][] {
  const runs: Cut[][] = [];
  for (const cut of cuts) {
    const run = runs.at(-1);
    const last = run?.at(-1);
    if (
      run !== undefined &&
      last?.kind === cut.kind &&
      last.blade === cut.blade &&
      last.reason === cut.reason
    )
      run.push(cut);
    else runs.push([cut]);
  }
  return runs;
}
