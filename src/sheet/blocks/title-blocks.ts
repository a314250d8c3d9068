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
/** Width of the left column of the title block with its margins, and that of the right one, mm. */
const NAMES_WIDTH = 30;
const VALUE_WIDTH = TITLE_WIDTH - NAMES_WIDTH;
/** Sides of the two squares and the gap between them, mm. */
const METRIC = 50;
const INCHES = 2 * MM_PER_UNIT.in;
const SQUARES_GAP = 4;
const MEASURE_FIRST = 'Print at 100 %, not "fit to page". Measure both squares first.';

/** The two squares to measure before anything is sawn: 50 mm and 2 in, from middle of line to middle of line. */
export function calibrationBlock(): Block {
  const block = { id: 'calibration', title: 'Calibration squares of 50 mm and 2 in', height: BLOCK_HEIGHT };
  return drawnBlock({ ...block, width: METRIC + SQUARES_GAP + INCHES }, [
    ...calibrationSquare(0, METRIC, '50 mm'),
    ...calibrationSquare(METRIC + SQUARES_GAP, INCHES, '2 in'),
    text('text', MEASURE_FIRST, [0, INCHES + 5], SMALL),
  ]);
}

/** The same, or each square by itself where both are wider than `room` mm. */
export function calibrationBlocks(room: number): Block[] {
  const both = calibrationBlock();
  if (both.width <= room) return [both];
  return [
    { side: METRIC, size: '50 mm' },
    { side: INCHES, size: '2 in' },
  ].map(({ side, size }, i) => {
    const lines = wrapped(MEASURE_FIRST, room, SMALL);
    const block = { id: `calibration-${i + 1}`, title: `Calibration square of ${size}` };
    return drawnBlock({ ...block, width: room, height: side + 4 + lines.length * LINE_STEP * SMALL }, [
      ...calibrationSquare(0, side, size),
      ...lines.map((words, k) => text('text', words, [0, side + 5 + k * LINE_STEP * SMALL], SMALL)),
    ]);
  });
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
 * @param room the block may take, mm: where that is narrow, values take more lines
 */
export function jobBlock(
  boards: readonly LaidBoard[],
  pages: number,
  lossy: boolean,
  facts: Omit<TitleFacts, 'plan'>,
  plans: ReadonlyMap<string, BoardPlan> | undefined,
  room: Room,
): Block {
  const planned = boards.flatMap(({ id }) => plans?.get(id) ?? []);
  const whole = boardsToTake({ boards }).reduce((sum, entry) => sum + entry.boards, 0);
  const rows: [string, string][] = [
    ['job', facts.job],
    [
      'boards',
      boards.some(isInPieces)
        ? `${whole} whole, in pieces: ${counted(boards.length, 'layout')}`
        : whole === boards.length
          ? `${whole}`
          : `${whole}, sawn in ${counted(boards.length, 'layout')}`,
    ],
    ['pages', `${pages}, this one included`],
    ...sawRows(facts, planned, '1 : 1 but for the maps, print at 100 %'),
    ...(lossy ? [['names', LOST_LETTERS] as [string, string]] : []),
  ];
  if (room.width >= TITLE_WIDTH) return factsBlock(headline(facts), rows);
  const narrow = rows.flatMap(([name, value], i): [string, string][] =>
    // The name of a job may be of any length.
    i === 0
      ? [[name, value]]
      : wrapped(value, room.width - NAMES_WIDTH, PLAIN).map((words, k) => [k === 0 ? name : '', words]),
  );
  const height = Math.min(room.height, Math.max(BLOCK_HEIGHT, 17 + NARROW_STEP * (narrow.length - 1)));
  return factsBlock(headline(facts), narrow, { width: room.width, height });
}

/** What a block may take of a page, mm. */
interface Room {
  readonly width: number;
  readonly height: number;
}

/** Between lines of a title block that grows because it is narrow, mm. */
const NARROW_STEP = 4;

/** Of the name of the job, mm: smaller before its end is cut off. */
const HEADING_SIZES = [5, 4, PLAIN];

function factsBlock(
  heading: string,
  rows: readonly [string, string][],
  { width, height }: Room = { width: TITLE_WIDTH, height: BLOCK_HEIGHT },
): Block {
  // Few rows stand closer than the block is high, many share its height.
  const step = Math.min(6, (height - 17) / (rows.length - 1));
  const headSize = HEADING_SIZES.find((each) => textWidth(heading, each) <= width - 6) ?? PLAIN;
  // Many kinds of drills make so many rows that letters would touch those above.
  const size = Math.min(PLAIN, 0.9 * step);
  const marks: Mark[] = [
    rings('frame', rectangle(0, 0, width, height)),
    text('heading', fitted(heading, width - 6, headSize), [3, 7], headSize),
    line('frame', [0, 10], [width, 10]),
  ];
  rows.forEach(([name, value], i) => {
    const y = 14.5 + i * step;
    // A value of several lines is named on its first.
    if (name !== '') marks.push(text('caption', name, [3, y], SMALL));
    marks.push(
      // A name too long for its row is cut: a title block that grows would push the board off its page.
      text('text', fitted(value, width - NAMES_WIDTH, size), [27, y], size),
    );
  });
  return drawnBlock({ id: 'title-block', title: 'Title block', width, height }, marks);
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

function sawRows(
  facts: TitleFacts,
  plans: readonly BoardPlan[],
  scale = '1 : 1, print at 100 %',
): [string, string][] {
  const { kerf, clearance, unit, date, line: edge } = facts;
  const gap = clearance ? `, ${formatThin(clearance, unit)} extra gap` : '';
  return [
    ['kerf', `${formatThin(kerf, unit)}${gap}`],
    ['saw', edge === 'wide' ? SAW_WIDE : SAW_THIN],
    ...drillRows(facts, plans),
    ['date', date ?? '-'],
    ['scale', scale],
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

/** Width of the caution block, mm, where there is room. */
const CAUTION_WIDTH = 86;

/** The caution block, higher where it has less than its width: none of it is left out. */
export function cautionBlock(room = CAUTION_WIDTH): Block {
  const width = Math.min(CAUTION_WIDTH, room);
  const marks: Mark[] = [text('heading', 'Before you saw', [3, 7], 4), line('frame', [0, 10], [width, 10])];
  let y = 14.6;
  for (const caution of CAUTIONS) {
    marks.push(rings('text', rectangle(3, y - 1.4, 1, 1)));
    for (const words of wrapped(caution, width - 9, SMALL)) {
      marks.push(text('text', words, [6, y], SMALL));
      y += LINE_STEP * SMALL * 1.08;
    }
    y += 1.1;
  }
  const height = width < CAUTION_WIDTH ? y : BLOCK_HEIGHT;
  const frame = rings('frame', rectangle(0, 0, width, height));
  return drawnBlock({ id: 'cautions', title: 'Cautions', width, height }, [frame, ...marks]);
}
