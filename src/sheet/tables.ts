import { lineLength, regionArea } from '../geometry/ring.ts';
import { boundsOf } from '../geometry/shapes.ts';
import type { Cut, CutPlan, DrilledHole } from '../model/cut-plan.ts';
import type { LaidBoard, Layout, Placement } from '../model/layout.ts';
import { type CsvCell, writeCsv } from './csv.ts';
import { cutLength } from './part-kinds.ts';

const PLACE_HEADS = ['board', 'boards alike', 'layer', 'part', 'set'];

/** `parts.csv`: one line for each placed part, lengths in mm, areas in mm2, in the frame of its board. */
export function partsCsv(layout: Layout): string {
  const heads = [
    ...PLACE_HEADS,
    'x (mm)',
    'y (mm)',
    'rotation (degrees)',
    'turned over',
    'width (mm)',
    'height (mm)',
    'area (mm2)',
    'cut length (mm)',
    'openings',
    'veins',
  ];
  const rows = eachPlacement(layout).map(({ board, placement }) => {
    const { minX, minY, maxX, maxY } = boundsOf(placement.region.outline);
    return [
      ...place(board, placement),
      placement.x,
      placement.y,
      placement.rotation,
      placement.turnedOver ? 'yes' : 'no',
      maxX - minX,
      maxY - minY,
      regionArea(placement.region),
      cutLength(placement),
      placement.region.openings.length,
      placement.veins.length,
    ];
  });
  return writeCsv(heads, rows);
}

/**
 * `cuts.csv`: one line for each pass of the saw, board by board in the planned order, with the number it has on the
 * placement sheet, the hole to drill for it and why it comes at this place. Lengths in mm, in the frame of the board.
 */
export function cutsCsv(layout: Layout, plan: CutPlan): string {
  const heads = [
    'board',
    'boards alike',
    'cut',
    'what',
    'layer',
    'part',
    'set',
    'piece',
    'length (mm)',
    'lead-in (mm)',
    'blade',
    'begins in',
    'hole x (mm)',
    'hole y (mm)',
    'hole (mm)',
    'why now',
  ];
  const copies = new Map(layout.boards.map((board) => [board.id, board.copies]));
  const rows = plan.boards.flatMap((board) => {
    const holes = new Map(board.holes.map((hole) => [hole.cut, hole]));
    return board.cuts.map((cut) => [
      board.board,
      copies.get(board.board) ?? board.copies,
      ...cutCells(cut, holes.get(cut.number)),
    ]);
  });
  return writeCsv(heads, rows);
}

function cutCells(cut: Cut, hole: DrilledHole | undefined): CsvCell[] {
  return [
    cut.number,
    cut.kind,
    cut.layer,
    cut.part,
    cut.set,
    cut.piece + 1,
    cut.length,
    lineLength(cut.leadIn),
    cut.blade,
    cut.entry,
    ...(hole === undefined ? ['', '', ''] : [...hole.at, hole.diameter]),
    cut.reason,
  ];
}

function place(board: LaidBoard, { layer, part, set }: Placement): CsvCell[] {
  return [board.id, board.copies, layer, part, set];
}

function eachPlacement({ boards }: Layout): { board: LaidBoard; placement: Placement }[] {
  return boards.flatMap((board) => board.placements.map((placement) => ({ board, placement })));
}
