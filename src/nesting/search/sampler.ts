import type { Arrangement, Range } from '../arrangement/arrangement.ts';
import type { DepthField } from '../no-fit/depth-field.ts';
import type { NestingProblem } from '../problem/problem.ts';
import type { Overlaps } from './overlaps.ts';

/** Numbers per neighbour: the affine map into the cells of its field (6), columns, rows, weight. */
const STRIDE = 9;

/**
 * Rough overlaps of one copy at many places of one area: the neighbours that matter to the area are gathered once
 * and laid out flat, so that a look costs a few nanoseconds for each.
 */
export class Sampler {
  private readonly problem: NestingProblem;
  private readonly arrangement: Arrangement;
  private readonly overlaps: Overlaps;
  private maps = new Float64Array(64 * STRIDE);
  private corners: Float32Array[] = [];
  private count = 0;

  constructor(problem: NestingProblem, arrangement: Arrangement, overlaps: Overlaps) {
    this.problem = problem;
    this.arrangement = arrangement;
    this.overlaps = overlaps;
  }

  /** Gathers what copy `i` may meet when its reference point lies in `area`; false when it cannot lie there at all. */
  gather(i: number, orientation: number, container: number, area: Range): boolean {
    const { problem, arrangement, overlaps } = this;
    const { pairs, gap } = problem;
    const { left, right, top, bottom, weight, count } = overlaps;
    const { box } = problem.orientations[orientation];
    const fromX = area.minX + box.minX - gap;
    const toX = area.maxX + box.maxX + gap;
    const fromY = area.minY + box.minY - gap;
    const toY = area.maxY + box.maxY + gap;
    const row = i * count;
    this.count = 0;
    for (const hazard of problem.containers[container].hazards) {
      const field = pairs.hazard(hazard, orientation);
      if (field === null) return false;
      if (!field.covers(area.minX, area.minY, area.maxX, area.maxY)) continue;
      this.add(field, 1, 0, 0, 1, 0, 0, weight[row + i]);
    }
    for (let j = 0; j < count; j++) {
      if (left[j] >= toX || right[j] <= fromX || top[j] >= toY || bottom[j] <= fromY) continue;
      if (j === i || arrangement.container[j] !== container) continue;
      const { field, xx, xy, yx, yy } = pairs.pair(arrangement.orientation[j], orientation);
      this.add(field, xx, xy, yx, yy, arrangement.x[j], arrangement.y[j], weight[row + j]);
    }
    return true;
  }

  private add(
    field: DepthField,
    xx: number,
    xy: number,
    yx: number,
    yy: number,
    x: number,
    y: number,
    weight: number,
  ): void {
    if ((this.count + 1) * STRIDE > this.maps.length) this.grow();
    const { maps } = this;
    const at = this.count * STRIDE;
    const scale = field.perCell;
    maps[at] = xx * scale;
    maps[at + 1] = xy * scale;
    maps[at + 2] = -(xx * x + xy * y + field.minX) * scale;
    maps[at + 3] = yx * scale;
    maps[at + 4] = yy * scale;
    maps[at + 5] = -(yx * x + yy * y + field.minY) * scale;
    maps[at + 6] = field.columns;
    maps[at + 7] = field.rows;
    maps[at + 8] = weight;
    this.corners[this.count++] = field.corner;
  }

  private grow(): void {
    const maps = new Float64Array(2 * this.maps.length);
    maps.set(this.maps);
    this.maps = maps;
  }

  /** Weighted overlap at (x, y), read between the corners of the fields' cells; stops once above `limit`. */
  overlap(x: number, y: number, limit: number): number {
    const { maps, corners, count } = this;
    let sum = 0;
    for (let k = 0, at = 0; k < count && sum < limit; k++, at += STRIDE) {
      const gx = maps[at] * x + maps[at + 1] * y + maps[at + 2];
      const gy = maps[at + 3] * x + maps[at + 4] * y + maps[at + 5];
      const columns = maps[at + 6];
      if (!(gx >= 0 && gy >= 0 && gx < columns && gy < maps[at + 7])) continue;
      const corner = corners[k];
      const width = (columns | 0) + 1;
      const column = gx | 0;
      const line = gy | 0;
      const u = gx - column;
      const v = gy - line;
      const c = line * width + column;
      const upper = corner[c] + (corner[c + 1] - corner[c]) * u;
      const lower = corner[c + width] + (corner[c + width + 1] - corner[c + width]) * u;
      const depth = upper + (lower - upper) * v;
      if (depth > 0) sum += depth * maps[at + 8];
    }
    return sum;
  }
}
