import { boundsOf } from '../../geometry/shapes.ts';
import { counted } from '../../issues/counted.ts';
import { throwOnErrors } from '../../issues/fretlay-error.ts';
import type { Issue } from '../../issues/issue.ts';
import { isInPieces } from '../../model/boards-to-take.ts';
import { crossCuts } from '../../model/cross-cuts.ts';
import type { LaidBoard, Layout, Totals } from '../../model/layout.ts';
import { layoutCheck } from '../../model/layout-checks.ts';
import type { MaterialAccount } from '../../model/material-account.ts';
import type { Purchase } from '../../model/purchase.ts';
import { partKey } from '../../model/same-part.ts';
import { speciesKey } from '../../model/same-wood.ts';
import type { WoodBound } from '../../model/wood-bound.ts';
import { formatThickness, formatThin, formatTravel } from '../../units/distances.ts';
import { type DisplayUnit, formatLength } from '../../units/length.ts';
import { percent } from '../../units/percent.ts';
import { CAUTIONS } from '../blocks/cautions.ts';
import { crossCutWords } from '../cross-cut-words.ts';
import { drawingToSvg } from '../marks/marks-to-svg.ts';
import { shortened } from '../marks/text-width.ts';
import { type PartKind, partKinds } from '../part-kinds.ts';
import { describeBoard } from '../placement-sheet.ts';
import { preparingWords } from '../preparing-words.ts';
import { stackWords } from '../stack-words.ts';
import { attention, incompleteBanner } from './attention-section.ts';
import { boardPicture, woodSample } from './board-picture.ts';
import { boundSection } from './bound-section.ts';
import {
  type Html,
  html,
  htmlFromSvg,
  htmlPage,
  LONGEST_NAME,
  list,
  named,
  numbers,
  table,
  words,
} from './html.ts';
import { materialSection } from './material-section.ts';
import { foreignWork, reportCheck } from './report-checks.ts';
import { REPORT_STYLE } from './report-style.ts';
import { summarySection } from './summary-section.ts';
import { PLAIN_WOOD, woodLooks } from './wood-looks.ts';
import { type ReportWork, workSections } from './work-sections.ts';

/** What the report has to know besides the layout. */
export interface ReportOptions {
  readonly job: string;
  readonly design?: string | undefined;
  /** As it is to be printed; the library reads no clock. */
  readonly date?: string | undefined;
  readonly unit: DisplayUnit;
  /** Warnings and notes of the whole job. */
  readonly issues?: readonly Issue[] | undefined;
  /** Number of rules that the independent check found broken; when there are any, the report says not to cut. */
  readonly breaches?: number | undefined;
  /** How far the layout is from the least possible; left out when undefined. */
  readonly bounds?: readonly WoodBound[] | undefined;
  /** Where the wood goes; left out when undefined. */
  readonly material?: readonly MaterialAccount[] | undefined;
  /** How to saw, glue and price; left out when undefined. */
  readonly work?: ReportWork | undefined;
  /** What to buy; undefined when nothing was searched for. */
  readonly purchase?: Purchase | undefined;
}

/**
 * The report of a layout: one HTML file that needs nothing else, with a picture of every board, the parts, the
 * figures, what found no place, what to look at, and cautions. Same input, same text, byte for byte.
 *
 * @throws FretlayError for what is no layout, and when the options make no sense
 */
export function drawReport(layout: Layout, options: ReportOptions): string {
  throwOnErrors([...layoutCheck('layout', layout), ...reportCheck('options', options)]);
  if (options.work !== undefined) throwOnErrors(foreignWork('options.work', options.work, layout));
  const kinds = partKinds(layout);
  const title = shortened(options.design ?? options.job, LONGEST_NAME);
  return htmlPage(`${title}: layout report`, REPORT_STYLE, [
    ...stopBanner(options.breaches ?? 0),
    // Of a layout that nobody should cut it is no matter how much of the batch is in it.
    ...(options.breaches ? [] : incompleteBanner(layout, options.work !== undefined)),
    header(options, title),
    html('main', {}, [
      summarySection(layout, options),
      attention(layout, options.issues ?? [], options.unit),
      boards(layout, kinds, options.unit),
      parts(layout, kinds, options.unit),
      cautions(),
      ...(options.work === undefined
        ? []
        : workSections(options.work, options.unit, (options.breaches ?? 0) === 0)),
      figures(layout, options),
      ...(options.material === undefined ? [] : [materialSection(options.material, options.unit)]),
      ...boundSection(options.bounds ?? [], options.unit),
    ]),
  ]);
}

