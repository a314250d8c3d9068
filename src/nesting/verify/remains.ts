import {
  boundsOf,
  boxHolds,
  boxRing,
  grownBox,
  type Line,
  type Point,
  type Region,
} from '../../geometry/shapes.ts';
import type { Issue } from '../../issues/issue.ts';
import type { LaidBoard, Offcut } from '../../model/layout.ts';
import { checkAreas, compareArea } from './areas.ts';
import { distanceBetween } from './distances.ts';
import { distanceToCorners, type SawnWood, unsawnEdge } from './freed.ts';
import { around, placeInside, placeOutside, placeOver } from './lines.ts';
import { isAcrossSections } from './over-sections.ts';
import { breach, type MeasuredPlacement, nameOf } from './places.ts';
import { type ReferenceRegion, referenceRegion } from './reference-geometry.ts';
import { DISTANCE_TOLERANCE } from './tolerances.ts';

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
export function checkRemains(sawn: SawnWood, pieces: readonly MeasuredPlacement[], breaches: Issue[]): void {
  const { board, usable, kerf, halfCut } = sawn;
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
    else if (isTrimmed(board, usable, offcut)) refuse('is not there: it lies beyond what may be used');
    if (!isHeld(board, keeper)) refuse('is not there: its rectangle or a cut that frees it lies outside');
    if (isAcrossSections(board, offcut))
      refuse('is not there: it or a cut that frees it lies across sections');
    for (const { name, region: rival, gap } of rivalsOf(pieces, kerf, keepers.slice(i + 1))) {
      if (!boxesMeet(region.box, rival.box, gap)) continue;
      const { distance, at } = distanceBetween(region, rival);
      if (!(distance >= -DISTANCE_TOLERANCE)) refuse(`lies over ${name}`, at);
      else if (!(distance >= gap - DISTANCE_TOLERANCE))
        refuse(`lies where the blade goes around ${name}`, at);
    }
    for (const defect of board.usable.openings) {
      const at = placeOver(defect, offcut.region, region, DISTANCE_TOLERANCE);
      if (at !== undefined) refuse('lies over a defect', at);
    }
    checkCuts(keeper, keepers, { pieces, halfCut }, refuse);
    if (halfCut !== undefined && liesInCut(keeper, keepers, halfCut))
      refuse('lies where a straight cut goes');
    const unsawn = unsawnEdge(offcut.region, offcut.lines, sawn);
    if (unsawn !== undefined) refuse('is not freed: nothing saws along its edge', unsawn);
    compareArea(board, `area of "${offcut.id}"`, region.area, offcut.area, breaches);
  });
  if (areas !== undefined) checkAreas(sawn, areas, whole.solid, pieces, breaches);
}

/** What may be used of a board is a part of the whole board. */
function checkUsable({ id, usable }: LaidBoard, { region, solid }: BoardOutline, breaches: Issue[]): void {
  const at = placeOutside(around(usable.outline), region, solid, DISTANCE_TOLERANCE);
  if (at === undefined) return;
  breaches.push(
    breach('usable-beyond-board', 'what may be used of the board lies beyond its outline', { board: id, at }),
  );
}

/** Whether a keeper lies partly in what may be used and partly beyond it, in what is trimmed off. */
function isTrimmed({ usable }: LaidBoard, solid: ReferenceRegion, { region }: Offcut): boolean {
  const edge = around(region.outline);
  // Wholly beyond it may be what a knot parts from the larger piece of a board.
  return (
    placeOutside(edge, usable, solid, DISTANCE_TOLERANCE) !== undefined &&
    placeInside(edge, usable, solid, DISTANCE_TOLERANCE) !== undefined
  );
}

/**
 * What a keeper may not lie over, and the gap to it, mm. A piece of wood that two keepers have in common would be in the rack
 * twice.
 */
function rivalsOf(pieces: readonly MeasuredPlacement[], kerf: number, others: readonly MeasuredOffcut[]) {
  return [
    ...pieces.map(({ placement, region }) => ({ name: nameOf(placement), region, gap: kerf })),
    ...others.map(({ offcut, region }) => ({ name: `"${offcut.id}"`, region, gap: 0 })),
  ];
}

