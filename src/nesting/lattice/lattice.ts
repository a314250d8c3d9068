import { cosineAndSine } from '../../geometry/sine-and-cosine.ts';
import { MOST_CONTACTS } from '../no-fit/depth-field.ts';
import type { Pair, PairTable } from '../problem/pair-table.ts';
import type { Random } from '../running/random.ts';
import { LinearProgram } from '../sliding/linear-program.ts';

/**
 * The densest periodic layouts of one shape: copies on a lattice, alone or in pairs of two orientations (a double
 * lattice, Kuperberg and Kuperberg 1990, when the second is the first turned by 180 degrees).
 *
 * The lattice (u, v) and the offset t of the second copy have to keep every difference of positions out of the
 * no-fit polygons. From random loose starts the cell is shrunk by a sequence of linear programs, each with the half
 * planes of the no-fit edges that are near, as in compaction (Li and Milenkovic 1995; for lattices of non-convex
 * polygons Milenkovic 2002). At the end the active edges hold exactly.
 */

/** A periodic layout: copies of `first` at i u + j v, copies of `second` (if any) at t + i u + j v. */
export interface Lattice {
  readonly first: number;
  /** Orientation of the second copy in the cell, undefined for a lattice of single copies. */
  readonly second: number | undefined;
  readonly u: readonly [number, number];
  readonly v: readonly [number, number];
  readonly t: readonly [number, number];
  /** Area of the cell per copy, mm2. */
  readonly areaPerCopy: number;
}

/**
 * How a lattice lies: anyhow, with u along or across the grain (rows that fit a board's edge), or with u along and v
 * across (the plain grid).
 */
export type Lay = 'free' | 'rows' | 'columns' | 'grid';

/**
 * Multiples of u and v that are looked at in every direction: at least, and at most. Shapes that are about as long as
 * wide need three; a slender slanting one lies in a narrow cell and meets copies many cells away.
 */
const LEAST_SHELL = 3;
const MOST_SHELL = 40;

/** Linear programs per start at most. */
const MOST_STEPS = 160;

/** What a lattice is made of. */
export interface LatticeSettings {
  readonly pairs: PairTable;
  /** Number of the orientation of the first copy in the cell. */
  readonly first: number;
  /** The same of the second copy; undefined for a lattice of single copies. */
  readonly second: number | undefined;
  /** Longer side of the shape, mm: the measure of steps and tolerances. */
  readonly size: number;
  /** Anyhow when left out. */
  readonly lay?: Lay;
}

/**
 * Densest lattice found; undefined when none came out free of overlaps.
 *
 * @param starts number of random cells to shrink
 */
export function densestLattice(
  settings: LatticeSettings,
  starts: number,
  random: Random,
): Lattice | undefined {
  const cell = new Cell(settings);
  let best: Lattice | undefined;
  for (let n = 0; n < starts; n++) {
    cell.loosen(random);
    if (!cell.shrink()) continue;
    const found = cell.lattice();
    if (best === undefined || found.areaPerCopy < best.areaPerCopy) best = found;
  }
  return best;
}

/** The difference of positions between two copies of a lattice: i u + j v, and t where `withT` is 1. */
interface Difference {
  /** Orientation of the one that stands still, and of the other. */
  readonly fixed: number;
  readonly moving: number;
  readonly i: number;
  readonly j: number;
  readonly withT: 0 | 1;
}

/** The cell under work: u, v, t in one array of six numbers. */
class Cell {
  private readonly pairs: PairTable;
  private readonly first: number;
  private readonly second: number | undefined;
  private readonly size: number;
  private readonly lay: Lay;
  private readonly at = new Float64Array(6);
  private readonly kept = new Float64Array(6);
  private readonly program: LinearProgram;
  /** Pairs of which copies can meet, with the farthest they reach along the axes of their fields, mm. */
  private readonly reaches: readonly Reach[];
  /** What the present cell has to look at; told anew only when the multiples change, which they rarely do. */
  private differences: readonly Difference[] = [];
  private alongU = 0;
  private alongV = 0;
  private readonly contact = new Float64Array(3 * (MOST_CONTACTS + 1));
  private worst = 0;

