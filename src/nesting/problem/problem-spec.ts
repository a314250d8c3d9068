import { applyToRegion } from '../../geometry/affine.ts';
import { ROUNDING_OF_SIDES } from '../../geometry/integer-grid.ts';
import { isBox, regionArea, verticesOf } from '../../geometry/ring.ts';
import { boundsOf, boxRing, middleOf, type Point, type Region, type Ring } from '../../geometry/shapes.ts';
import type { Pulse } from '../running/pulse.ts';
import { givingWay, lastOf, type Steps } from '../running/steps.ts';
import { affordableOutlines, type TrueShape } from './affordable-outlines.ts';
import type { Container, Hazard } from './container.ts';
import { edgeWithFewVertices, withFewVertices } from './fewer-vertices.ts';
import { boxedAnew, type Lie, orientationsOf } from './orientations.ts';
import { PairTable } from './pair-table.ts';
import type { NestingProblem } from './problem.ts';
import type { FinerShapes, Orientation, Shape } from './shape.ts';

/** A problem as plain data that can be sent to a worker, and the building of the problem proper from it. */

/** A shape before its orientations are numbered. */
export interface ShapeSpec {
  /** True region, mm. */
  readonly region: Region;
  readonly lies: readonly Lie[];
  /** Whether it stands on an edge of the board. */
  readonly stands: boolean;
  readonly copies: number;
  /** Copies in one set. */
  readonly perSet: number;
  /** Copies of the sets that are pinned, beside those to place; none when left out. */
  readonly pinned?: number;
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
type BuiltShapes = Pick<NestingProblem, 'shapes' | 'orientations' | 'gap' | 'margin' | 'pairs' | 'finer'>;

/** Points of all outlines together from which making them simpler may take a second, as of a hundred jagged ones. */
const MANY_POINTS = 10_000;

/** The point of a region as it is drawn that the engine moves and turns it by: the middle of its box, mm. */
export function referenceOf({ outline }: Region): Point {
  return middleOf(boundsOf(outline));
}

/** The shapes with their regions around their reference points. */
function* aroundReferences({ shapes }: ProblemSpec): Steps<TrueShape[]> {
  const around: TrueShape[] = [];
  for (const { region, stands, lies } of shapes) {
    around.push({ region: aroundReference(region), stands, turns: lies.length });
    yield;
  }
  return around;
}

function aroundReference(region: Region): Region {
  const [x, y] = referenceOf(region);
  return applyToRegion([1, 0, 0, 1, -x, -y], region);
}

/** What is built of a problem with its outlines in few vertices. */
function* builtSteps(spec: ProblemSpec): Steps<BuiltShapes> {
  const around = yield* aroundReferences(spec);
  const { outlines, finer } = yield* affordableOutlines(around, Math.min(spec.gap, spec.margin));
  const built = builtShapes(spec, around, outlines);
  return { ...built, finer: finer.map((each) => inOutlines(built, each)) };
}

/**
 * @param around the true shapes around their reference points
 * @param outlines what the engine works with in their place, no smaller than they are
 */
function builtShapes(
  { shapes: specs, gap, margin }: ProblemSpec,
  around: readonly TrueShape[],
  outlines: readonly Region[],
): BuiltShapes {
  const orientations: Orientation[] = [];
  const shapes = specs.map(({ region, lies, stands }, number): Shape => {
    const own = orientationsOf(around[number].region, outlines[number], number, lies, stands);
    const first = orientations.length;
    orientations.push(...own);
    return {
      region: outlines[number],
      area: regionArea(region),
      orientations: own.map((_, i) => first + i),
    };
  });
  const pairs = new PairTable(shapes, orientations, gap, margin);
  return { shapes, orientations, gap, margin, pairs, finer: [] };
}

function inOutlines(built: BuiltShapes, outlines: readonly Region[]): FinerShapes {
  const shapes = built.shapes.map((shape, number) => ({ ...shape, region: outlines[number] }));
  return { shapes, orientations: boxedAnew(built.orientations, shapes) };
}

function problemOf({ shapes, containers }: ProblemSpec, built: BuiltShapes): NestingProblem {
  const shapeOf = Int32Array.from(shapes.flatMap(({ copies }, number) => new Array(copies).fill(number)));
  const perSet = shapes.map((shape) => shape.perSet);
  const pinned = shapes.map((shape) => shape.pinned ?? 0);
  return { ...built, shapeOf, perSet, pinned, containers };
}

/** What {@link BuiltShapes} depend on. By content: what comes into a worker is a copy. */
function lookOf({ gap, margin, shapes }: ProblemSpec): string {
  return JSON.stringify([gap, margin, shapes.map(({ region, lies, stands }) => [region, lies, stands])]);
}

/**
 * Builds problems one after the other. The fields of the parts, the dear thing of a search, ask neither how many
 * copies there are nor where the boards end: problems that differ in nothing else share them, as do two ways to part
 * the same boards, or batches of several sizes.
 */
export class ProblemBuilder {
  private readonly known = new Map<string, BuiltShapes>();
  /** Looks by the specifications they are of: those of thousands of points take tens of milliseconds to write. */
  private readonly looks = new WeakMap<ProblemSpec, string>();

