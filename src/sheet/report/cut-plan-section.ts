import { counted } from '../../issues/counted.ts';
import { lengthsInText } from '../../issues/lengths-in-text.ts';
import type { BoardPlan, Cut, CutPlan, Range } from '../../model/cut-plan.ts';
import { woodsAmong } from '../../model/same-wood.ts';
import { isOfSmallPart } from '../../model/small-parts.ts';
import { formatThickness, formatThin, formatTravel } from '../../units/distances.ts';
import { drillFor } from '../../units/drills.ts';
import type { DisplayUnit } from '../../units/length.ts';
import { drillsToTake, drillWords } from '../drills-to-take.ts';
import { shortened } from '../marks/text-width.ts';
import { type Html, html, LONGEST_NAME, list, named, numbers, sentences, table, words } from './html.ts';

/** How the boards are sawn: blades, and board by board the cuts in their order with the reasons. */
export function cutPlanSection(plan: CutPlan, unit: DisplayUnit): Html {
  return html('section', {}, [
    html('h2', {}, ['At the saw']),
    html('p', {}, [
      'The order in which to saw each board, and why. The numbers of the cuts are those on the placement sheet.',
    ]),
    list(overview(plan, unit)),
    bladeTable(plan, unit),
    ...plan.boards.map((board) => boardTable(board, unit)),
    html('h3', {}, ['Mind while sawing this batch']),
    list(plan.cautions.map((caution) => lengthsInText(caution, unit))),
  ]);
}

function overview(plan: CutPlan, unit: DisplayUnit): string[] {
  const shared =
    plan.sharedEdges > 0
      ? ` ${formatTravel(plan.sharedEdges, unit)} of straight edge lie on the edge of a board or a section: not sawn, not counted.`
      : '';
  return [
    `${formatTravel(plan.cutLength, unit)} to saw along the lines.${shared} Besides, ${formatTravel(plan.leadInLength, unit)} of lead-ins through waste: from a hole, the edge of the board or an earlier cut to the line.`,
    `${drilling(plan, unit)}; the blade is threaded ${times(plan.threadings)}.`,
    travelText(plan, unit),
    ...(plan.blades.length === 1
      ? ['One blade saws everything.']
      : [
          `A blade is fitted ${times(plan.bladeChanges)} board by board, ${times(plan.bladeChangesGrouped)} when all boards of one wood go through one blade before the next; worn blades come on top.`,
        ]),
    ...smallParts(plan, unit),
  ];
}

/** How many holes, and the drills to take: the maker goes to the shelf with these. */
function drilling({ holes, boards }: CutPlan, unit: DisplayUnit): string {
  return holes === 0 ? 'No holes to drill' : drillWords(drillsToTake(boards, unit), ' to drill');
}

function travelText({ travel, travelLeftToRight }: CutPlan, unit: DisplayUnit): string {
  const moved = `Between cuts the boards move ${formatTravel(travel, unit)} under the blade`;
  if (travelLeftToRight <= travel) return `${moved}.`;
  const saved = 100 * (1 - travel / travelLeftToRight);
  return `${moved}: ${saved.toFixed(0)} % less than the ${formatTravel(travelLeftToRight, unit)} of the same stages, each sawn from left to right along the board.`;
}

/** What holds the small parts: the choice is the maker's. */
function smallParts({ tab, boards }: CutPlan, unit: DisplayUnit): string[] {
  const cuts = boards.flatMap((board) => board.cuts);
  if (tab !== undefined && cuts.some(({ kind }) => kind === 'tab'))
    return [
      `Small parts hang in the board by a tab of ${formatThin(tab, unit)}, a thick line on the placement sheet; the tabs are the last cuts of each section.`,
    ];
  return cuts.some(isOfSmallPart)
    ? [
        'Small parts are the last cuts of each section, those laid into an opening or under another part come before it. To leave them hanging by a tab, set "tab" under "work" in the job.',
      ]
    : [];
}

function bladeTable({ blades, boards }: CutPlan, unit: DisplayUnit): Html {
  const rows = blades.map(({ blade, why, sawn, worn }) => [
    named(blade.name),
    named(woodsOf(blade.name, boards, unit)),
    lengthsInText(why, unit),
    `${formatThin(blade.kerf, unit)}${blade.kerfMeasured ? '' : ', not measured'}`,
    drillFor({ diameter: blade.hole, least: 0 }, unit).name,
    formatTravel(sawn, unit),
    wholeRange(worn),
  ]);
  return table(
    'Blades to have at hand. Numbers differ between makers: what counts is your own blade and a measured test cut. How many wear out is an estimate; makers report very different lives',
    [
      words('Blade'),
      ...['Saws', 'Why this one'].map(sentences),
      words('Kerf'),
      ...['Drill', 'Length', 'Blades worn'].map(numbers),
    ],
    rows,
  );
}

