import type { DepthField } from '../no-fit/depth-field.ts';
import type { Pair } from '../problem/pair-table.ts';
import type { NestingProblem } from '../problem/problem.ts';
import type { Arrangement } from './arrangement.ts';
import type { Slopes } from './slopes.ts';

/** Greatest overlap in mm that counts as none: the grid everything is written on. */
export const DEPTH_TOLERANCE = 1e-4;

/** What a search keeps of its copies, and a probe then need not work out. */
export interface KnownCopies {
  /** Weight of a pair; of a copy and the walls where both numbers are its own. */
  weightOf(i: number, j: number): number;
  /** Box of every copy as it lies, mm; inside out for copies that lie nowhere. */
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly top: Float64Array;
  readonly bottom: Float64Array;
}

/**
 * Measures how deep one copy would overlap others at any position near a place. The neighbours that can matter are
 * gathered once; a look then costs a few field reads. Nothing is allocated after the first calls.
 */
export class Probe {
  private readonly problem: NestingProblem;
  private pairs: Pair[] = [];
  private pairX = new Float64Array(64);
  private pairY = new Float64Array(64);
  private weight = new Float64Array(64);
  private pairCount = 0;
  private walls: DepthField[] = [];
  private wallWeight = new Float64Array(16);
  private wallCount = 0;

  constructor(problem: NestingProblem) {
    this.problem = problem;
  }

  /**
   * Gathers what copy `item`, lying in `orientation`, may meet in `container` within `reach` mm of (x, y).
   * False when the copy cannot lie in that container at all.
   *
   * @param known what a search keeps at hand, or undefined
   */
  gather(
    arrangement: Arrangement,
    item: number,
    orientation: number,
    container: number,
    x: number,
    y: number,
    reach: number,
    known?: KnownCopies,
  ): boolean {
    const { orientations, gap, pairs } = this.problem;
    const box = orientations[orientation].box;
    const near = gap + reach;
    const left = x + box.minX - near;
    const right = x + box.maxX + near;
    const top = y + box.minY - near;
    const bottom = y + box.maxY + near;
    this.pairCount = 0;
    for (let j = 0; j < arrangement.count; j++) {
      if (known !== undefined) {
        if (known.left[j] > right || known.right[j] < left) continue;
        if (known.top[j] > bottom || known.bottom[j] < top) continue;
      }
      if (arrangement.container[j] !== container || j === item) continue;
      const jx = arrangement.x[j];
      const jy = arrangement.y[j];
      if (known === undefined) {
        const other = orientations[arrangement.orientation[j]].box;
        if (jx + other.minX > right || jx + other.maxX < left) continue;
        if (jy + other.minY > bottom || jy + other.maxY < top) continue;
      }
      const pair = pairs.pair(arrangement.orientation[j], orientation);
      this.addPair(pair, jx, jy, known === undefined ? 1 : known.weightOf(item, j));
    }
    const weight = known === undefined ? 1 : known.weightOf(item, item);
    return this.gatherWalls(orientation, container, x, y, reach, weight);
  }

  private addPair(pair: Pair, x: number, y: number, weight: number): void {
    const at = this.pairCount++;
    if (at >= this.pairX.length) this.grow();
    this.pairs[at] = pair;
    this.pairX[at] = x;
    this.pairY[at] = y;
    this.weight[at] = weight;
  }

  private grow(): void {
    const size = this.pairX.length * 2;
    this.pairX = copied(this.pairX, size);
    this.pairY = copied(this.pairY, size);
    this.weight = copied(this.weight, size);
  }

  private gatherWalls(
    orientation: number,
    container: number,
    x: number,
    y: number,
    reach: number,
    weight: number,
  ): boolean {
    this.wallCount = 0;
    for (const hazard of this.problem.containers[container].hazards) {
      const field = this.problem.pairs.hazard(hazard, orientation);
      if (field === null) return false;
      if (!field.covers(x - reach, y - reach, x + reach, y + reach)) continue;
      if (this.wallCount >= this.wallWeight.length)
        this.wallWeight = copied(this.wallWeight, 2 * this.wallCount);
      this.walls[this.wallCount] = field;
      this.wallWeight[this.wallCount++] = weight;
    }
    return true;
  }

  /** Weighted sum of the overlap depths at (x, y), exact; stops once above `limit`. */
  overlap(x: number, y: number, limit: number): number {
    let sum = 0;
    for (let k = 0; k < this.wallCount; k++) {
      const depth = this.walls[k].depth(x, y);
      if (depth > 0) sum += depth * this.wallWeight[k];
    }
    for (let k = 0; k < this.pairCount && sum < limit; k++) {
      const { field, xx, xy, yx, yy } = this.pairs[k];
      const dx = x - this.pairX[k];
      const dy = y - this.pairY[k];
      const depth = field.depth(xx * dx + xy * dy, yx * dx + yy * dy);
      if (depth > 0) sum += depth * this.weight[k];
    }
    return sum;
  }

  /**
   * Weighted overlap at (x, y), exact, together with what it is made of: a {@link Slopes} of everything no farther
   * than its reach.
   */
  slopes(x: number, y: number, out: Slopes): number {
    const { wallWeight, walls, pairs, pairX, pairY, weight } = this;
    out.clear(this.wallCount + this.pairCount);
    const { values } = out;
    for (let k = 0; k < this.wallCount; k++) {
      walls[k].writeSlope(x, y, values, out.at);
      out.keep(wallWeight[k]);
    }
    for (let k = 0; k < this.pairCount; k++) {
      const { field, xx, xy, yx, yy } = pairs[k];
      const dx = x - pairX[k];
      const dy = y - pairY[k];
      const at = out.at;
      field.writeSlope(xx * dx + xy * dy, yx * dx + yy * dy, values, at);
      const nx = values[at + 1];
      const ny = values[at + 2];
      values[at + 1] = xx * nx + yx * ny;
      values[at + 2] = xy * nx + yy * ny;
      out.keep(weight[k]);
    }
    return out.sum;
  }

  /** Deepest overlap at (x, y), mm; negative or 0 when there is none. */
  deepest(x: number, y: number): number {
    let deepest = 0;
    for (let k = 0; k < this.wallCount; k++) {
      const depth = this.walls[k].depth(x, y);
      if (depth > deepest) deepest = depth;
    }
    for (let k = 0; k < this.pairCount; k++) {
      const { field, xx, xy, yx, yy } = this.pairs[k];
      const dx = x - this.pairX[k];
      const dy = y - this.pairY[k];
      const depth = field.depth(xx * dx + xy * dy, yx * dx + yy * dy);
      if (depth > deepest) deepest = depth;
    }
    return deepest;
  }
}

function copied(array: Float64Array, size: number): Float64Array<ArrayBuffer> {
  const larger = new Float64Array(size);
  larger.set(array);
  return larger;
}
