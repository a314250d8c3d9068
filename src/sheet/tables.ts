import { lineLength, regionArea } from '../geometry/ring.ts';
import { boundsOf, type Point } from '../geometry/shapes.ts';
import { displayUnit } from '../issues/checks.ts';
import { FretlayError, throwOnErrors } from '../issues/fretlay-error.ts';
import { wrongValue } from '../issues/wrong-value.ts';
import { cutLength } from '../model/cut-length.ts';
import type { BoardPlan, Cut, CutPlan, DrilledHole } from '../model/cut-plan.ts';
import type { LaidBoard, Layout, Placement } from '../model/layout.ts';
import { layoutCheck } from '../model/layout-checks.ts';
import { cutPlanCheck } from '../model/plan-checks.ts';
import { drillFor } from '../units/drills.ts';
import { type DisplayUnit, MM_PER_UNIT } from '../units/length.ts';
import { type CsvCell, writeCsv } from './csv.ts';
import { foreignPlan } from './sheet-checks.ts';

const PLACE_HEADS = ['board', 'boards alike', 'number', 'layer', 'part', 'set'];

/** Decimals of the lengths: finer than any saw, and a drill of 1/16 in is 0.0625. */
const DECIMALS: Readonly<Record<DisplayUnit, number>> = { mm: 3, in: 4 };

/**
 * `parts.csv`: one line for each placed part, its number on the sheets of its board (`p12` there, `12 on` the board below
 * single parts), where its left and upper end lie on the board as it is drawn (from the board's left end and upper edge),
 * and its sizes. Lengths in the unit of the job, which the heads name.
 *
 * @throws FretlayError for what is no layout, and for another unit
 */
export function partsCsv(layout: Layout, unit: DisplayUnit = 'mm'): string {
  throwOnErrors([...layoutCheck('layout', layout), ...displayUnit('unit', unit)]);
  const square = unit === 'in' ? 'sq in' : 'mm2';
  const heads = [
    ...PLACE_HEADS,
    `from left (${unit})`,
    `from top (${unit})`,
    'rotation (degrees)',
    'turned over',
    `width (${unit})`,
    `height (${unit})`,
    `area (${square})`,
    `cut length (${unit})`,
    'openings',
    'veins',
  ];
  const rows = eachPlacement(layout).map(({ board, number, placement }) => {
    const { minX, minY, maxX, maxY } = boundsOf(placement.region.outline);
    const [left, top] = cornerOf(board);
    return [
      ...place(board, number, placement),
      inUnit(minX - left, unit),
      inUnit(minY - top, unit),
      placement.rotation,
      placement.turnedOver ? 'yes' : 'no',
      inUnit(maxX - minX, unit),
      inUnit(maxY - minY, unit),
      regionArea(placement.region) / MM_PER_UNIT[unit] ** 2,
      inUnit(cutLength(placement), unit),
      placement.region.openings.length,
      placement.veins.length,
    ];
  });
  return writeCsv(heads, rows, DECIMALS[unit]);
}

/**
 * `cuts.csv`: one line for each pass of the saw, board by board in the planned order, with the number it has on the
 * placement sheet, the hole and the drill for it and why it comes at this place. Lengths in the unit of the job,
 * which the heads name; places from the board's left end and upper edge as it is drawn.
 *
 * @throws FretlayError for what is no layout or no plan, and for another unit
 */
export function cutsCsv(layout: Layout, plan: CutPlan, unit: DisplayUnit = 'mm'): string {
  throwOnErrors([
    ...layoutCheck('layout', layout),
    ...cutPlanCheck('plan', plan),
    ...displayUnit('unit', unit),
  ]);
  const heads = [
    'board',
    'boards alike',
    'cut',
    'what',
    'layer',
    'part',
    'set',
    'piece',
    `length (${unit})`,
    `lead-in (${unit})`,
    'blade',
    'begins in',
    `hole from left (${unit})`,
    `hole from top (${unit})`,
    'drill',
    `drill (${unit})`,
    'why now',
  ];
  const laid = new Map(layout.boards.map((board) => [board.id, board]));
  const rows = plan.boards.flatMap((board, i) => {
    const holes = new Map(board.holes.map((hole) => [hole.cut, hole]));
    const here = boardOf(`plan.boards[${i}]`, board, laid);
    const corner = cornerOf(here);
    return board.cuts.map((cut) => [
      board.board,
      here.copies,
      ...cutCells(cut, holes.get(cut.number), corner, unit),
    ]);
  });
  return writeCsv(heads, rows, DECIMALS[unit]);
}

/** The board of a plan; the plan of another layout is refused. */
function boardOf(field: string, plan: BoardPlan, laid: ReadonlyMap<string, LaidBoard>): LaidBoard {
  const board = laid.get(plan.board);
  if (board === undefined)
    throw new FretlayError([
      wrongValue(
        `${field}.board`,
        plan.board,
        'the id of a board of the layout',
        'Plan the cuts of this layout.',
      ),
    ]);
  throwOnErrors(foreignPlan(field, plan, board));
  return board;
}

function cutCells(cut: Cut, hole: DrilledHole | undefined, corner: Point, unit: DisplayUnit): CsvCell[] {
  return [
    cut.number,
    cut.kind,
    cut.layer,
    cut.part,
    cut.set,
    cut.piece + 1,
    inUnit(cut.length, unit),
    inUnit(lineLength(cut.leadIn), unit),
    cut.blade,
    cut.entry,
    ...holeCells(hole, corner, unit),
    cut.reason,
  ];
}

/** Where the hole is, the name of its drill and how wide that is. */
function holeCells(hole: DrilledHole | undefined, corner: Point, unit: DisplayUnit): CsvCell[] {
  if (hole === undefined) return ['', '', '', ''];
  const { name, diameter } = drillFor(hole, unit);
  const [x, y] = hole.at;
  return [inUnit(x - corner[0], unit), inUnit(y - corner[1], unit), name, inUnit(diameter, unit)];
}

/** The corner of the whole board that places are measured from: an outline as written need not begin at 0, 0. */
function cornerOf({ outline, usable }: LaidBoard): Point {
  const { minX, minY } = boundsOf(outline ?? usable.outline);
  return [minX, minY];
}

function inUnit(mm: number, unit: DisplayUnit): number {
  return mm / MM_PER_UNIT[unit];
}

function place(board: LaidBoard, number: number, { layer, part, set }: Placement): CsvCell[] {
  return [board.id, board.copies, number, layer, part, set];
}

/** Numbered on each board from 1, as the sheets number them. */
function eachPlacement({ boards }: Layout): { board: LaidBoard; number: number; placement: Placement }[] {
  return boards.flatMap((board) =>
    board.placements.map((placement, i) => ({ board, number: i + 1, placement })),
  );
}