/** Before anything else: from a layout that breaks a rule no wood is cut. */
function stopBanner(breaches: number): Html[] {
  if (breaches === 0) return [];
  const found = `The independent check found ${counted(breaches, 'broken rule')}; each is an error under "To look at". Drawings and figures below are there to find the fault with, not to work from. What a piece takes, costs and brings is not told: it would be that of another layout.`;
  return [
    html('section', { class: 'stop' }, [
      html('h2', {}, ['Do not cut from this layout']),
      html('p', {}, [found]),
    ]),
  ];
}

function header(options: ReportOptions, title: string): Html {
  return html('header', {}, [
    html('h1', {}, [named(title)]),
    html('p', {}, ['Layout report, job ', named(shortened(options.job, LONGEST_NAME)), dated(options.date)]),
  ]);
}

function dated(date: string | undefined): string {
  return date === undefined ? '.' : `, ${date}.`;
}

function boards(layout: Layout, kinds: readonly PartKind[], unit: DisplayUnit): Html {
  // Pictures name parts by number: names would not fit, and a number is found in the table at once.
  const looks = woodLooks(layout.boards);
  const numberByKind = new Map(kinds.map((kind) => [partKey(kind), kind.number]));
  return html('section', {}, [
    html('h2', {}, ['Boards']),
    html('p', {}, [
      'The number on a part is its number in the table of parts; where parts are small, some have none. The grain runs from left to right. Colours and lines tell woods apart; they are not those of the wood. Pictures are smaller than the boards, each by its own measure: saw by the sheets.',
      layout.boards.some((board) => crossCuts(board).length > 0)
        ? ' A line of dashes and dots across a board is a cross-cut between two sections; one along it is a rip that parts off a keeper before the cross-cuts that end at it.'
        : '',
    ]),
    ...woodsLegend(looks),
    ...layout.boards.map((board, i) =>
      boardFigure(board, pictureOf(board, i + 1, looks, numberByKind), unit),
    ),
  ]);
}

/** Which look is which wood, when there is more than one; a board says its wood in words as well. */
function woodsLegend(looks: ReturnType<typeof woodLooks>): Html[] {
  if (looks.size < 2) return [];
  const woods = [...looks.values()].map(({ species, look }, i) => {
    const name = shortened(species, LONGEST_NAME);
    const sample = drawingToSvg(woodSample(look), {
      title: `Look of ${name}`,
      description: 'Board on the left, part on the right.',
      idPrefix: `wood-${i + 1}-`,
    });
    return html('li', {}, [htmlFromSvg(sample), ' ', named(name)]);
  });
  return [html('ul', { class: 'woods' }, woods)];
}

/** @param number of the board in the report, from 1 */
function pictureOf(
  board: LaidBoard,
  number: number,
  looks: ReturnType<typeof woodLooks>,
  numberByKind: ReadonlyMap<string, number>,
): Html {
  const look = looks.get(speciesKey(board.species))?.look ?? PLAIN_WOOD;
  const picture = drawingToSvg(
    boardPicture(board, look, (placement) => numberByKind.get(partKey(placement)) ?? 0),
    {
      title: `Layout of board ${shortened(board.id, LONGEST_NAME)}`,
      description: shortened(describeBoard(board), 2000),
      // Several drawings stand in one page, and ids must differ.
      idPrefix: `board-${number}-`,
    },
  );
  return htmlFromSvg(picture);
}