/** Whether a keeper reaches into the wood that a straight cut takes, of whichever keeper of the board it is one. */
function liesInCut({ offcut }: MeasuredOffcut, keepers: readonly MeasuredOffcut[], halfCut: number): boolean {
  return keepers.some(({ offcut: { lines } }) =>
    lines.some((line) => distanceToCorners(offcut.region, line) < halfCut - DISTANCE_TOLERANCE),
  );
}

/**
 * Whether a keeper holds its rectangle, and the board the cuts. Those only lie in the board's box: on a board with a live
 * edge they begin and end beyond the wood.
 */
function isHeld(board: LaidBoard, { offcut, region: solid }: MeasuredOffcut): boolean {
  const { region, rectangle, lines } = offcut;
  const { minX, minY, maxX, maxY } = rectangle;
  if (!(minX < maxX && minY < maxY)) return false;
  const box = { outline: boxRing(rectangle), openings: [] };
  const boxSolid = referenceRegion(box);
  const isWhole =
    placeOutside(around(box.outline), region, solid, DISTANCE_TOLERANCE) === undefined &&
    // A knot in the middle of it is crossed by none of its sides.
    region.openings.every(
      (ring) => placeInside(around(ring), box, boxSolid, DISTANCE_TOLERANCE) === undefined,
    );
  const whole = grownBox(boundsOf(board.outline ?? board.usable.outline), DISTANCE_TOLERANCE);
  return isWhole && lines.every((line) => boxHolds(whole, boundsOf(line)));
}

/**
 * The straight cuts that free a keeper go through wood that is left over: in all their width neither through a part nor through any
 * keeper.
 */
function checkCuts(
  freed: MeasuredOffcut,
  keepers: readonly MeasuredOffcut[],
  { pieces, halfCut = 0 }: { readonly pieces: readonly MeasuredPlacement[] } & Pick<SawnWood, 'halfCut'>,
  refuse: (why: string, at: Point) => void,
): void {
  const all = [
    ...keepers.map((keeper) => ({
      name: keeper === freed ? 'it' : `"${keeper.offcut.id}"`,
      shape: keeper.offcut.region,
      region: keeper.region,
      isPart: false,
    })),
    ...pieces.map(({ placement, region: own }) => ({
      name: nameOf(placement),
      shape: placement.region,
      region: own,
      isPart: true,
    })),
  ];
  const within = halfCut - DISTANCE_TOLERANCE;
  for (const line of freed.offcut.lines) {
    const { minX, minY, maxX, maxY } = boundsOf(line);
    const cut = linesOfCut(line, within);
    for (const { name, shape, region: own, isPart } of all) {
      if (!boxesMeet([minX, minY, maxX, maxY], own.box, halfCut)) continue;
      const places = cut.map((each) => placeInside(each, shape, own, DISTANCE_TOLERANCE));
      // A part between the middle of the cut and its side; a keeper there is told by itself.
      if (isPart && distanceToCorners(shape, line) < within) places.push(line[0]);
      const at = places.find((place) => place !== undefined);
      if (at !== undefined) refuse(`is not freed: a straight cut for it runs through ${name}`, at);
    }
  }
}

/** A straight cut as lines along it: its middle, and one so many mm to either side. */
function linesOfCut(line: Line, aside: number): Line[] {
  const [[ax, ay], [bx, by]] = [line[0], line[line.length - 1]];
  const length = Math.hypot(bx - ax, by - ay);
  if (!(length > 0 && aside > 0)) return [line];
  const [dx, dy] = [((ay - by) * aside) / length, ((bx - ax) * aside) / length];
  return [0, 1, -1].map((side) => line.map(([x, y]): Point => [x + side * dx, y + side * dy]));
}

/** Whether two boxes come within a gap of each other, mm. */
function boxesMeet(a: ReferenceRegion['box'], b: ReferenceRegion['box'], gap = 0): boolean {
  return a[0] <= b[2] + gap && b[0] <= a[2] + gap && a[1] <= b[3] + gap && b[1] <= a[3] + gap;
}
