import { type Box, boundsOf, boxRing, type Region } from '../../geometry/shapes.ts';
import { levelBottom } from './level-bottom.ts';
import { groupsOfLikeSize } from './like-size.ts';
import { boxedAnew, isHalfTurnOf } from './orientations.ts';
import { PairTable } from './pair-table.ts';
import type { NestingProblem } from './problem.ts';
import type { Shape } from './shape.ts';
import { simplifyOutward } from './simplify-outward.ts';
import { PER_FIELD, workOfPairs } from './work-of-pairs.ts';

/**
 * The same problem with much coarser outlines, for a first answer at once where exact no-fit polygons take their
 * time. Coarse outlines hold the finer ones, so a coarse layout is a layout.
 */

/** Excess of coarse outlines as a share of the size of the shape: from little to much, until they have few vertices. */
const LEAST_EXCESS = 0.005;
const MOST_EXCESS = 0.04;
const FEW = 16;

/** Cells of coarse depth fields. */
const CELLS = 14;

/** What all no-fit polygons and their fields cost, in products of vertex numbers, from which on coarse pays. */
const MUCH_WORK = 1.5e5;

/** What a field and all of them cost of coarse problems: their fields are quick, their outlines short and rarely convex. */
const PER_COARSE_FIELD = 40;
const MUCH_COARSE_WORK = 2e4;

/** Widths, and heights of each width, that many outlines are rounded up to. */
const WIDTHS = 4;
const HEIGHTS = 3;

/** Coarse outlines that ask for more than this share of the work of the exact ones gain too little for it. */
const WORTHWHILE = 0.3;

/** What the coarse problems of one table of pairs have in common. */
type CoarseParts = Pick<NestingProblem, 'shapes' | 'orientations' | 'pairs'>;
const known = new WeakMap<PairTable, CoarseParts | undefined>();

/**
 * The problem in coarse outlines; copies keep their numbers, and so do orientations, some of which are left out.
 * Undefined where exact no-fit polygons are quick enough, or coarse ones hardly quicker, as for jagged outlines.
 */
export function coarseProblem(problem: NestingProblem): NestingProblem | undefined {
  const { pairs } = problem;
  if (!known.has(pairs)) known.set(pairs, coarseParts(problem));
  const parts = known.get(pairs);
  return parts === undefined ? undefined : { ...problem, ...parts };
}

function coarseParts(problem: NestingProblem): CoarseParts | undefined {
  const work = workOf(problem.shapes, PER_FIELD);
  if (work < MUCH_WORK) return undefined;
  const shapes = problem.shapes.map((shape) => {
    const box = boundsOf(shape.region.outline);
    const size = Math.max(box.maxX - box.minX, box.maxY - box.minY);
    const orientations = withoutHalfTurns(problem, shape.orientations);
    const simple = coarse(shape.region, size);
    const region = stands(problem, shape) ? levelBottom(simple, shape.region) : simple;
    return { ...shape, region, orientations };
  });
  return workOf(shapes, PER_COARSE_FIELD) > WORTHWHILE * work
    ? undefined
    : inOutlines(problem, shapes, (shape) => shape);
}

/**
 * A problem's orientations in other outlines, and a table of pairs for them.
 *
 * @param alike number of the shape whose fields serve a shape, one that looks the same
 */
function inOutlines(
  { orientations: given, gap, margin }: NestingProblem,
  shapes: readonly Shape[],
  alike: (shape: number) => number,
): CoarseParts {
  const served = given.map((orientation) => ({ ...orientation, shape: alike(orientation.shape) }));
  const orientations = boxedAnew(served, shapes);
  return { shapes, orientations, pairs: new PairTable(shapes, orientations, gap, margin, CELLS) };
}

/** True where even this problem, coarse if need be, takes so long that an answer in boxes comes first. */
export function asksForBoxes({ shapes }: NestingProblem): boolean {
  return workOf(shapes, PER_COARSE_FIELD) >= MUCH_COARSE_WORK;
}

/**
 * The problem with every outline rounded up to one of a few boxes, which share their no-fit polygons; copies and
 * orientations keep their numbers. What has to lie on the edge keeps its own box, or it would not stand on it.
 */
export function boxedProblem(problem: NestingProblem): NestingProblem {
  const groups = shapesOfOneBox(problem);
  const shapes: Shape[] = [...problem.shapes];
  const boxOf = new Int32Array(shapes.length);
  for (const group of groups) {
    const box = boundsOf(group.flatMap((s) => problem.shapes[s].region.outline));
    const region = { outline: boxRing(box), openings: [] };
    for (const s of group) {
      shapes[s] = { ...problem.shapes[s], region, orientations: squareLies(problem, s) };
      boxOf[s] = group[0];
    }
  }
  return { ...problem, ...inOutlines(problem, shapes, (shape) => boxOf[shape]) };
}

/**
 * The orientations a box is tried in: square to the board, one of each that look the same, where the shape has such and
 * fits so; a box that lies aslant takes up more than twice the room.
 */
function squareLies(problem: NestingProblem, shape: number): readonly number[] {
  const own = withoutHalfTurns(problem, problem.shapes[shape].orientations);
  const { orientations, containers, margin } = problem;
  if (stands(problem, problem.shapes[shape])) return own;
  const each = [0, 90].flatMap((degrees) =>
    own.filter((one) => Math.abs(orientations[one].degrees) % 180 === degrees).slice(0, 1),
  );
  const fits = ({ minX, minY, maxX, maxY }: Box) =>
    containers.some(
      ({ box }) =>
        maxX - minX <= box.maxX - box.minX - 2 * margin && maxY - minY <= box.maxY - box.minY - 2 * margin,
    );
  return each.some((one) => fits(orientations[one].box)) ? each : own;
}

/** Numbers of shapes that share a box: those of about one width and height, and what has to lie on the edge alone. */
function shapesOfOneBox(problem: NestingProblem): number[][] {
  const { shapes } = problem;
  const boxes = shapes.map(({ region }) => boundsOf(region.outline));
  const all = shapes.map((_, s) => s);
  const isStanding = (s: number) => stands(problem, shapes[s]);
  const free = all.filter((s) => !isStanding(s));
  return [...groupsOfLikeSize(free, boxes, WIDTHS, HEIGHTS), ...all.filter(isStanding).map((s) => [s])];
}

/**
 * Where a shape may lie in many orientations, a half turn more or less is left to the search: it changes what fits
 * beside what, not what fits where.
 */
function withoutHalfTurns({ orientations }: NestingProblem, own: readonly number[]): readonly number[] {
  if (own.length <= 2) return own;
  return own.filter((a) => !own.some((b) => isHalfTurnOf(orientations[a], orientations[b])));
}

function stands({ orientations }: NestingProblem, shape: Shape): boolean {
  return shape.orientations.some((one) => orientations[one].edge !== undefined);
}

/** The outline with few vertices; without the openings, which only ask for more no-fit polygons. */
function coarse({ outline }: Region, size: number): Region {
  let result: Region = { outline, openings: [] };
  for (let excess = LEAST_EXCESS; excess <= MOST_EXCESS && result.outline.length > FEW; excess *= 2) {
    result = simplifyOutward(result, excess * size);
  }
  return result;
}

function workOf(shapes: readonly Shape[], perField: number): number {
  const members = shapes.map(({ region, orientations }) => ({
    vertices: region.outline.length,
    turns: orientations.length,
  }));
  return workOfPairs(members, perField);
}
