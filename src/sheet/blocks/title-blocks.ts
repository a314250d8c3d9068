import { regionArea } from '../../geometry/ring.ts';
import { boundsOf } from '../../geometry/shapes.ts';
import { counted } from '../../issues/counted.ts';
import { boardsToTake, isInPieces } from '../../model/boards-to-take.ts';
import type { BoardPlan } from '../../model/cut-plan.ts';
import type { LaidBoard } from '../../model/layout.ts';
import { formatThickness, formatThin } from '../../units/distances.ts';
import { type DisplayUnit, formatLength, MM_PER_UNIT } from '../../units/length.ts';
import { percent } from '../../units/percent.ts';
import type { BoardExtras } from '../board/board-marks.ts';
import type { PartLook } from '../board/part-look.ts';
import { drillsToTake, drillWords } from '../drills-to-take.ts';
import { drawnBlock } from '../marks/arrange.ts';
import type { Block } from '../marks/block.ts';
import { closedName } from '../marks/closed-name.ts';
import { line, type Mark, rectangle, rings, text } from '../marks/marks.ts';
import { fitted, LINE_STEP, shortenedBeforeEnd, textWidth, wrapped } from '../marks/text-width.ts';
import { preparingWords } from '../preparing-words.ts';
import { stackWords } from '../stack-words.ts';
import { CAUTIONS } from './cautions.ts';

/** What a placement sheet has to know besides the board: its title block says it. */
export interface TitleFacts extends PartLook, BoardExtras {
  readonly job: string;
  readonly design?: string | undefined;
  /** As it is to be printed; the library reads no clock. */
  readonly date?: string | undefined;
  readonly unit: DisplayUnit;
  /** Width the blade removes, mm. */
  readonly kerf: number;
  /** Extra gap between parts, mm. */
  readonly clearance?: number | undefined;
}

const SAW_THIN = 'on the waste side: the line is the edge of the part';
const SAW_WIDE = 'along the white line: it is the edge of the part';
const DRILL_RINGS = 'as ringed; no ring: a smaller one';

/** Said where names hold letters that no font of the PDF has. */
const LOST_LETTERS = '? is a letter this font lacks: see the report';

const SMALL = 2.6;
const PLAIN = 3.2;
const BLOCK_HEIGHT = 60;
/** Width of the widest block, mm. */
export const TITLE_WIDTH = 112;
/** Width of the right column of the title block, mm. */
const VALUE_WIDTH = TITLE_WIDTH - 30;

/** The two squares to measure before anything is sawn: 50 mm and 2 in, from middle of line to middle of line. */
export function calibrationBlock(): Block {
  const metric = 50;
  const inches = 2 * MM_PER_UNIT.in;
  const gap = 4;
  const block = {
    id: 'calibration',
    title: 'Calibration squares of 50 mm and 2 in',
    width: metric + gap + inches,
    height: BLOCK_HEIGHT,
  };
  return drawnBlock(block, [
    ...calibrationSquare(0, metric, '50 mm'),
    ...calibrationSquare(metric + gap, inches, '2 in'),
    text('text', 'Print at 100 %, not "fit to page". Measure both squares first.', [0, inches + 5], SMALL),
  ]);
}

function calibrationSquare(x: number, side: number, size: string): Mark[] {
  const middle = x + side / 2;
  return [
    rings('calibration', rectangle(x, 0, side, side)),
    text('heading', size, [middle, side / 2], 6, 'middle'),
    text('caption', 'across and down', [middle, side / 2 + 5], SMALL, 'middle'),
  ];
}

/** What a sheet is called: its design; the name of the job file when there is none. */
export function headline({ design, job }: Pick<TitleFacts, 'design' | 'job'>): string {
  return design ?? job;
}

/** Job, board and saw, as a table of two columns. */
export function titleBlock(board: LaidBoard, facts: TitleFacts): Block {
  return factsBlock(headline(facts), titleRows(board, facts));
}

/**
 * What holds for all boards of a job: the block of a cover page.
 *
 * @param boards those that carry parts
 * @param pages number of pages with the cover
 * @param lossy true when names hold letters that do not print
 * @param plans the order of work on boards, by the id of the board: the drills for all of them are named
 */
export function jobBlock(
  boards: readonly LaidBoard[],
  pages: number,
  lossy: boolean,
  facts: Omit<TitleFacts, 'plan'>,
  plans?: ReadonlyMap<string, BoardPlan>,
): Block {
  const planned = boards.flatMap(({ id }) => plans?.get(id) ?? []);
  const whole = boardsToTake({ boards }).reduce((sum, entry) => sum + entry.boards, 0);
  return factsBlock(headline(facts), [
    ['job', facts.job],
    [
      'boards',
      boards.some(isInPieces)
        ? `${whole} whole, in pieces: ${counted(boards.length, 'layout')}`
        : `${boards.length}`,
    ],
    ['pages', `${pages}, this one included`],
    ...sawRows(facts, planned),
    ...(lossy ? [['names', LOST_LETTERS] as [string, string]] : []),
  ]);
}

