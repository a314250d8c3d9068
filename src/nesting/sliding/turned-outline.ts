import { type Affine, applyToPoint } from '../../geometry/affine.ts';
import { oriented } from '../../geometry/ring.ts';
import type { Region } from '../../geometry/shapes.ts';

/**
 * The boundary of a solid as flat arrays, turned to any angle in place: what is measured where no-fit polygons, which
 * belong to one relative angle each, do not reach. Rings run so that the way off the solid is to the right of an edge
 * as it runs in a frame with y upwards.
 */
export class TurnedOutline {
  readonly count: number;
  /** Vertices after the last {@link lay}, mm. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Unit direction and length of the edge from every vertex to the next. */
  readonly ux: Float64Array;
  readonly uy: Float64Array;
  readonly length: Float64Array;
  /** The vertex that follows, and the one before, in the ring of each. */
  readonly next: Int32Array;
  readonly before: Int32Array;
  /** Farthest vertex from the reference point, mm. */
  readonly radius: number;
  /** True when the solid is everything outside the outline. */
  readonly isFrame: boolean;
  private readonly region: Region;
  minX = 0;
  minY = 0;
  maxX = 0;
  maxY = 0;

  constructor(region: Region, isFrame = false) {
    this.isFrame = isFrame;
    const outline = oriented(region.outline, !isFrame);
    this.region = {
      outline,
      openings: isFrame ? [] : region.openings.map((ring) => oriented(ring, false)),
    };
    const rings = [this.region.outline, ...this.region.openings];
    this.count = rings.reduce((sum, ring) => sum + ring.length, 0);
    this.x = new Float64Array(this.count);
    this.y = new Float64Array(this.count);
    this.ux = new Float64Array(this.count);
    this.uy = new Float64Array(this.count);
    this.length = new Float64Array(this.count);
    this.next = new Int32Array(this.count);
    this.before = new Int32Array(this.count);
    let first = 0;
    for (const ring of rings) {
      for (let i = 0; i < ring.length; i++) {
        this.next[first + i] = first + ((i + 1) % ring.length);
        this.before[first + ((i + 1) % ring.length)] = first + i;
      }
      first += ring.length;
    }
    this.radius = Math.sqrt(outline.reduce((most, [x, y]) => Math.max(most, x * x + y * y), 0));
  }

  /** Lays the boundary down by a map that mirrors or turns, then moves it. */
  lay(map: Affine, dx: number, dy: number): void {
    // A mirrored ring runs the other way round: it is written from behind.
    const mirrors = map[0] * map[3] - map[1] * map[2] < 0;
    let first = 0;
    for (const ring of [this.region.outline, ...this.region.openings]) {
      for (const [i, point] of ring.entries()) {
        const [x, y] = applyToPoint(map, point);
        const at = first + (mirrors ? ring.length - 1 - i : i);
        this.x[at] = x + dx;
        this.y[at] = y + dy;
      }
      first += ring.length;
    }
    this.measure();
  }

  private measure(): void {
    this.minX = Number.POSITIVE_INFINITY;
    this.minY = Number.POSITIVE_INFINITY;
    this.maxX = Number.NEGATIVE_INFINITY;
    this.maxY = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < this.count; i++) {
      const dx = this.x[this.next[i]] - this.x[i];
      const dy = this.y[this.next[i]] - this.y[i];
      const length = Math.sqrt(dx * dx + dy * dy);
      this.length[i] = length;
      this.ux[i] = length > 0 ? dx / length : 0;
      this.uy[i] = length > 0 ? dy / length : 0;
      this.minX = Math.min(this.minX, this.x[i]);
      this.maxX = Math.max(this.maxX, this.x[i]);
      this.minY = Math.min(this.minY, this.y[i]);
      this.maxY = Math.max(this.maxY, this.y[i]);
    }
  }

  /** True where the solid has a corner that sticks out, or none. */
  sticksOut(vertex: number): boolean {
    const b = this.before[vertex];
    return this.ux[b] * this.uy[vertex] - this.uy[b] * this.ux[vertex] >= 0;
  }

  /** True when a corner lies wholly on the side of itself that (nx, ny) points to: a line may part it from others. */
  isHeldBy(vertex: number, nx: number, ny: number): boolean {
    const b = this.before[vertex];
    return nx * this.ux[vertex] + ny * this.uy[vertex] >= -LEAN && nx * this.ux[b] + ny * this.uy[b] <= LEAN;
  }
}

/** How far the sides of a corner may lean over a line that holds it: copies may turn that far in one step. */
const LEAN = 0.1;