  constructor({ pairs, first, second, size, lay = 'free' }: LatticeSettings) {
    this.pairs = pairs;
    this.first = first;
    this.second = second;
    this.size = size;
    this.lay = lay;
    this.program = new LinearProgram(second === undefined ? 4 : 6);
    const moving = second === undefined ? [first] : [first, second];
    this.reaches = moving.map((orientation) => reachOf(pairs.pair(first, orientation)));
  }

  /**
   * A random cell to start from. Densest cells often have copies that touch corner in corner, so half of the choices
   * are vertices of the no-fit polygons; the others leave everything loose.
   */
  loosen(random: Random): void {
    const { at, size } = this;
    const free = this.lay === 'free';
    // Pairs lie beside each other along a grid, or above each other.
    const upright = this.lay === 'columns' || (this.lay === 'grid' && random.unit() < 0.5);
    if (free && random.unit() < 0.5) this.setVertex(0, this.first, this.first, random);
    else if (free) this.setTouching(random.between(0, 360));
    else this.setTouching(upright ? 90 : 0);
    if (free && random.unit() < 0.5) this.setVertex(2, this.first, this.first, random);
    else {
      const length = Math.sqrt(at[0] * at[0] + at[1] * at[1]);
      const across = (random.between(1.1, 2.6) * size) / length;
      const along = this.lay === 'grid' ? 0 : random.unit();
      at[2] = along * at[0] - across * at[1];
      at[3] = along * at[1] + across * at[0];
    }
    if (upright && this.lay === 'grid') this.turnBasis();
    if (this.area() < 0) {
      at[2] = -at[2];
      at[3] = -at[3];
    }
    if (this.second === undefined) return;
    if (random.unit() < 0.6) this.setVertex(4, this.first, this.second, random);
    else this.placeSecond(random, this.second);
  }

  /** Writes a random vertex of a no-fit polygon as the difference of positions at `index`. */
  private setVertex(index: number, fixed: number, moving: number, random: Random): void {
    const { field, xx, xy, yx, yy } = this.pairs.pair(fixed, moving);
    const [x, y] = field.vertex(random.below(field.vertexCount));
    this.at[index] = xx * x + yx * y;
    this.at[index + 1] = xy * x + yy * y;
  }

  /** Makes u touch in a direction (degrees), coming from outside. */
  private setTouching(angle: number): void {
    const { at, size, first } = this;
    const [cos, sin] = cosineAndSine(angle);
    const step = 0.02 * size;
    let length = 1.6 * size;
    while (length > step && this.depth(first, first, (length - step) * cos, (length - step) * sin) <= 0) {
      length -= step;
    }
    at[0] = length * cos;
    at[1] = length * sin;
  }

  /** The second copy where it is free and nearly touches: the best of some random offsets. */
  private placeSecond(random: Random, second: number): void {
    const { at, size } = this;
    let best = Number.NEGATIVE_INFINITY;
    for (let n = 0; n < 24; n++) {
      const x = random.between(-1.3, 1.3) * size;
      const y = random.between(-1.3, 1.3) * size;
      const depth = this.depth(this.first, second, x, y);
      if (depth <= 0 && depth > best) {
        best = depth;
        at[4] = x;
        at[5] = y;
      }
    }
  }

  private depth(fixed: number, moving: number, x: number, y: number): number {
    const { field, xx, xy, yx, yy } = this.pairs.pair(fixed, moving);
    return field.depth(xx * x + xy * y, yx * x + yy * y);
  }

