import { boundsOf, boxRing, grownBox, type Line } from '../../geometry/shapes.ts';
import type { Issue } from '../../issues/issue.ts';
import { crossCutLines } from '../../model/cross-cuts.ts';
import { keeperCuts } from '../../model/keeper-cuts.ts';
import type { BoardAreas, LaidBoard } from '../../model/layout.ts';
import type { SawnWood } from './freed.ts';
import { type MeasuredPlacement, told, wrongFigure } from './places.ts';
import { type ReferenceRegion, referenceRegion, sawnAreas } from './reference-geometry.ts';
import {
  AREA_TOLERANCE,
  DISTANCE_TOLERANCE,
  EDGE_TOLERANCE,
  FIGURE_TOLERANCE,
  PATH_TOLERANCE,
} from './tolerances.ts';

/** Where the whole area of a board goes, share by share, each measured so far as the layout tells it. */

/** Checks the areas of a board. */
export function checkAreas(
  sawn: SawnWood,
  areas: BoardAreas,
  outer: ReferenceRegion,
  pieces: readonly MeasuredPlacement[],
  breaches: Issue[],
): void {
  const { board } = sawn;
  const { board: whole, ...shares } = areas;
  const slack = AREA_TOLERANCE * whole + EDGE_TOLERANCE * outer.boundaryLength;
  const total = sum(Object.values(shares));
  if (!(Math.abs(total - whole) <= slack))
    breaches.push(wrongFigure({ board: board.id, field: 'areas.board' }, total, whole));
  // What is left when the rest is taken away may come out below 0, but by no more than rounding.
  for (const name of ['kerf', 'scrap'] as const)
    if (!(areas[name] >= -slack))
      breaches.push(wrongFigure({ board: board.id, field: `areas.${name}` }, '0 mm2 or more', areas[name]));
  const knots = board.usable.openings.map((outline) => referenceRegion({ outline, openings: [] }));
  checkFlaws(sawn, areas, knots, breaches);
  if (board.outline !== undefined) compareArea(board, 'areas.board', outer.area, whole, breaches);
  if (pieces.length === board.placements.length) {
    compareArea(board, 'areas.parts', sum(pieces.map(({ region }) => region.area)), areas.parts, breaches);
    checkPath(sawn, areas, { outer, knots }, pieces, breaches);
  }
  // Keepers that are not there can not be kept.
  const kept = sum((board.offcuts ?? []).map(({ area }) => area));
  compareArea(board, 'areas.keepers', kept, areas.keepers, breaches);
}

/** Compares an area with the one that is stated, and tells where they differ. */
export function compareArea(
  board: LaidBoard,
  what: string,
  found: number,
  stated: number,
  breaches: Issue[],
): void {
  if (!(Math.abs(found - stated) <= FIGURE_TOLERANCE * found))
    breaches.push(wrongFigure({ board: board.id, field: what }, found, stated));
}

/**
 * What may be used is wood that was not trimmed off and is no knot. What a knot at the edge parts from it is less still, which
 * the layout does not tell, and where the blade goes nearer to a knot than its kerf, some of the knot counts as sawn.
 */
function checkFlaws(
  { board, usable, kerf, margin }: SawnWood,
  areas: BoardAreas,
  knots: readonly ReferenceRegion[],
  breaches: Issue[],
): void {
  const { trims, defects } = areas;
  const refuse = (field: string, expected: string, stated: number) =>
    breaches.push(wrongFigure({ board: board.id, field: `areas.${field}` }, expected, stated));
  const lacking = areas.board - usable.area;
  const inside = sum(knots.map(({ area }) => area));
  const slack =
    AREA_TOLERANCE * areas.board + PATH_TOLERANCE * sum(knots.map(({ boundaryLength }) => boundaryLength));
  if (!(trims + defects <= lacking + slack))
    refuse('trims', `at most ${told(lacking)}, with the defects`, trims + defects);
  if (margin < kerf) return;
  if (!(defects >= inside - slack)) refuse('defects', `at least ${told(inside)}`, defects);
  else if (defects <= inside + slack && !(trims + defects >= lacking - slack))
    refuse('trims', `at least ${told(lacking - defects)}`, trims);
}

