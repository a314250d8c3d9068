import { listOf, optional } from '../issues/checks.ts';
import { counted } from '../issues/counted.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { BoardPlan } from '../model/cut-plan.ts';
import type { LaidBoard } from '../model/layout.ts';
import { laidBoardCheck } from '../model/layout-checks.ts';
import { writeDocument } from '../svg/write.ts';
import { keyBlock } from './blocks/key-block.ts';
import {
  calibrationBlock,
  cautionBlock,
  headline,
  type TitleFacts,
  titleBlock,
} from './blocks/title-blocks.ts';
import { boardMarks } from './board/board-marks.ts';
import { PartDrawer } from './board/part-marks.ts';
import { arrangeBlocks, blockGroup } from './marks/arrange.ts';
import { type MarkedDrawing, rolesOf } from './marks/marks.ts';
import { drawingToSvg } from './marks/marks-to-svg.ts';
import { drawerCheck, foreignPlan, foreignPlans, plansCheck, titleCheck } from './sheet-checks.ts';

/** White around everything, mm. */
const BORDER = 8;
/** Narrowest row of blocks beside the board, mm: the calibration squares and the title block. */
const NARROWEST = 230;

/**
 * The placement sheet of one board as SVG at true scale: 1 user unit = 1 mm, in the frame of the board (its
 * corner keeps its coordinates; the blocks lie above it, at negative y). Same input, same text, byte for byte.
 *
 * @param drawer share one between the boards of a layout: finding room for labels is then done once per kind
 * @throws FretlayError for what is no board of a layout, or when its title makes no sense
 */
export function drawPlacementSheet(board: LaidBoard, options: TitleFacts, drawer?: PartDrawer): string {
  throwOnErrors([
    ...laidBoardCheck('board', board),
    ...titleCheck('options', options),
    ...drawerCheck('drawer', drawer),
  ]);
  throwOnErrors(foreignPlan('options.plan', options.plan, board));
  return written(board, options, drawer ?? new PartDrawer(options));
}

function written(board: LaidBoard, options: TitleFacts, drawer: PartDrawer): string {
  return writeDocument(
    drawingToSvg(placementSheet(board, options, drawer), {
      title: `Placement sheet of board ${board.id}, ${headline(options)}`,
      description: describeBoard(board),
    }),
  );
}

/**
 * The placement sheets of several boards, in their order. Quicker than one by one: where a label finds room is
 * worked out once for all copies of a part that lie the same way.
 *
 * @throws FretlayError as {@link drawPlacementSheet} does
 */
export function drawPlacementSheets(
  boards: readonly LaidBoard[],
  options: Omit<TitleFacts, 'plan'>,
  plans?: ReadonlyMap<string, BoardPlan>,
  drawer?: PartDrawer,
): string[] {
  throwOnErrors([
    ...listOf(laidBoardCheck)('boards', boards),
    ...titleCheck('options', options),
    ...optional(plansCheck)('plans', plans),
    ...drawerCheck('drawer', drawer),
  ]);
  throwOnErrors(foreignPlans('plans', plans, boards));
  const shared = drawer ?? new PartDrawer(options);
  return boards.map((board) => written(board, { ...options, plan: plans?.get(board.id) }, shared));
}

/** The placement sheet as marks, for any kind of output. */
export function placementSheet(
  board: LaidBoard,
  options: TitleFacts,
  drawer: PartDrawer = new PartDrawer(options),
): MarkedDrawing {
  const { marks, box } = boardMarks(board, options, drawer);
  const width = Math.max(NARROWEST, box.maxX - box.minX);
  const blocks = arrangeBlocks(
    [calibrationBlock(), titleBlock(board, options), cautionBlock(), keyBlock(rolesOf(marks))],
    width,
  );
  const top = box.minY - BORDER - blocks.height;
  return {
    x: box.minX - BORDER,
    y: top - BORDER,
    width: Math.max(blocks.width, box.maxX - box.minX) + 2 * BORDER,
    height: box.maxY - top + 2 * BORDER,
    marks: [...blocks.placed.map(({ block, x, y }) => blockGroup(block, box.minX + x, top + y)), ...marks],
  };
}

/** One sentence for people who cannot see the drawing. */
export function describeBoard(board: LaidBoard): string {
  const kinds = new Map<string, number>();
  for (const { layer, part } of board.placements) {
    const name = `${layer} ${part}`;
    kinds.set(name, (kinds.get(name) ?? 0) + 1);
  }
  const list = [...kinds].map(([name, count]) => `${count} x ${name}`).join(', ');
  return `${counted(board.placements.length, 'part')} on ${board.species}: ${list || 'none'}.`;
}
