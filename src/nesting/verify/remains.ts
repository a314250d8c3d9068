import { boundsOf, boxHolds, boxRing, grownBox, type Point, type Region } from '../../geometry/shapes.ts';
import type { Issue } from '../../issues/issue.ts';
import type { BoardAreas, LaidBoard, Offcut } from '../../model/layout.ts';
import { distanceBetween } from './distances.ts';
import { around, placeInside, placeOutside } from './lines.ts';
import { breach, type MeasuredPlacement, nameOf, wrongFigure } from './places.ts';
import { type ReferenceRegion, referenceRegion } from './reference-geometry.ts';
import { AREA_TOLERANCE, DISTANCE_TOLERANCE, FIGURE_TOLERANCE } from './tolerances.ts';

/**
 * What a board is and what is left of it: what may be used is wood of the board, its keepers are wood that is there, and
 * its areas are those of what lies on it.
 */

/** A keeper as the reference library holds it. */
interface MeasuredOffcut {
  readonly offcut: Offcut;
  readonly region: ReferenceRegion;
}

/** A whole board, without trims and defects: as its outline is stated, or else what may be used of it. */
interface BoardOutline {
  readonly region: Region;
  readonly solid: ReferenceRegion;
}

/** Checks what may be used of a board, its keepers and its areas, so far as it states them. */
export function checkRemains(
  board: LaidBoard,
  usable: ReferenceRegion,
  pieces: readonly MeasuredPlacement[],
  breaches: Issue[],
): void {
  const { offcuts = [], areas } = board;
  // Not asked to be valid regions: where knots meet in a point at an edge, what is left touches itself there.
  const keepers = offcuts.map((offcut) => ({ offcut, region: referenceRegion(offcut.region) }));
  const region = { outline: board.outline ?? board.usable.outline, openings: [] };
  const whole = { region, solid: referenceRegion(region) };
  if (board.outline !== undefined) checkUsable(board, whole, breaches);
  keepers.forEach((keeper, i) => {
    const { offcut, region } = keeper;
    const refuse = (why: string, at?: Point) =>
      breaches.push(breach('keeper-not-left', `the keeper "${offcut.id}" ${why}`, { board: board.id, at }));
    // By its edges, for a keeper shares those of its board, where clipping one by the other may fail.
    const beyond = placeOutside(around(offcut.region.outline), whole.region, whole.solid, DISTANCE_TOLERANCE);
    if (beyond !== undefined) refuse('is not there: it lies beyond the board', beyond);
    if (!isHeld(board, keeper)) refuse('is not there: its rectangle or a cut that frees it lies outside');
    if (!isInOneSection(board, offcut))
      refuse('is not there: it or a cut that frees it lies across sections');
    for (const { name, region: rival } of rivalsOf(pieces, keepers.slice(i + 1))) {
      if (!boxesMeet(region.box, rival.box)) continue;
      const { distance, at } = distanceBetween(region, rival);
      if (!(distance >= -DISTANCE_TOLERANCE)) refuse(`lies over ${name}`, at);
    }
    for (const defect of board.usable.openings) {
      const at = placeInside(around(defect), offcut.region, region, DISTANCE_TOLERANCE);
      if (at !== undefined) refuse('lies over a defect', at);
    }
    checkCuts(keeper, keepers, pieces, refuse);
    compareArea(board, `area of "${offcut.id}"`, region.area, offcut.area, breaches);
  });
  if (areas !== undefined) checkAreas(board, areas, { whole: whole.solid, usable }, pieces, breaches);
}

/** What may be used of a board is a part of the whole board. */
function checkUsable({ id, usable }: LaidBoard, { region, solid }: BoardOutline, breaches: Issue[]): void {
  const at = placeOutside(around(usable.outline), region, solid, DISTANCE_TOLERANCE);
  if (at === undefined) return;
  breaches.push(
    breach('usable-beyond-board', 'what may be used of the board lies beyond its outline', { board: id, at }),
  );
}

/** What a keeper may not lie over. A piece of wood that two keepers have in common would be in the rack twice. */
function rivalsOf(pieces: readonly MeasuredPlacement[], others: readonly MeasuredOffcut[]) {
  return [
    ...pieces.map(({ placement, region }) => ({ name: nameOf(placement), region })),
    ...others.map(({ offcut, region }) => ({ name: `"${offcut.id}"`, region })),
  ];
}

/**
 * Whether a keeper holds its rectangle, and the board the cuts. Those only lie in the board's box: on a board with a live
 * edge they begin and end beyond the wood.
 */
function isHeld(board: LaidBoard, { offcut, region }: MeasuredOffcut): boolean {
  const { minX, minY, maxX, maxY } = offcut.rectangle;
  const box = grownBox(boundsOf(board.outline ?? board.usable.outline), DISTANCE_TOLERANCE);
  return (
    minX < maxX &&
    minY < maxY &&
    boxRing(offcut.rectangle).every(([x, y]) => region.distanceTo(x, y) <= DISTANCE_TOLERANCE) &&
    offcut.lines.every((line) => boxHolds(box, boundsOf(line)))
  );
}

/** A board is cross-cut to its sections first: a keeper is left of one of them, and what frees it is sawn in that one. */
function isInOneSection({ sections = [] }: LaidBoard, { region, lines }: Offcut): boolean {
  const { minX, maxX } = boundsOf([...region.outline, ...lines.flat()]);
  return (
    sections.length === 0 ||
    sections.some(({ from, to }) => minX >= from - DISTANCE_TOLERANCE && maxX <= to + DISTANCE_TOLERANCE)
  );
}

/**
 * The straight cuts that free a keeper go through wood that is left over: not through a part, nor through any keeper. Their
 * width is no matter of a layout, so that they keep off by half of it cannot be asked.
 */
function checkCuts(
  freed: MeasuredOffcut,
  keepers: readonly MeasuredOffcut[],
  pieces: readonly MeasuredPlacement[],
  refuse: (why: string, at: Point) => void,
): void {
  const all = [
    ...keepers.map((keeper) => ({
      name: keeper === freed ? 'it' : `"${keeper.offcut.id}"`,
      shape: keeper.offcut.region,
      region: keeper.region,
    })),
    ...pieces.map(({ placement, region: own }) => ({
      name: nameOf(placement),
      shape: placement.region,
      region: own,
    })),
  ];
  for (const line of freed.offcut.lines) {
    const { minX, minY, maxX, maxY } = boundsOf(line);
    for (const { name, shape, region: own } of all) {
      if (!boxesMeet([minX, minY, maxX, maxY], own.box)) continue;
      const at = placeInside(line, shape, own, DISTANCE_TOLERANCE);
      if (at !== undefined) refuse(`is not freed: a straight cut for it runs through ${name}`, at);
    }
  }
}

function checkAreas(
  board: LaidBoard,
  areas: BoardAreas,
  { whole: outer, usable }: { readonly whole: ReferenceRegion; readonly usable: ReferenceRegion },
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
  // What may be used is wood that was not trimmed off and is no knot; what knots part from the rest is less still.
  const sound = whole - areas.trims - areas.defects;
  if (!(usable.area <= sound + slack))
    breaches.push(
      wrongFigure(
        { board: board.id, field: 'areas.trims' },
        `at most ${whole - usable.area}, with the defects`,
        areas.trims + areas.defects,
      ),
    );
  if (board.outline !== undefined) compareArea(board, 'areas.board', outer.area, whole, breaches);
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