  /** Shrinks the cell to a local least; false when overlaps remain. */
  shrink(): boolean {
    const { at, kept, size, program } = this;
    let radius = 0.05 * size;
    // Down to steps far below any tolerance: at the end the copies touch, and what touches is met exactly.
    for (let step = 0; step < MOST_STEPS && radius > 1e-11 * size; step++) {
      this.reduce();
      // A cell this small holds no copy: the start was so deep in a no-fit polygon that the way out led through it.
      if (!(this.area() > 1e-3 * size * size) || !this.chooseDifferences()) return false;
      kept.set(at);
      const before = this.area();
      this.writeProgram(radius);
      const worstBefore = this.worst;
      if (!program.solve()) {
        radius /= 2;
        continue;
      }
      for (let i = 0; i < program.variables; i++) at[i] += program.value[i];
      this.measureWorst();
      const bettered = before - this.area();
      // The program saw only the edges that were near, and the area bent straight: a step too far is taken back.
      if (this.worst > Math.max(0.2 * radius, worstBefore)) {
        at.set(kept);
        radius /= 3;
      } else if (bettered < 0.02 * radius * this.shortest()) radius /= 2;
    }
    this.reduce();
    if (!this.chooseDifferences()) return false;
    this.measureWorst();
    return this.worst <= 1e-9 * size && this.area() > 0;
  }

  lattice(): Lattice {
    const [ux, uy, vx, vy, tx, ty] = this.at;
    const copies = this.second === undefined ? 1 : 2;
    return {
      first: this.first,
      second: this.second,
      u: [ux, uy],
      v: [vx, vy],
      t: [tx, ty],
      areaPerCopy: this.area() / copies,
    };
  }

  private area(): number {
    const { at } = this;
    return at[0] * at[3] - at[1] * at[2];
  }

  /** Length of the shorter of u and v, mm: what the area loses for a millimetre that the other gets shorter. */
  private shortest(): number {
    const { at } = this;
    return Math.sqrt(Math.min(at[0] * at[0] + at[1] * at[1], at[2] * at[2] + at[3] * at[3]));
  }

  /** Shortest basis of the same lattice (Gauss), and t in the cell around the origin. */
  private reduce(): void {
    const { at } = this;
    if (!(this.area() > 1e-12 * this.size * this.size)) return;
    for (let n = 0; n < 50; n++) {
      const uu = at[0] * at[0] + at[1] * at[1];
      const vv = at[2] * at[2] + at[3] * at[3];
      if (vv < uu && this.lay === 'free') {
        this.turnBasis();
        continue;
      }
      const times = Math.round((at[0] * at[2] + at[1] * at[3]) / uu);
      if (times === 0 || this.lay === 'grid') break;
      at[2] -= times * at[0];
      at[3] -= times * at[1];
    }
    const area = this.area();
    const alongU = Math.round((at[4] * at[3] - at[5] * at[2]) / area);
    const alongV = Math.round((at[0] * at[5] - at[1] * at[4]) / area);
    at[4] -= alongU * at[0] + alongV * at[2];
    at[5] -= alongU * at[1] + alongV * at[3];
  }

  /** Takes v for u and u the other way round for v: the area stays positive. */
  private turnBasis(): void {
    const { at } = this;
    const [ux, uy] = at;
    at[0] = at[2];
    at[1] = at[3];
    at[2] = -ux;
    at[3] = -uy;
  }

  /** Every difference at which copies of the present cell can meet; false when these are too many to look at. */
  private chooseDifferences(): boolean {
    const { at } = this;
    // The second copy is up to half a cell away.
    const half = this.second === undefined ? 0 : 0.5;
    const alongU = Math.max(LEAST_SHELL, Math.ceil(this.linesWithin(at[2], at[3]) + half));
    const alongV = Math.max(LEAST_SHELL, Math.ceil(this.linesWithin(at[0], at[1]) + half));
    if (!(Math.max(alongU, alongV) <= MOST_SHELL)) return false;
    if (alongU === this.alongU && alongV === this.alongV) return true;
    this.alongU = alongU;
    this.alongV = alongV;
    this.differences = differencesOf(this.first, this.second, alongU, alongV);
    return true;
  }

