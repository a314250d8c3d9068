import { applyToRegion, rotation } from '../../geometry/affine.ts';
import { type Box, boundsOf, type Point, type Region } from '../../geometry/shapes.ts';
import { CELLS, DepthField } from '../no-fit/depth-field.ts';
import { insetByHair } from '../no-fit/hairline.ts';
import { innerFitRegions, noFitSteps } from '../no-fit/no-fit-polygon.ts';
import { lastOf, type Steps } from '../running/steps.ts';
import { type Hazard, withoutMargin } from './container.ts';
import { firstAlike } from './first-alike.ts';
import { turn } from './orientations.ts';
import type { Orientation, Shape } from './shape.ts';

/**
 * Depth fields by pair of orientations, built when first asked for and shared: two shapes turned together have the
 * same field turned, so one is kept per pair of shapes and relative orientation.
 */

/** The field of one pair and the linear map that takes a difference of positions into the field's frame. */
export interface Pair {
  readonly field: DepthField;
  readonly xx: number;
  readonly xy: number;
  readonly yx: number;
  readonly yy: number;
}

/** Distance beyond the gap that fields still cover, as a share of their size. */
const RIM = 0.02;

/** How far a boundary is moved in where no gap is asked for, mm: two steps of the integer grid. */
const HAIR = 2e-4;

/** Fields that have all their cells, some 450 MB of them; more share the cells of so many. */
const ROOMY_FIELDS = 10_000;

/** Cells along a field's longer side below which it would say too little. */
const LEAST_CELLS = 8;

/** See the top of the file. */
export class PairTable {
  private readonly pairs: (Pair | undefined)[];
  private readonly fields = new Map<string, DepthField>();
  /** Fields of every hazard by orientation; null where the shape finds no place. */
  private readonly walls = new WeakMap<Hazard, (DepthField | null | undefined)[]>();
  /** Fields of solid hazards by what they look like, with the point of the hazard they were built for. */
  private readonly alike = new Map<string, { readonly field: DepthField; readonly at: Point }>();
  /** For every orientation the number of the first that looks the same: of many copies in one box all do. */
  private readonly looks: readonly number[];
  private readonly shapes: readonly Shape[];
  private readonly orientations: readonly Orientation[];
  private readonly gap: number;
  private readonly margin: number;
  private readonly cells: number;

  /** @param cells along the longer side of every field between shapes, when fewer than usual will do; fewer still where the fields are many */
  constructor(
    shapes: readonly Shape[],
    orientations: readonly Orientation[],
    gap: number,
    margin: number,
    cells = CELLS,
  ) {
    const share = Math.sqrt(ROOMY_FIELDS / fieldsOf(shapes));
    this.cells = Math.min(cells, Math.max(LEAST_CELLS, Math.floor(CELLS * share)));
    this.shapes = shapes;
    this.orientations = orientations;
    this.looks = firstAlike(orientations.map(orientedLookOf));
    this.gap = gap;
    this.margin = margin;
    this.pairs = new Array<Pair | undefined>(orientations.length * orientations.length);
  }

  /** Number of the first orientation that looks the same as this one: what is drawn for one serves the other. */
  look(orientation: number): number {
    return this.looks[orientation];
  }

  /** True when {@link pair} has been asked for these two before. */
  knows(fixed: number, moving: number): boolean {
    return this.pairs[fixed * this.orientations.length + moving] !== undefined;
  }

  /** Field of a shape in orientation `moving` around one that lies in orientation `fixed`. */
  pair(fixed: number, moving: number): Pair {
    const at = fixed * this.orientations.length + moving;
    return this.pairs[at] ?? lastOf(this.pairSteps(fixed, moving));
  }

  /** As {@link pair}, in steps of some milliseconds: a no-fit polygon of long outlines takes a tenth of a second. */
  *pairSteps(fixed: number, moving: number): Steps<Pair> {
    const at = fixed * this.orientations.length + moving;
    const made = this.pairs[at] ?? (yield* this.makePair(fixed, moving));
    this.pairs[at] = made;
    return made;
  }

  /**
   * Field of a hazard for a shape in an orientation, by translation in board coordinates; null when the shape
   * finds no place inside a frame at all.
   */
  hazard(hazard: Hazard, orientation: number): DepthField | null {
    const known = this.walls.get(hazard)?.[this.looks[orientation]];
    return known === undefined ? lastOf(this.hazardSteps(hazard, orientation)) : known;
  }

  /** As {@link hazard}, in steps of some milliseconds. */
  *hazardSteps(hazard: Hazard, orientation: number): Steps<DepthField | null> {
    const fields =
      this.walls.get(hazard) ?? new Array<DepthField | null | undefined>(this.orientations.length);
    this.walls.set(hazard, fields);
    const look = this.looks[orientation];
    const known = fields[look];
    if (known !== undefined) return known;
    const made = yield* this.makeWall(hazard, look);
    fields[look] = made;
    return made;
  }