  /** The problem of a specification. */
  build(spec: ProblemSpec): NestingProblem {
    return problemOf(spec, this.known.get(this.lookOf(spec)) ?? this.keep(spec, lastOf(builtSteps(spec))));
  }

  /**
   * As {@link build}, giving way in between: dozens of outlines of thousands of points take a second. Told to stop, it
   * takes the boxes of all of them, in which nothing is laid any more.
   */
  async buildGivingWay(spec: ProblemSpec, pulse: Pulse): Promise<NestingProblem> {
    const known = this.known.get(this.lookOf(spec));
    if (known !== undefined) return problemOf(spec, known);
    const built = pulse.stopped ? undefined : await givingWay(builtSteps(spec), pulse);
    // Boxes are not kept: the next search is to have the true outlines.
    if (built === undefined) return this.buildInBoxes(spec);
    return problemOf(spec, this.keep(spec, built));
  }

  /** Whether the outlines of a problem take long to be made, for the first time. */
  takesLong(spec: ProblemSpec): boolean {
    const points = spec.shapes.reduce((sum, { region }) => sum + verticesOf(region), 0);
    return points > MANY_POINTS && !this.known.has(this.lookOf(spec));
  }

  /**
   * The problem with every outline as its box, at once: thousands of points take time to be looked at. Copies and
   * orientations have the numbers that they have in the problem proper.
   */
  buildInBoxes(spec: ProblemSpec): NestingProblem {
    const around = lastOf(aroundReferences(spec));
    const boxes = around.map(({ region }) => ({ outline: boxRing(boundsOf(region.outline)), openings: [] }));
    return problemOf(spec, builtShapes(spec, around, boxes));
  }

  private keep(spec: ProblemSpec, built: BuiltShapes): BuiltShapes {
    this.known.set(this.lookOf(spec), built);
    return built;
  }

  private lookOf(spec: ProblemSpec): string {
    const look = this.looks.get(spec) ?? lookOf(spec);
    this.looks.set(spec, look);
    return look;
  }
}

/** What lies in a container, and how near to its edge. */
interface Surroundings {
  readonly occupied?: readonly Hazard[];
  /** Distance that is kept to the outline and the defects at least, mm. */
  readonly margin?: number;
  /** Where the straight edge of the board lies, mm; along the lower edge of the region when left out. */
  readonly straightEdge?: number;
  /** Where the top edge of the board lies, mm, if that is straight too; nothing stands on it when left out. */
  readonly straightTop?: number | undefined;
}

/**
 * How far from the straight edge of its board a section may end and still have it, mm: sections are clipped on the grid,
 * the board lies as it was measured.
 */
const LEVEL = ROUNDING_OF_SIDES;

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
  { occupied = [], margin = 0, straightEdge, straightTop }: Surroundings = {},
): Container {
  const solid = (outline: Ring): Region => ({ outline, openings: [] });
  const solids = usable.openings.map((ring): Hazard => ({ region: solid(ring), frame: false }));
  // As for shapes, a little more than the true outline takes far less time; what lies there may have thousands of
  // vertices, and every shape asks for a no-fit polygon with it.
  const kept = [...solids, ...occupied].map(
    (hazard): Hazard => ({ ...hazard, region: withFewVertices(hazard.region, hazard.distance ?? margin) }),
  );
  const frame = (): Hazard => ({
    region: solid(edgeWithFewVertices(usable.outline, margin)),
    frame: true,
  });
  const box = boundsOf(usable.outline);
  return {
    box,
    hazards: [...(isBox(usable.outline) ? [] : [frame()]), ...kept],
    area: regionArea(usable),
    cost,
    kind,
    ...(straightEdge === undefined || box.maxY >= straightEdge - LEVEL ? {} : { hasStraightEdge: false }),
    ...(straightTop !== undefined && box.minY <= straightTop + LEVEL ? { hasStraightTop: true } : {}),
  };
}
