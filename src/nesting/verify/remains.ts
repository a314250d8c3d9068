import { boundsOf, boxHolds, grownBox, type Point } from '../../geometry/shapes.ts';
import type { Issue } from '../../issues/issue.ts';
import type { BoardAreas, LaidBoard, Offcut } from '../../model/layout.ts';
import { distanceBetween } from './distances.ts';
import { breach, type MeasuredPlacement, nameOf, wrongFigure } from './places.ts';
import { type ReferenceRegion, referenceRegion } from './reference-geometry.ts';
import { AREA_TOLERANCE, DISTANCE_TOLERANCE, FIGURE_TOLERANCE } from './tolerances.ts';

/** What is left of a board: its keepers are wood that is there, and its areas are those of what lies on it. */

/** A keeper as the reference library holds it. */
interface MeasuredOffcut {
  readonly offcut: Offcut;
  readonly region: ReferenceRegion;
}

/** Checks the keepers and the areas of a board, so far as it states them. */
export function checkRemains(
  board: LaidBoard,
  pieces: readonly MeasuredPlacement[],
  breaches: Issue[],
): void {
  const { offcuts = [], areas } = board;
  // Not asked to be valid regions: where knots meet in a point at an edge, what is left touches itself there.
  const keepers = offcuts.map((offcut) => ({ offcut, region: referenceRegion(offcut.region) }));
  const whole = referenceRegion({ outline: board.outline ?? board.usable.outline, openings: [] });
  keepers.forEach((keeper, i) => {
    checkOnBoard(board, keeper, whole, breaches);
    const rivals = [
      ...pieces.map(({ placement, region }) => ({ name: nameOf(placement), region })),
      // A piece of wood that two keepers have in common would be in the rack twice.
      ...keepers.slice(i + 1).map(({ offcut, region }) => ({ name: `"${offcut.id}"`, region })),
    ];
    for (const { name, region } of rivals) {
      if (!boxesMeet(keeper.region.box, region.box)) continue;
      const { distance, at } = distanceBetween(keeper.region, region);
      if (distance >= -DISTANCE_TOLERANCE) continue;
      breaches.push(
        breach('keeper-not-left', `the keeper "${keeper.offcut.id}" lies over ${name}`, {
          board: board.id,
          at,
        }),
      );
    }
    compareArea(board, `area of "${keeper.offcut.id}"`, keeper.region.area, keeper.offcut.area, breaches);
  });
  if (areas !== undefined) checkAreas(board, areas, pieces, breaches);
}

/**
 * By its corners, for a keeper shares the edges of its board, where clipping one by the other may fail. The lines only lie
 * in the board's box: on one with a live edge they begin and end beyond the wood.
 */
function checkOnBoard(
  board: LaidBoard,
  { offcut, region }: MeasuredOffcut,
  whole: ReferenceRegion,
  breaches: Issue[],
): void {
  const { minX, minY, maxX, maxY } = offcut.rectangle;
  const corners: Point[] = [
    [minX, minY],
    [maxX, minY],
    [maxX, maxY],
    [minX, maxY],
  ];
  const box = grownBox(boundsOf(board.outline ?? board.usable.outline), DISTANCE_TOLERANCE);
  const isFree = offcut.region.outline.every(([x, y]) => whole.distanceTo(x, y) <= DISTANCE_TOLERANCE);
  const isHeld =
    minX < maxX &&
    minY < maxY &&
    corners.every(([x, y]) => region.distanceTo(x, y) <= DISTANCE_TOLERANCE) &&
    offcut.lines.every((line) => boxHolds(box, boundsOf(line)));
  if (isFree && isHeld) return;
  const fault = isFree ? 'its rectangle or a cut that frees it lies outside' : 'it lies beyond the board';
  breaches.push(
    breach('keeper-not-left', `the keeper "${offcut.id}" is not there: ${fault}`, { board: board.id }),
  );
}

function checkAreas(
  board: LaidBoard,
  areas: BoardAreas,
  pieces: readonly MeasuredPlacement[],
  breaches: Issue[],
): void {
  const { board: whole, ...shares } = areas;
  const sum = Object.values(shares).reduce((total, share) => total + share, 0);
  const slack = AREA_TOLERANCE * whole;
  if (!(Math.abs(sum - whole) <= slack))
    breaches.push(wrongFigure({ board: board.id, field: 'areas.board' }, sum, whole));
  // What is left when the rest is taken away may come out below 0, but by no more than rounding.
  for (const name of ['kerf', 'scrap'] as const)
    if (!(areas[name] >= -slack))
      breaches.push(wrongFigure({ board: board.id, field: `areas.${name}` }, '0 mm2 or more', areas[name]));
  if (board.outline !== undefined) {
    const { area } = referenceRegion({ outline: board.outline, openings: [] });
    compareArea(board, 'areas.board', area, whole, breaches);
  }
  if (pieces.length === board.placements.length) {
    const parts = pieces.reduce((total, { region }) => total + region.area, 0);
    compareArea(board, 'areas.parts', parts, areas.parts, breaches);
  }
  if (board.offcuts !== undefined) {
    const kept = board.offcuts.reduce((total, { area }) => total + area, 0);
    compareArea(board, 'areas.keepers', kept, areas.keepers, breaches);
  }
}

function compareArea(board: LaidBoard, what: string, found: number, stated: number, breaches: Issue[]): void {
  if (!(Math.abs(found - stated) <= FIGURE_TOLERANCE * found))
    breaches.push(wrongFigure({ board: board.id, field: what }, found, stated));
}

function boxesMeet(a: ReferenceRegion['box'], b: ReferenceRegion['box']): boolean {
  return a[0] <= b[2] && b[0] <= a[2] && a[1] <= b[3] && b[1] <= a[3];
}
