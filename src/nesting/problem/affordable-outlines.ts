import { boundsOf, type Region } from '../../geometry/shapes.ts';
import { clippedToBox, largestOf } from '../../stock/trim.ts';
import type { Steps } from '../running/steps.ts';
import { fewVerticesSteps } from './fewer-vertices.ts';
import { levelBottom } from './level-bottom.ts';
import { AFFORDABLE, memberOf, PER_FIELD, workOfPairs } from './work-of-pairs.ts';

/**
 * The outlines of all shapes of a problem, in no more vertices than their pairs can afford: two hundred different parts
 * make tens of thousands of no-fit polygons, and in outlines true to a tenth of a millimetre a search would spend its
 * first minutes on them alone. Never with less wood than the parts have.
 */

/** A shape before its outline is simplified. */
export interface TrueShape {
  /** True region around its reference point, mm. */
  readonly region: Region;
  /** Whether it stands on an edge of the board. */
  readonly stands: boolean;
  /** In how many ways it may lie. */
  readonly turns: number;
}

/**
 * How many times the usual excess an outline may gain in one try at most, beside covered bays. Vertices of a curve go with
 * one over the root of its excess, and their products with one over the excess itself.
 */
const MOST_LEEWAY = 32;

/** What the excess grows by from one try to the next, at least and at most: what is too coarse is not made finer again. */
const LEAST_STEP = 1.5;
const LARGEST_STEP = 4;

/** The outlines a search works with, and what they were made of. */
export interface AffordableOutlines {
  readonly outlines: readonly Region[];
  /** The same in more vertices, from most to fewest, where those of all pairs cost too much. */
  readonly finer: readonly (readonly Region[])[];
}

/**
 * The outlines in steps of some milliseconds.
 *
 * @param distance what everything keeps from the shapes at least, mm
 */
export function* affordableOutlines(
  shapes: readonly TrueShape[],
  distance: number,
): Steps<AffordableOutlines> {
  let outlines = yield* simplified(shapes, distance, 1);
  const finer: Region[][] = [];
  const affordable = affordableWork(shapes);
  for (let leeway = 1; leeway < MOST_LEEWAY; ) {
    // How many times as much as is affordable the no-fit polygons of all pairs cost.
    const tooDear = workOfPolygons(shapes, outlines) / affordable;
    if (tooDear <= 1) break;
    leeway = Math.min(MOST_LEEWAY, leeway * Math.min(LARGEST_STEP, Math.max(LEAST_STEP, tooDear)));
    const coarser = shapes.map((shape, s) => ({ ...shape, region: outlines[s] }));
    finer.push(yield* keptWithin(shapes, outlines));
    outlines = yield* simplified(coarser, distance, leeway);
  }
  return { outlines: finer.length === 0 ? outlines : yield* keptWithin(shapes, outlines), finer };
}

/** Outlines that reach no farther than the parts: one that only just fits on its board still does. */
function* keptWithin(shapes: readonly TrueShape[], outlines: readonly Region[]): Steps<Region[]> {
  const within: Region[] = [];
  for (const [s, simple] of outlines.entries()) {
    within.push(largestOf(clippedToBox(simple, boundsOf(shapes[s].region.outline))));
    yield;
  }
  return within;
}

function* simplified(shapes: readonly TrueShape[], distance: number, leeway: number): Steps<Region[]> {
  const outlines: Region[] = [];
  for (const { region, stands } of shapes) {
    const simple = yield* fewVerticesSteps(region, distance, leeway);
    outlines.push(stands ? levelBottom(simple, region) : simple);
    yield;
  }
  return outlines;
}

/** What the no-fit polygons of all pairs may cost beside their fields. */
function affordableWork(shapes: readonly TrueShape[]): number {
  const ofFields = workOfPairs(
    shapes.map(({ turns }) => ({ vertices: 0, turns })),
    PER_FIELD,
  );
  // Where the fields alone cost more, polygons that cost as much again are cheap enough.
  return Math.max(AFFORDABLE - ofFields, ofFields);
}

function workOfPolygons(shapes: readonly TrueShape[], outlines: readonly Region[]): number {
  return workOfPairs(
    shapes.map(({ turns }, s) => memberOf(outlines[s], turns)),
    0,
  );
}
