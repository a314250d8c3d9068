import type { Line, Point, Region } from '../../geometry/shapes.ts';
import { halfCutBetween } from '../../model/cross-cuts.ts';
import type { LaidBoard, Layout } from '../../model/layout.ts';
import { around, type Edges, edgesOf, stretchesOff } from './lines.ts';
import type { ReferenceRegion } from './reference-geometry.ts';

/**
 * Whether a keeper comes free: its edge is that of the board or of a knot, an end of a section, the path of the blade around a
 * part, or a side of a straight cut.
 */

/** How far an edge may lie from what frees it, mm: the path of the blade is drawn with few corners, somewhat too wide. */
const BESIDE = 0.1;

/**
 * Longest edge that nothing frees, mm: where wood beside a keeper is less than 10 mm wide it is no part of it, and breaks off. The
 * edge is then round, by a radius of 7.1 mm, and reaches from wall to wall: it is no longer than the whole circle.
 */
const BREAKS_OFF = 45;

/** Half the width of the straight cuts, mm, which a layout does not state: undefined where it cannot be told from it. */
export function halfCutOf({ boards }: Layout): number | undefined {
  const between = Math.min(...boards.map(({ sections = [] }) => halfCutBetween(sections)));
  if (between < Number.POSITIVE_INFINITY) return between;
  const beside = boards.flatMap(({ offcuts = [] }) =>
    offcuts.flatMap(({ region, lines }) => lines.map((line) => distanceToCorners(region, line))),
  );
  return beside.length > 0 ? Math.min(...beside) : undefined;
}

/** Distance in mm from a straight line to the nearest corner of a region: to the region, where they do not cross. */
export function distanceToCorners({ outline, openings }: Region, line: Line): number {
  const [[ax, ay], [bx, by]] = [line[0], line[line.length - 1]];
  const [dx, dy] = [bx - ax, by - ay];
  const length = dx * dx + dy * dy;
  let least = Number.POSITIVE_INFINITY;
  for (const ring of [outline, ...openings]) {
    for (const [x, y] of ring) {
      const along = length > 0 ? Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / length)) : 0;
      least = Math.min(least, Math.hypot(x - ax - along * dx, y - ay - along * dy));
    }
  }
  return least;
}

/** What is sawn of a board, as far as it bounds a keeper. */
export interface SawnWood {
  readonly board: LaidBoard;
  readonly usable: ReferenceRegion;
  /** Width that the blade removes, mm. */
  readonly kerf: number;
  /** Gap between parts and the edge of the usable board, mm. */
  readonly margin: number;
  /** Half the width of a straight cut, mm; undefined where the layout does not tell it. */
  readonly halfCut: number | undefined;
  /** Width of a straight cut as the batch has it, mm; undefined when that is not at hand. */
  readonly crosscutKerf: number | undefined;
}

/** A point in mm on the edge of a keeper where nothing saws; undefined when all of it comes free. */
export function unsawnEdge(
  { outline, openings }: Region,
  lines: readonly Line[],
  { board, usable, kerf, halfCut = 0 }: SawnWood,
): Point | undefined {
  const ringsOf = (region: Region, reach: number): Edges[] =>
    [region.outline, ...region.openings].map((ring) => edgesOf(ring, reach));
  const [, minY, , maxY] = usable.box;
  const ends = (board.sections ?? []).flatMap(({ from, to }) => [from, to]);
  const edges = [
    ...ringsOf(board.usable, BESIDE),
    ...board.placements.flatMap(({ region }) => ringsOf(region, kerf + BESIDE)),
    ...lines.map((line) => edgesOf(line, halfCut + BESIDE)),
    ...ends.map((x) =>
      edgesOf(
        [
          [x, minY],
          [x, maxY],
        ],
        BESIDE,
      ),
    ),
  ];
  // Of a board parted by a knot, the layout has the edges of the larger piece alone: of the other one nothing is asked.
  return [outline, ...openings]
    .flatMap((ring) => stretchesOff(around(ring), edges))
    .find(({ length, at: [x, y] }) => length > BREAKS_OFF && usable.distanceTo(x, y) === 0)?.at;
}
