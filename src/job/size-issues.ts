import { boundsOf, sidesOf } from '../geometry/shapes.ts';
import type { Issue } from '../issues/issue.ts';
import type { Board } from '../model/stock.ts';
import { trimmedOutline } from '../stock/trim.ts';
import { MM_PER_UNIT } from '../units/length.ts';
import type { Job } from './job-schema.ts';

/**
 * What is taken without a word, mm (common practice, no source). Boards are sold up to 20 ft, sheets up to 5 x 10 ft and
 * a little more where they are sold by the metre; the thickest lumber is 16/4, the thinnest veneer some 0.6 mm. Scraps
 * are used down to a few square centimetres. A scene of more than 2 m, or less than a thumb's breadth, is none. Parts lie some
 * millimetres from one another and from the edge, for wood is dear. A board that is 1/8 in too thick is seen in the finished
 * piece, and no saw for straight cuts is wider than 1/4 in.
 */
const LIKELY = {
  'longer side': { least: 50, most: 6500 },
  'shorter side': { least: 5, most: 2200 },
  thickness: { least: 0.55, most: 110 },
  scene: { least: 20, most: 2000 },
  clearance: { least: 0, most: 12 },
  'edge margin': { least: 0, most: 40 },
  tolerance: { least: 0, most: 3.2 },
  'straight cut': { least: 0, most: 6.5 },
  part: { least: 2, most: 2000 },
} as const;

/**
 * A board, no sheet and no keeper, that is wider across the grain than this, mm, and more than twice as wide as long: trees
 * are seldom that wide (common practice, no source), and a slip of two fields is.
 */
const WIDEST_SHORT_BOARD = 400;

/** True when a shop may have a board with these sides, mm. */
export function isLikelyBoard(sides: readonly number[]): boolean {
  const [shorter, longer] = [Math.min(...sides), Math.max(...sides)];
  return longer <= LIKELY['longer side'].most && shorter <= LIKELY['shorter side'].most;
}

/** Whether a rule of inches with thirty-seconds shows a number, but for rounding. */
export function isOnRule(size: number): boolean {
  return Math.abs(size * 32 - Math.round(size * 32)) < 1e-6;
}

/**
 * Warnings for boards, thicknesses and finished sizes that no shop has: a number was most likely written in another unit.
 * The layout would be right for them, so nothing else tells, and wood would be counted or bought that is not there.
 *
 * @param boards at hand and for sale, as they came out of the job, the rack and the drawings of boards
 */
export function sizeIssues(
  boards: readonly Pick<Board, 'id' | 'outline' | 'thickness' | 'trim' | 'sheet' | 'keeper'>[],
  job: Pick<Job, 'layers' | 'pattern' | 'clearance' | 'edgeMargin' | 'thicknessTolerance' | 'crosscutKerf'>,
  file: string,
): Issue[] {
  const told = (what: string, mm: number, of: keyof typeof LIKELY, where: Issue['where']) =>
    unlikely(what, mm, LIKELY[of], { file, ...where });
  const { layers, clearance, edgeMargin, thicknessTolerance, crosscutKerf } = job;
  return [
    ...boards.flatMap((board) => {
      const { id, outline, thickness } = board;
      const [shorter, longer] = sidesOf(boundsOf(outline));
      return [
        ...shortAndWide(board, file),
        ...trimmedAway(board, file),
        ...told('the longer side of this board', longer, 'longer side', { board: id }),
        ...told('the shorter side of this board', shorter, 'shorter side', { board: id }),
        ...told('the thickness of this board', thickness, 'thickness', { board: id }),
      ];
    }),
    ...Object.entries(layers).flatMap(([layer, { thickness }]) =>
      thickness === undefined ? [] : told('the thickness of this layer', thickness, 'thickness', { layer }),
    ),
    ...finishedSizeIssues(job, file),
    ...told('the gap between parts on top of the kerf', clearance, 'clearance', { field: 'clearance' }),
    ...told('the gap to the edge of the board', edgeMargin, 'edge margin', { field: 'edgeMargin' }),
    ...told('the difference that is allowed between board and layer', thicknessTolerance, 'tolerance', {
      field: 'thicknessTolerance',
    }),
    ...(crosscutKerf === undefined
      ? []
      : told('the width of a straight cut', crosscutKerf, 'straight cut', { field: 'crosscutKerf' })),
  ];
}