function woodsOf(blade: string, boards: readonly BoardPlan[], unit: DisplayUnit): string {
  const woods = boards
    .filter(({ cuts }) => cuts.some((cut) => cut.blade === blade))
    .map(({ species, thickness }) => `${species} ${formatThickness(thickness, unit)}`);
  return woodsAmong(woods).join(', ');
}

/** Blades are bought whole. */
function wholeRange(range: Range): string {
  const [low, likely, high] = [range.low, range.likely, range.high].map(Math.ceil);
  return low === high ? `${likely}` : `${likely} (${low} to ${high})`;
}

/** One row for each run of cuts of one kind, blade and reason, with the veins sawn in passing with them. */
function boardTable(board: BoardPlan, unit: DisplayUnit): Html {
  const rows = runsOf(board.cuts).map(({ cuts, led }) => [
    unbroken(
      cuts.length === 1 ? `${cuts[0].number}` : `${cuts[0].number} to ${cuts[cuts.length - 1].number}`,
    ),
    ...runWords(cuts, led, runDrills(cuts, board, unit)),
    formatTravel(
      cuts.reduce((sum, { length }) => sum + length, 0),
      unit,
    ),
  ]);
  const { sections, stack = 1, copies } = board;
  const facts = [
    `Cuts in order: ${formatThickness(board.thickness, unit)} of ${board.species} under the blade`,
    stack > 1 ? `${stack} boards in a stack` : '',
    copies > 1 ? `to do ${times(copies)}` : '',
    sections.length > 1 ? `${sections.length} sections, one after the other` : '',
    board.holes.length > 0 ? `${counted(board.holes.length, 'hole')} to drill first` : 'no holes',
  ].filter(Boolean);
  return html('div', {}, [
    html('h3', {}, [named(shortened(board.board, LONGEST_NAME))]),
    table(
      facts.join(', '),
      [words('Cuts'), words('What'), words('Blade'), sentences('Why now'), numbers('Length')],
      rows,
    ),
  ]);
}

function times(count: number): string {
  return count === 1 ? 'once' : count === 2 ? 'twice' : `${count} times`;
}

function unbroken(text: string): string {
  return text.replace(/ /g, '\u00a0');
}

/** What a run is with the drills for it, its blade and its reason. */
function runWords(
  cuts: readonly Cut[],
  { kind, blade, reason }: Cut,
  drills: readonly string[],
): (Html | string)[] {
  const passing = cuts.filter(({ entry }) => entry === 'in passing').length;
  const what = unbroken(counted(cuts.length - passing, kind));
  const veins = passing === 0 ? '' : `, ${unbroken(counted(passing, 'vein'))} in passing`;
  const drill = drills.length === 0 ? '' : `; drill ${drills.map(unbroken).join(' or ')}`;
  // One run may need two drills: which hole takes which stands cut by cut in the table of cuts.
  const which = drills.length > 1 ? ' (cuts.csv says which)' : '';
  const how = passing === 0 ? '' : '; turn into each vein where the line meets it, back out and go on';
  return [`${what}${veins}${drill}${which}`, named(unbroken(blade)), `${reason}${how}`];
}

/** Names of the drills for the holes of these cuts. */
function runDrills(cuts: readonly Cut[], { holes }: BoardPlan, unit: DisplayUnit): string[] {
  const own = new Set(cuts.map(({ number }) => number));
  return [...new Set(holes.filter(({ cut }) => own.has(cut)).map((hole) => drillFor(hole, unit).name))];
}

/** Cuts that follow one another for one reason; a vein sawn in passing goes with the line it branches off. */
interface Run {
  readonly cuts: Cut[];
  /** The first that is not sawn in passing: its kind, blade and reason are those of the run. */
  readonly led: Cut;
}

function runsOf(cuts: readonly Cut[]): Run[] {
  const runs: Run[] = [];
  let passing: Cut[] = [];
  for (const cut of cuts) {
    if (cut.entry === 'in passing') {
      passing.push(cut);
      continue;
    }
    const last = runs.at(-1);
    const alike =
      last?.led.kind === cut.kind && last.led.blade === cut.blade && last.led.reason === cut.reason;
    if (alike) last.cuts.push(...passing, cut);
    else runs.push({ cuts: [...passing, cut], led: cut });
    passing = [];
  }
  return runs;
}