  /**
   * How many lines of copies along (x, y) lie within reach to either side. Reach is a box and no circle: a long bar that
   * lies straight meets its next neighbours only across.
   */
  private linesWithin(x: number, y: number): number {
    let most = 0;
    for (const { pair, acrossX, acrossY } of this.reaches) {
      const alongX = Math.abs(pair.xx * x + pair.xy * y);
      const alongY = Math.abs(pair.yx * x + pair.yy * y);
      most = Math.max(most, acrossX * alongY + acrossY * alongX);
    }
    return most / this.area();
  }

  /** Rows for every difference of positions that is near a no-fit polygon; the cost is the change of the area. */
  private writeProgram(radius: number): void {
    const { program, at } = this;
    program.clear();
    program.low.fill(-radius);
    program.high.fill(radius);
    if (this.lay !== 'free') program.low[this.lay === 'columns' ? 0 : 1] = 0;
    if (this.lay !== 'free') program.high[this.lay === 'columns' ? 0 : 1] = 0;
    if (this.lay === 'grid') program.low[2] = 0;
    if (this.lay === 'grid') program.high[2] = 0;
    program.cost[0] = at[3];
    program.cost[1] = -at[2];
    program.cost[2] = -at[1];
    program.cost[3] = at[0];
    this.worst = 0;
    for (const difference of this.differences) this.addRows(difference, radius);
  }

  private addRows({ fixed, moving, i, j, withT }: Difference, radius: number): void {
    const { at, contact, program } = this;
    const x = i * at[0] + j * at[2] + withT * at[4];
    const y = i * at[1] + j * at[3] + withT * at[5];
    const { field, xx, xy, yx, yy } = this.pairs.pair(fixed, moving);
    const reach = radius * (1 + Math.abs(i) + Math.abs(j) + withT) * 1.5;
    const count = field.contacts(xx * x + xy * y, yx * x + yy * y, reach, contact);
    for (let k = 0; k < count; k++) {
      const room = contact[3 * k];
      // The field's frame is turned: its normals are turned back with the transpose of the map.
      const nx = xx * contact[3 * k + 1] + yx * contact[3 * k + 2];
      const ny = xy * contact[3 * k + 1] + yy * contact[3 * k + 2];
      this.worst = Math.max(this.worst, k === 0 ? -room : 0);
      const start = program.addRow(-room);
      const row = program.coefficients;
      row[start] = i * nx;
      row[start + 1] = i * ny;
      row[start + 2] = j * nx;
      row[start + 3] = j * ny;
      if (program.variables === 6) {
        row[start + 4] = withT * nx;
        row[start + 5] = withT * ny;
      }
    }
  }

  private measureWorst(): void {
    const { at } = this;
    this.worst = 0;
    for (const { fixed, moving, i, j, withT } of this.differences) {
      const x = i * at[0] + j * at[2] + withT * at[4];
      const y = i * at[1] + j * at[3] + withT * at[5];
      this.worst = Math.max(this.worst, this.depth(fixed, moving, x, y));
    }
  }
}

/** Every difference of so many multiples of u and of v to either side, opposite ones once. */
function differencesOf(
  first: number,
  second: number | undefined,
  alongU: number,
  alongV: number,
): Difference[] {
  const found: Difference[] = [];
  for (let i = -alongU; i <= alongU; i++) {
    for (let j = 0; j <= alongV; j++) {
      if (j === 0 && i <= 0) continue;
      found.push({ fixed: first, moving: first, i, j, withT: 0 });
      if (second !== undefined) found.push({ fixed: second, moving: second, i, j, withT: 0 });
    }
  }
  if (second === undefined) return found;
  for (let i = -alongU; i <= alongU; i++) {
    for (let j = -alongV; j <= alongV; j++) found.push({ fixed: first, moving: second, i, j, withT: 1 });
  }
  return found;
}

/** A pair of orientations, and how far to either side its field can still tell of an overlap, mm. */
interface Reach {
  readonly pair: Pair;
  readonly acrossX: number;
  readonly acrossY: number;
}

function reachOf(pair: Pair): Reach {
  const { minX, minY, maxX, maxY } = pair.field;
  return { pair, acrossX: Math.max(-minX, maxX), acrossY: Math.max(-minY, maxY) };
}
