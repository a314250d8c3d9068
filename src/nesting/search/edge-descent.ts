import { clamped, type Range } from '../arrangement/arrangement.ts';
import type { Probe } from '../arrangement/probe.ts';
import { Slopes, STRIDE, TOUCHING } from '../arrangement/slopes.ts';

/** Moves of one descent at most. */
const MOST_STEPS = 24;

/** Cuts of a step that turns out to lead up: how many, and to what share. */
const MOST_CUTS = 3;
const CUT = 0.3;

/** A step that leaves more than this share of the overlap is the last. */
const LEAST_GAIN = 0.999;

/**
 * Descends on the weighted overlap of one copy from edge to edge of the no-fit polygons around it: between them the
 * sum of depths is nearly linear, so the way down is known, and it ends where an edge is met; then along that edge.
 * A minimum is a corner of two edges and is met exactly (the simplex idea for sums of absolute deviations,
 * Barrodale and Roberts 1973).
 */
export class EdgeDescent {
  /** Where the last descent ended, mm. */
  x = 0;
  y = 0;
  private readonly probe: Probe;
  private here = new Slopes();
  private there = new Slopes();
  private wayX = 0;
  private wayY = 0;
  private rate = 0;

  constructor(probe: Probe) {
    this.probe = probe;
  }

  /**
   * Descends from (x, y) within the range; the neighbours are those the probe has gathered, and those within `reach`
   * mm of touching are looked ahead to. Returns the weighted overlap at the end.
   */
  descend(x: number, y: number, range: Range, reach: number): number {
    this.x = x;
    this.y = y;
    this.here.reach = reach;
    this.there.reach = reach;
    let value = this.probe.slopes(x, y, this.here);
    for (let steps = 0; value > 0 && steps < MOST_STEPS; steps++) {
      if (!this.chooseWay(range)) break;
      const next = this.follow(range, this.stepLength(range, reach), value);
      const worthwhile = next < LEAST_GAIN * value;
      value = next;
      if (!worthwhile) break;
    }
    return value;
  }

  /** Goes the chosen way, less far where that turns out to lead up. Returns the overlap there. */
  private follow(range: Range, farthest: number, value: number): number {
    let length = farthest;
    for (let cuts = 0; cuts <= MOST_CUTS; cuts++, length *= CUT) {
      const x = clamped(this.x + this.wayX * length, range.minX, range.maxX);
      const y = clamped(this.y + this.wayY * length, range.minY, range.maxY);
      const next = this.probe.slopes(x, y, this.there);
      if (next >= value) continue;
      this.x = x;
      this.y = y;
      const kept = this.here;
      this.here = this.there;
      this.there = kept;
      return next;
    }
    return value;
  }

  /** The direction in which the overlap falls fastest: straight down, or along an edge that is touched. */
  private chooseWay(range: Range): boolean {
    const { values, at } = this.here;
    this.rate = 0;
    let gx = 0;
    let gy = 0;
    for (let k = 0; k < at; k += STRIDE) {
      if (values[k] <= TOUCHING) continue;
      gx += values[k + 3] * values[k + 1];
      gy += values[k + 3] * values[k + 2];
    }
    this.offerWay(gx, gy, range);
    for (let k = 0; k < at; k += STRIDE) {
      if (values[k] > TOUCHING || values[k] < -TOUCHING) continue;
      const side = gy * values[k + 1] - gx * values[k + 2] >= 0 ? 1 : -1;
      this.offerWay(-side * values[k + 2], side * values[k + 1], range);
    }
    return this.rate < 0;
  }

  private offerWay(ux: number, uy: number, range: Range): void {
    const { x, y } = this;
    const wayX = (x <= range.minX && ux < 0) || (x >= range.maxX && ux > 0) ? 0 : ux;
    const wayY = (y <= range.minY && uy < 0) || (y >= range.maxY && uy > 0) ? 0 : uy;
    const length = Math.sqrt(wayX * wayX + wayY * wayY);
    if (!(length > 1e-12)) return;
    const nx = wayX / length;
    const ny = wayY / length;
    const { values, at } = this.here;
    let rate = 0;
    for (let k = 0; k < at; k += STRIDE) {
      if (values[k] < -TOUCHING) continue;
      const rise = -values[k + 3] * (values[k + 1] * nx + values[k + 2] * ny);
      if (values[k] > TOUCHING || rise > 0) rate += rise;
    }
    if (rate >= this.rate - 1e-9) return;
    this.rate = rate;
    this.wayX = nx;
    this.wayY = ny;
  }

  /** How far the way leads down before edges that are met or left turn it up. */
  private stepLength(range: Range, reach: number): number {
    const { values, at } = this.here;
    const { x, y, wayX, wayY } = this;
    let most = reach;
    if (wayX > 0) most = Math.min(most, (range.maxX - x) / wayX);
    else if (wayX < 0) most = Math.min(most, (range.minX - x) / wayX);
    if (wayY > 0) most = Math.min(most, (range.maxY - y) / wayY);
    else if (wayY < 0) most = Math.min(most, (range.minY - y) / wayY);
    let rate = this.rate;
    let reached = 0;
    while (rate < 0) {
      let nearest = most;
      let change = Number.POSITIVE_INFINITY;
      for (let k = 0; k < at; k += STRIDE) {
        const fall = values[k + 1] * wayX + values[k + 2] * wayY;
        const depth = values[k];
        if (depth > TOUCHING ? fall <= 0 : depth < -TOUCHING ? fall >= 0 : true) continue;
        const length = depth / fall;
        if (length > reached && length < nearest) {
          nearest = length;
          change = values[k + 3] * Math.abs(fall);
        }
      }
      reached = nearest;
      rate += change;
    }
    return reached;
  }
}
