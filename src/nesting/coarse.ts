import { applyToRegion } from '../geometry/affine.ts';
import { boundsOf } from '../geometry/shapes.ts';
import { PairTable, turn } from './pair-table.ts';
import type { NestingProblem } from './problem.ts';
import { simplifyOutward } from './simplify-outward.ts';

/**
 * The same problem with much coarser outlines, for a first answer at once where exact no-fit polygons take their
 * time. Coarse outlines hold the finer ones, so a coarse layout is a layout.
 */

/** Excess of coarse outlines as a share of the size of the shape. */
const EXCESS = 0.02;

/** Products of vertex numbers, summed over the pairs of shapes and orientations, from which coarse pays. */
const MUCH_WORK = 1.5e6;

/** True where exact no-fit polygons take so long that a coarse answer comes first. */
export function takesItsTime(problem: NestingProblem): boolean {
  return workOf(problem) >= MUCH_WORK;
}

/** The coarse problem; copies and orientations keep their numbers. */
export function coarseProblem(problem: NestingProblem): NestingProblem {
  const shapes = problem.shapes.map((shape) => {
    const box = boundsOf(shape.region.outline);
    const size = Math.max(box.maxX - box.minX, box.maxY - box.minY);
    const outline = simplifyOutward({ outline: shape.region.outline, openings: [] }, EXCESS * size).outline;
    return { ...shape, region: { outline, openings: [] } };
  });
  const orientations = problem.orientations.map((orientation) => {
    const map = turn(orientation.degrees, orientation.turnedOver);
    return { ...orientation, box: boundsOf(applyToRegion(map, shapes[orientation.shape].region).outline) };
  });
  const pairs = new PairTable(shapes, orientations, problem.gap, problem.margin);
  return { ...problem, shapes, orientations, pairs };
}

/** Roughly what the no-fit polygons of all pairs cost. */
function workOf({ shapes }: NestingProblem): number {
  let work = 0;
  for (const [i, a] of shapes.entries()) {
    for (const b of shapes.slice(i)) {
      const turns = Math.max(a.orientations.length, b.orientations.length);
      work += turns * a.region.outline.length * b.region.outline.length;
    }
  }
  return work;
}