/** In the report, too: boards are cross-cut before any paper is stuck on, often in another room. */
function crossCutSentence(board: LaidBoard, unit: DisplayUnit): string {
  const words = crossCutWords(board, unit);
  return words === '' ? '' : ` ${words[0].toUpperCase()}${words.slice(1)}.`;
}

function boardFigure(board: LaidBoard, picture: Html, unit: DisplayUnit): Html {
  const before = preparingWords(board, unit).map((words) => words.join(' '));
  const { minX, minY, maxX, maxY } = boundsOf(board.outline ?? board.usable.outline);
  const size = `${formatLength(maxX - minX, unit)} x ${formatLength(maxY - minY, unit)}`;
  const caption = `${shortened(board.species, LONGEST_NAME)}, ${size}, ${formatThickness(board.thickness, unit)} thick: ${counted(board.placements.length, 'part')}${stackWords(board)}.${before.length === 0 ? '' : ` Before that, ${before.join(', then ')}.`}`;
  return html('figure', {}, [
    html('h3', {}, [named(shortened(board.id, LONGEST_NAME))]),
    picture,
    html('figcaption', {}, [named(caption), crossCutSentence(board, unit)]),
  ]);
}

function parts(layout: Layout, kinds: readonly PartKind[], unit: DisplayUnit): Html {
  const rows = kinds.map((kind) => [
    `${kind.number}`,
    named(shortened(kind.layer, LONGEST_NAME)),
    named(shortened(kind.part, LONGEST_NAME)),
    `${kind.perSet}`,
    `${kind.placed}`,
    `${kind.unplaced}`,
    `${kind.openings}`,
    formatLength(kind.cutLength, unit, 0),
    formatTravel(kind.cutLength * kind.placed, unit),
  ]);
  const columns = [
    numbers('No.'),
    words('Layer'),
    words('Part'),
    ...['Per set', 'Placed', 'Missing', 'Openings', 'Cut each', 'Cut in all'].map(numbers),
  ];
  return html('section', {}, [
    html('h2', {}, ['Parts']),
    table(`Parts for ${counted(layout.sets, 'set')}`, columns, rows),
  ]);
}

/** The figures of the layout by species. Board feet stand in the account of the material where there is one. */
function figures(layout: Layout, { unit, material }: ReportOptions): Html {
  const feet = material === undefined;
  const row = (name: Html | string, totals: Totals) => [
    name,
    `${totals.boards}`,
    `${totals.parts}`,
    `${totals.openings}`,
    percent(totals.yield),
    ...(feet ? [totals.boardFeet.toFixed(2)] : []),
    formatTravel(totals.cutLength, unit),
  ];
  const heads = [
    ...[layout.boards.some(isInPieces) ? 'Boards and pieces' : 'Boards', 'Parts', 'Openings', 'Yield'],
    ...(feet ? ['Board feet'] : []),
    'Lines of the parts',
  ];
  const columns = [words('Species'), ...heads.map(numbers)];
  const rows = Object.entries(layout.figures.bySpecies).map(([species, totals]) =>
    row(named(shortened(species, LONGEST_NAME)), totals),
  );
  const settings = [
    `Kerf ${formatThin(layout.kerf, unit)}`,
    `clearance ${formatThin(layout.clearance, unit)}`,
    `edge margin ${formatThin(layout.edgeMargin, unit)}.`,
  ];
  return html('section', {}, [
    html('h2', {}, ['The layout in figures']),
    table('By species', columns, rows, row('All', layout.figures)),
    html('p', {}, [
      settings.join(', '),
      ' Yield is the area of the parts by the usable area of the boards that carry some, kept offcuts and all. The lines of the parts are those of every part, edges that lie on the edge of a board among them',
      layout.boards.some(({ copies }) => copies > 1)
        ? '; the parts of a stack count each, though one cut saws all its boards.'
        : '.',
    ]),
  ]);
}

function cautions(): Html {
  return html('section', {}, [html('h2', {}, ['Before you saw']), list(CAUTIONS)]);
}