/** A warning for a finished size that no scene or part has: one in the wrong unit makes every part larger than every board. */
export function finishedSizeIssues(
  { pattern: { finishedSize } }: Pick<Job, 'pattern'>,
  file: string,
): Issue[] {
  if (finishedSize === undefined) return [];
  const of = finishedSize.layer === undefined ? 'scene' : 'part';
  return unlikely('the finished size', finishedSize.length, LIKELY[of], {
    file,
    field: 'pattern.finishedSize.length',
  });
}

function shortAndWide(
  { id, outline, sheet, keeper }: Pick<Board, 'id' | 'outline' | 'sheet' | 'keeper'>,
  file: string,
): Issue[] {
  const { minX, minY, maxX, maxY } = boundsOf(outline);
  const [length, width] = [maxX - minX, maxY - minY];
  if (sheet === true || keeper === true || width <= WIDEST_SHORT_BOARD || width <= 2 * length) return [];
  return [
    {
      kind: 'size-unlikely',
      severity: 'warning',
      message: 'this board is far wider across its grain than it is long',
      received: `${round(length)} mm long, ${round(width)} mm wide`,
      remedy:
        'The length of a board runs along its grain: see whether length and width changed places; if they are right, leave it.',
      where: { file, board: id },
    },
  ];
}

/** A board of which the trim leaves nothing is left aside, and others are taken. */
function trimmedAway({ id, outline, trim }: Pick<Board, 'id' | 'outline' | 'trim'>, file: string): Issue[] {
  if (trim === undefined || trimmedOutline({ outline, trim }).outline.length > 0) return [];
  return [
    {
      kind: 'size-unlikely',
      severity: 'warning',
      message: 'the trim leaves nothing of this board, so it is left aside',
      remedy: 'Look at the units under "trim": a plain number is in millimetres.',
      where: { file, board: id },
    },
  ];
}

function unlikely(
  what: string,
  mm: number,
  { least, most }: { readonly least: number; readonly most: number },
  where: Issue['where'],
): Issue[] {
  if (mm >= least && mm <= most) return [];
  const small = mm < least;
  return [
    {
      kind: 'size-unlikely',
      severity: 'warning',
      message: `${what} is unlikely ${small ? 'small' : 'large'}`,
      expected: small ? `at least ${least} mm` : `at most ${most} mm`,
      received: `${Number(mm.toFixed(2))} mm`,
      remedy: meant(mm, least, most),
      where,
    },
  ];
}

/** What may have been meant: the same number in inches where it is small, in millimetres where it is large. */
function meant(mm: number, least: number, most: number): string {
  const asInches = mm * MM_PER_UNIT.in;
  const ofInches = mm / MM_PER_UNIT.in;
  const guess: [number, string] =
    mm < least ? [asInches, `${round(mm)} in`] : [ofInches, `${round(ofInches)} mm`];
  const likely = guess[0] >= least && guess[0] <= most && (mm < least || isWritten(ofInches));
  return likely
    ? `If "${guess[1]}" was meant, write that; if the size is right, leave it.`
    : 'Look at its unit; if the size is right, leave it.';
}

/** Whether somebody writes such a number of inches: of 5 mm, 0.19685 in, nobody meant 0.197 mm. */
function isWritten(inches: number): boolean {
  return [64, 100].some((steps) => Math.abs(inches * steps - Math.round(inches * steps)) < 1e-6);
}

function round(size: number): number {
  return Number(size.toFixed(3));
}
