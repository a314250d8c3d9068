import { lineLength, regionArea, ringPerimeter } from '../geometry/ring.ts';
import { boundsOf } from '../geometry/shapes.ts';
import type { LaidBoard, Layout, Placement } from '../model/layout.ts';
import { holeOf, nestedIn } from './board/opening-marks.ts';
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
 * `cuts.csv`: one line for each pass of the saw. An opening has the centre of its largest circle, where the hole
 * for the blade is drilled, and that circle's diameter: a larger drill would cross the line.
 */
export function cutsCsv(layout: Layout): string {
  const heads = [
    ...PLACE_HEADS,
    'cut',
    'number',
    'length (mm)',
    'hole x (mm)',
    'hole y (mm)',
    'largest drill (mm)',
  ];
  const rows = eachPlacement(layout).flatMap(({ board, placement }) =>
    cutsOf(placement, board.placements).map((cut) => [...place(board, placement), ...cut]),
  );
  return writeCsv(heads, rows);
}

/** Openings and veins before the outline: while there is wood to hold. */
function cutsOf(placement: Placement, others: readonly Placement[]): CsvCell[][] {
  const { region, veins } = placement;
  const nested = nestedIn(placement, others);
  return [
    ...region.openings.map((opening, i): CsvCell[] => {
      const { centre } = holeOf(opening, nested);
      const hole = centre === undefined ? ['', '', ''] : [...centre.at, Math.floor(centre.radius * 20) / 10];
      return ['opening', i + 1, ringPerimeter(opening), ...hole];
    }),
    ...veins.map((vein, i): CsvCell[] => ['vein', i + 1, lineLength(vein), '', '', '']),
    ['outline', 1, ringPerimeter(region.outline), '', '', ''],
  ];
}

function place(board: LaidBoard, { layer, part, set }: Placement): CsvCell[] {
  return [board.id, board.copies, layer, part, set];
}

function eachPlacement({ boards }: Layout): { board: LaidBoard; placement: Placement }[] {
  return boards.flatMap((board) => board.placements.map((placement) => ({ board, placement })));
}