function factsBlock(heading: string, rows: readonly [string, string][]): Block {
  const width = TITLE_WIDTH;
  // Few rows stand closer than the block is high, many share its height.
  const step = Math.min(6, (BLOCK_HEIGHT - 17) / (rows.length - 1));
  // Many kinds of drills make so many rows that letters would touch those above.
  const size = Math.min(PLAIN, 0.9 * step);
  const marks: Mark[] = [
    rings('frame', rectangle(0, 0, width, BLOCK_HEIGHT)),
    text('heading', fitted(heading, width - 6, 5), [3, 7], 5),
    line('frame', [0, 10], [width, 10]),
  ];
  rows.forEach(([name, value], i) => {
    const y = 14.5 + i * step;
    // A value of several lines is named on its first.
    if (name !== '') marks.push(text('caption', name, [3, y], SMALL));
    marks.push(
      // A name too long for its row is cut: a title block that grows would push the board off its page.
      text('text', fitted(value, VALUE_WIDTH, size), [27, y], size),
    );
  });
  return drawnBlock({ id: 'title-block', title: 'Title block', width, height: BLOCK_HEIGHT }, marks);
}

function titleRows(board: LaidBoard, facts: TitleFacts): [string, string][] {
  const { unit, plan } = facts;
  const box = boundsOf(board.outline ?? board.usable.outline);
  const size = [box.maxX - box.minX, box.maxY - box.minY].map((side) => formatLength(side, unit)).join(' x ');
  const solid = board.placements.reduce((area, each) => area + regionArea(each.region), 0);
  const used = regionArea(board.usable) > 0 ? solid / regionArea(board.usable) : 0;
  return [
    ['job', facts.job],
    ['board', cutBefore(board.id, stackWords(board), shortenedBeforeEnd)],
    ['wood', cutBefore(closedName(board.species), `, ${formatThickness(board.thickness, unit)} thick`)],
    ...preparingWords(board, unit).map(([verb, object]): [string, string] => [verb, object]),
    ['size', size],
    ['parts', `${board.placements.length}, ${percent(used)} of the board`],
    // The sheet is of one board, or one stack: the same work on others like it has its own.
    ...sawRows(facts, plan === undefined ? [] : [{ ...plan, copies: 1 }]),
  ];
}

/** A name cut to the room that is left of its row by what stands behind it: how thick it is, how many are sawn. */
function cutBefore(name: string, rest: string, cut?: typeof shortenedBeforeEnd): string {
  return `${fitted(name, VALUE_WIDTH - textWidth(rest, PLAIN), PLAIN, cut)}${rest}`;
}

function sawRows(facts: TitleFacts, plans: readonly BoardPlan[]): [string, string][] {
  const { kerf, clearance, unit, date, line: edge } = facts;
  const gap = clearance ? `, ${formatThin(clearance, unit)} extra gap` : '';
  return [
    ['kerf', `${formatThin(kerf, unit)}${gap}`],
    ['saw', edge === 'wide' ? SAW_WIDE : SAW_THIN],
    ...drillRows(facts, plans),
    ['date', date ?? '-'],
    ['scale', '1 : 1, print at 100 %'],
  ];
}

/**
 * What to drill with. A plan has chosen for every hole what its blade and its place ask for; the one drill of a saw is
 * named only where nothing is planned, for many a hole would be too narrow for it.
 */
function drillRows({ drill, unit }: TitleFacts, plans: readonly BoardPlan[]): [string, string][] {
  if (plans.length === 0)
    return drill === undefined ? [] : [['drill', `${formatThin(drill, unit)} ${DRILL_RINGS}`]];
  const drills = drillsToTake(plans, unit);
  if (drills.length === 0) return [['drill', 'no holes']];
  // All of it is said, on as many lines as it takes: a drill that is cut off is one that is not at hand. A size is not
  // torn apart, and a comma at the end of a line takes little room.
  const lines = wrapped(drillWords(drills), VALUE_WIDTH - PLAIN, PLAIN, ', ');
  return lines.map((words, i) => [i === 0 ? 'drill' : '', i < lines.length - 1 ? `${words},` : words]);
}

/** The caution block. */
export function cautionBlock(): Block {
  const width = 86;
  const marks: Mark[] = [
    rings('frame', rectangle(0, 0, width, BLOCK_HEIGHT)),
    text('heading', 'Before you saw', [3, 7], 4),
    line('frame', [0, 10], [width, 10]),
  ];
  let y = 14.6;
  for (const caution of CAUTIONS) {
    marks.push(rings('text', rectangle(3, y - 1.4, 1, 1)));
    for (const words of wrapped(caution, width - 9, SMALL)) {
      marks.push(text('text', words, [6, y], SMALL));
      y += LINE_STEP * SMALL * 1.08;
    }
    y += 1.1;
  }
  return drawnBlock({ id: 'cautions', title: 'Cautions', width, height: BLOCK_HEIGHT }, marks);
}