  /** Hazards of one look share a field, moved to where each lies: pinned copies of one part are many alike. */
  protected *makeWall(hazard: Hazard, orientation: number): Steps<DepthField | null> {
    if (hazard.frame) return this.makeFrameField(hazard, this.orientations[orientation]);
    const [x, y] = hazard.region.outline[0];
    const key = `${orientation} ${hazard.distance} ${lookOf(hazard.region)}`;
    const known = this.alike.get(key);
    if (known !== undefined) return known.field.movedBy(x - known.at[0], y - known.at[1]);
    const field = yield* this.makeSolidField(hazard, this.orientations[orientation]);
    this.alike.set(key, { field, at: [x, y] });
    return field;
  }

  protected *makePair(fixed: number, moving: number): Steps<Pair> {
    const a = this.orientations[fixed];
    const b = this.orientations[moving];
    // The lower shape is the one that stands still in the field; the difference turns round with the roles.
    if (a.shape > b.shape) {
      const { field, xx, xy, yx, yy } = yield* this.pairSteps(moving, fixed);
      return { field, xx: -xx, xy: -xy, yx: -yx, yy: -yy };
    }
    const degrees = a.turnedOver ? a.degrees - b.degrees : b.degrees - a.degrees;
    const relative = ((degrees % 360) + 360) % 360;
    const mirrored = a.turnedOver !== b.turnedOver;
    const key = `${a.shape} ${b.shape} ${relative.toFixed(6)} ${mirrored}`;
    let field = this.fields.get(key);
    if (field === undefined) {
      const still = this.shapes[a.shape].region;
      const moved = applyToRegion(turn(relative, mirrored), this.fitting(this.shapes[b.shape].region));
      const regions = yield* noFitSteps(still, moved);
      yield;
      const box = boundsOf(regions.flatMap((region) => region.outline));
      const { gap, cells } = this;
      field = DepthField.of(regions, { gap, insideAllowed: false, box: rimmed(box, gap), cells });
      this.fields.set(key, field);
    }
    const [xx, yx, xy, yy] = rotation(-a.degrees);
    return a.turnedOver ? { field, xx: -xx, xy: -xy, yx, yy } : { field, xx, xy, yx, yy };
  }

  /** Without a gap a shape is made a hair smaller, so that a slot it fits into exactly is not lost. */
  private fitting(region: Region): Region {
    return this.gap > 0 ? region : insetByHair(region, HAIR);
  }

  private lying({ degrees, turnedOver, shape }: Orientation): Region {
    return applyToRegion(turn(degrees, turnedOver), this.shapes[shape].region);
  }

  private *makeSolidField({ region, distance = this.margin }: Hazard, one: Orientation): Steps<DepthField> {
    const regions = yield* noFitSteps(region, this.lying(one));
    yield;
    const box = rimmed(boundsOf(regions.flatMap(({ outline }) => outline)), distance);
    return DepthField.of(regions, { gap: distance, insideAllowed: false, box });
  }

  private makeFrameField(hazard: Hazard, orientation: Orientation): DepthField | null {
    const { edge } = orientation;
    const space = edge === undefined ? hazard.region : withoutMargin(hazard.region, this.margin, edge);
    const regions = innerFitRegions(space.outline, this.lying(orientation).outline);
    if (regions.length === 0) return null;
    const outline = boundsOf(space.outline);
    const box = {
      minX: outline.minX - orientation.box.minX - 1,
      minY: outline.minY - orientation.box.minY - 1,
      maxX: outline.maxX - orientation.box.maxX + 1,
      maxY: outline.maxY - orientation.box.maxY + 1,
    };
    return DepthField.of(regions, { gap: this.margin, insideAllowed: true, box });
  }
}

function orientedLookOf({ shape, degrees, turnedOver, edge }: Orientation): string {
  return `${shape} ${degrees} ${turnedOver} ${edge}`;
}

/** Fields of all pairs of shapes: one for each way the two can be turned against each other. */
function fieldsOf(shapes: readonly Shape[]): number {
  const turns = shapes.map(({ orientations }) => orientations.length).sort((a, b) => a - b);
  return turns.reduce((sum, most, i) => sum + most * (i + 1), 0);
}

/** The region around its first vertex, on a grid far below the fields' own. */
function lookOf({ outline, openings }: Region): string {
  const [[x, y]] = outline;
  const rings = [outline, ...openings];
  return rings
    .map((ring) => ring.map(([u, v]) => `${(u - x).toFixed(6)},${(v - y).toFixed(6)}`).join(' '))
    .join('|');
}

function rimmed(box: Box, gap: number): Box {
  const rim = gap + RIM * Math.max(box.maxX - box.minX, box.maxY - box.minY);
  return { minX: box.minX - rim, minY: box.minY - rim, maxX: box.maxX + rim, maxY: box.maxY + rim };
}
