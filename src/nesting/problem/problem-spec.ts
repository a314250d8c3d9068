import { applyToRegion } from '../../geometry/affine.ts';
import { isBox, regionArea } from '../../geometry/ring.ts';
import { boundsOf, type Point, type Region } from '../../geometry/shapes.ts';
import { withoutNarrowBays } from './closed-bays.ts';
import type { Container, Hazard } from './container.ts';
import { type Lie, orientationsOf } from './orientations.ts';
import { PairTable } from './pair-table.ts';
import type { NestingProblem } from './problem.ts';
import type { Orientation, Shape } from './shape.ts';
import { simplifyOutward } from './simplify-outward.ts';

/** A problem as plain data that can be sent to a worker, and the building of the problem proper from it. */

/** Greatest excess in mm of the outlines the engine works with over the true ones. */
const LARGEST_EXCESS = 0.1;

/** The same as a share of the size of the part, for small parts. */
const SHARE_OF_SIZE = 0.002;

/** Vertices that need no simplifying. */
const HANDY = 72;

/**
 * Vertices from which on an outline is crowded, as one that was traced from a picture step by step: its bays are filled,
 * and it may exceed the true one by so many times more.
 */
const CROWDED = 300;
const CROWDED_EXCESS = 2.5;

/** Filling bays has to bring the vertices down to this share, or it is not worth the excess. */
const WORTHWHILE = 0.7;

/** A shape before its orientations are numbered. */
export interface ShapeSpec {
  /** True region, mm. */
  readonly region: Region;
  readonly lies: readonly Lie[];
  readonly onEdge: boolean;
  readonly copies: number;
  /** Copies in one set. */
  readonly perSet: number;
}

/** A whole problem as plain data. */
export interface ProblemSpec {
  readonly shapes: readonly ShapeSpec[];
  readonly containers: readonly Container[];
  /** Distance to keep between shapes, mm. */
  readonly gap: number;
  /** Distance to keep to outlines and defects, mm. */
  readonly margin: number;
}

/** What of a problem asks neither for the number of copies nor for the boards. */
type BuiltShapes = Pick<NestingProblem, 'shapes' | 'orientations' | 'gap' | 'margin' | 'pairs'>;

/** The point of a region as it is drawn that the engine moves and turns it by: the middle of its box, mm. */
export function referenceOf({ outline }: Region): Point {
  const { minX, minY, maxX, maxY } = boundsOf(outline);
  return [(minX + maxX) / 2, (minY + maxY) / 2];
}

function buildShapes({ shapes: specs, gap, margin }: Omit<ProblemSpec, 'containers'>): BuiltShapes {
  const orientations: Orientation[] = [];
  const shapes = specs.map((spec, number): Shape => {
    const box = boundsOf(spec.region.outline);
    const middle = referenceOf(spec.region);
    const centred = applyToRegion([1, 0, 0, 1, -middle[0], -middle[1]], spec.region);
    const size = Math.max(box.maxX - box.minX, box.maxY - box.minY);
    const region = simplified(centred, size, Math.min(gap, margin));
    const own = orientationsOf(region, number, spec.lies, spec.onEdge);
    const first = orientations.length;
    orientations.push(...own);
    return { region, area: regionArea(spec.region), orientations: own.map((_, i) => first + i) };
  });
  const pairs = new PairTable(shapes, orientations, gap, margin);
  return { shapes, orientations, gap, margin, pairs };
}

/**
 * Builds problems one after the other. The fields of the parts, the dear thing of a search, ask neither how many
 * copies there are nor where the boards end: problems that differ in nothing else share them, as do two ways to part
 * the same boards, or batches of several sizes.
 */
export class ProblemBuilder {
  private readonly known = new Map<string, BuiltShapes>();

  /** The problem of a specification. */
  build(spec: ProblemSpec): NestingProblem {
    const { containers, shapes, gap, margin } = spec;
    // By content: what comes into a worker is a copy.
    const key = JSON.stringify([
      gap,
      margin,
      shapes.map(({ region, lies, onEdge }) => [region, lies, onEdge]),
    ]);
    const built = this.known.get(key) ?? buildShapes(spec);
    this.known.set(key, built);
    const shapeOf = Int32Array.from(shapes.flatMap(({ copies }, number) => new Array(copies).fill(number)));
    const perSet = shapes.map((shape) => shape.perSet);
    return { ...built, shapeOf, perSet, containers };
  }
}

/**
 * The region in a handy number of vertices, if it can be had: with as little excess as that takes, and crowded ones without
 * bays that nothing can reach into.
 *
 * @param size of the region, mm
 * @param distance everything keeps from it at least, mm
 */
function simplified(region: Region, size: number, distance: number): Region {
  const plain = withLittleExcess(region, size);
  if (verticesOf(plain) <= CROWDED) return plain;
  const filled = simplifyOutward(withoutNarrowBays(region, distance), CROWDED_EXCESS * excessAllowed(size));
  return verticesOf(filled) < WORTHWHILE * verticesOf(plain) ? filled : plain;
}

function excessAllowed(size: number): number {
  return Math.min(LARGEST_EXCESS, SHARE_OF_SIZE * size);
}

function withLittleExcess(region: Region, size: number): Region {
  const most = excessAllowed(size);
  if (verticesOf(region) <= HANDY) return region;
  // Long curves stay above the handy number: one try tells, where working up to it would take seven.
  const simplest = simplifyOutward(region, most);
  if (verticesOf(simplest) > HANDY) return simplest;
  let result = region;
  for (let excess = most / 64; excess <= most && verticesOf(result) > HANDY; excess *= 2) {
    result = simplifyOutward(region, excess);
  }
  return result;
}

function verticesOf({ outline, openings }: Region): number {
  return openings.reduce((sum, opening) => sum + opening.length, outline.length);
}

/**
 * A container of a usable region; an outline that is no box, every defect and everything that lies there already
 * become hazards. Coordinates are mm along and across the board.
 *
 * @param cost what taking its board counts, in the unit of the other containers of the problem
 * @param kind number shared by interchangeable containers
 */
export function containerFrom(
  usable: Region,
  cost: number,
  kind: number,
  occupied: readonly Hazard[] = [],
): Container {
  const outline: Hazard = { region: { outline: usable.outline, openings: [] }, frame: true };
  const solids = usable.openings.map(
    (ring): Hazard => ({ region: { outline: ring, openings: [] }, frame: false }),
  );
  // As for shapes, a little more than the true outline takes far less time; what lies there may have thousands of
  // vertices, and every shape asks for a no-fit polygon with it.
  const kept = [...solids, ...occupied].map((hazard): Hazard => {
    const box = boundsOf(hazard.region.outline);
    const size = Math.max(box.maxX - box.minX, box.maxY - box.minY);
    return { ...hazard, region: withLittleExcess(hazard.region, size) };
  });
  return {
    box: boundsOf(usable.outline),
    hazards: [...(isBox(usable.outline) ? [] : [outline]), ...kept],
    area: regionArea(usable),
    cost,
    kind,
  };
}