/** The path of the blade, with the straight cuts where there are such, and what falls out of the parts. */
function checkPath(
  { board, usable, kerf, margin, halfCut, crosscutKerf }: SawnWood,
  areas: BoardAreas,
  { outer, knots }: { readonly outer: ReferenceRegion; readonly knots: readonly ReferenceRegion[] },
  pieces: readonly MeasuredPlacement[],
  breaches: Issue[],
): void {
  const sawn = sawnAreas(
    pieces.map(({ placement }) => placement.region),
    kerf,
  );
  const edges = sum(pieces.map(({ region }) => region.boundaryLength));
  // Round corners the path is longer than the edges, by a circle around a part at most, and both sides draw it in chords.
  const round = 2 * DISTANCE_TOLERANCE * 2 * Math.PI * kerf * pieces.length;
  const slack = AREA_TOLERANCE * areas.board + PATH_TOLERANCE * edges + round;
  // The blade goes beyond what may be used where a part is nearer to its edge than the kerf, as one that stands there is.
  const [, top, , bottom] = usable.box;
  const isInside =
    margin >= kerf && pieces.every(({ region: { box } }) => box[1] >= top + kerf && box[3] <= bottom - kerf);
  // Such a path may be told too wide, and hardly too narrow.
  const straight = crosscutKerf === undefined ? 0 : soundCuts(board, usable, crosscutKerf, kerf - margin);
  const least =
    (isInside ? sawn.parts : sawn.partsOn(usable)) -
    areas.parts -
    (straight > 0 ? AREA_TOLERANCE * areas.board + DISTANCE_TOLERANCE * edges : slack) +
    straight;
  const most =
    (isInside ? sawn.parts : sawn.partsOn(outer)) - areas.parts + slack + straightCuts(board, halfCut);
  const check = (field: 'kerf' | 'openings', low: number, high: number) => {
    // Written so that what the library fails to measure is passed: it fails where edges nearly coincide.
    if (areas[field] < low || areas[field] > high)
      breaches.push(
        wrongFigure(
          { board: board.id, field: `areas.${field}` },
          `${told(Math.max(0, low))} to ${told(high)} mm2`,
          areas[field],
        ),
      );
  };
  check('kerf', least, most);
  const fallen = sum(knots.map(({ area }) => area));
  check('openings', sawn.openings - slack - fallen, sawn.openings + slack);
}

/** Area of the straight cuts of a board at most, mm2: endless where there are such and their width is not known. */
function straightCuts(board: LaidBoard, halfCut?: number): number {
  const { outline, usable, sections = [] } = board;
  const { minX, minY, maxX, maxY } = boundsOf(outline ?? usable.outline);
  const between = sections.map(({ from }, i) => from - (i === 0 ? minX : sections[i - 1].to));
  const ends = sections.length === 0 ? 0 : maxX - sections[sections.length - 1].to;
  const length = sum(keeperCuts(board).map(lengthOf));
  const freeing = length === 0 ? 0 : 2 * (halfCut ?? Number.POSITIVE_INFINITY) * length;
  return (sum(between) + ends) * (maxY - minY) + freeing;
}

/**
 * Area of the straight cuts in what may be used of a board at least, mm2: those that free keepers, which keep off the path of the
 * blade, and those between sections, into which it goes where parts lie nearer to their ends than it is wide.
 */
function soundCuts(board: LaidBoard, usable: ReferenceRegion, width: number, beyond: number): number {
  const [, top, , bottom] = usable.box;
  const { sections = [] } = board;
  const into = Math.max(0, beyond);
  const lines = crossCutLines(board).map(boundsOf);
  const between = sections.slice(1).flatMap(({ from }, i) => {
    const { to } = sections[i];
    const own = lines.filter(({ minX }) => to < minX && minX < from);
    // To the path of the rip that ends it.
    return own.map(({ minY, maxY }) => ({
      minX: to + into,
      minY: minY > top ? minY + width / 2 : minY,
      maxX: from - into,
      maxY: maxY < bottom ? maxY - width / 2 : maxY,
    }));
  });
  // Of a slanting cut nothing is asked: its box would be more than it takes.
  const upright = keeperCuts(board)
    .map(boundsOf)
    .filter(({ minX, minY, maxX, maxY }) => minX === maxX || minY === maxY);
  const freeing = upright.map(({ minX, minY, maxX, maxY }) => {
    const [byX, byY] = minX === maxX ? [width / 2, 0] : [0, width / 2];
    return { minX: minX - byX, minY: minY - byY, maxX: maxX + byX, maxY: maxY + byY };
  });
  // A hair less, so that no edge of a cut lies along one of the board, where overlays fail.
  const cuts = [...between, ...freeing]
    .map((box) => grownBox(box, -PATH_TOLERANCE))
    .filter(({ minX, minY, maxX, maxY }) => minX < maxX && minY < maxY);
  const shared = cuts.map((box) =>
    usable.sharedArea(referenceRegion({ outline: boxRing(box), openings: [] })),
  );
  // What the library fails to measure counts as nothing.
  return sum(shared.map((area) => area || 0));
}

function lengthOf(line: Line): number {
  const [ax, ay] = line[0];
  const [bx, by] = line[line.length - 1];
  return Math.hypot(bx - ax, by - ay);
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
