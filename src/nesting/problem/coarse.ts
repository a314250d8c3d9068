import { applyToRegion } from '../../geometry/affine.ts';
import { boundsOf, type Region } from '../../geometry/shapes.ts';
import { isHalfTurnOf, turn } from './orientations.ts';
import { PairTable } from './pair-table.ts';
import type { NestingProblem } from './problem.ts';
import { simplifyOutward } from './simplify-outward.ts';

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

/** What a no-fit polygon and its field cost, in products of vertex numbers, and the sum from which coarse pays. */
const PER_FIELD = 400;
const MUCH_WORK = 1.5e5;

/** True where exact no-fit polygons take so long that a coarse answer comes first. */
export function takesItsTime(problem: NestingProblem): boolean {
  return workOf(problem) >= MUCH_WORK;
}

/** The coarse problem; copies keep their numbers, and so do orientations, some of which are left out. */
export function coarseProblem(problem: NestingProblem): NestingProblem {
  const shapes = problem.shapes.map((shape) => {
    const box = boundsOf(shape.region.outline);
    const size = Math.max(box.maxX - box.minX, box.maxY - box.minY);
    const orientations = withoutHalfTurns(problem, shape.orientations);
    return { ...shape, region: coarse(shape.region, size), orientations };
  });
  const orientations = problem.orientations.map((orientation) => {
    const map = turn(orientation.degrees, orientation.turnedOver);
    return { ...orientation, box: boundsOf(applyToRegion(map, shapes[orientation.shape].region).outline) };
  });
  const pairs = new PairTable(shapes, orientations, problem.gap, problem.margin, CELLS);
  return { ...problem, shapes, orientations, pairs };
}

/**
 * Where a shape may lie in many orientations, a half turn more or less is left to the search: it changes what fits
 * beside what, not what fits where.
 */
function withoutHalfTurns({ orientations }: NestingProblem, own: readonly number[]): readonly number[] {
  if (own.length <= 2) return own;
  return own.filter((a) => !own.some((b) => isHalfTurnOf(orientations[a], orientations[b])));
}

/** The outline with few vertices; without the openings, which only ask for more no-fit polygons. */
function coarse({ outline }: Region, size: number): Region {
  let result: Region = { outline, openings: [] };
  for (let excess = LEAST_EXCESS; excess <= MOST_EXCESS && result.outline.length > FEW; excess *= 2) {
    result = simplifyOutward(result, excess * size);
  }
  return result;
}

/** Roughly what the no-fit polygons of all pairs cost. */
function workOf({ shapes }: NestingProblem): number {
  let work = 0;
  for (const [i, a] of shapes.entries()) {
    for (const b of shapes.slice(i)) {
      const turns = Math.max(a.orientations.length, b.orientations.length);
      work += turns * (PER_FIELD + a.region.outline.length * b.region.outline.length);
    }
  }
  return work;
}
