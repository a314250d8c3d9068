/** Depths below this are none, mm; less than the tolerance, so that what is settled stays settled. */
export const TOUCHING = 5e-5;

/** Numbers per neighbour: depth in mm, unit direction in which it falls fastest, weight. */
export const STRIDE = 4;

/** The neighbours of a copy at one place, each as a half plane: what a descent looks ahead with. */
export class Slopes {
  values = new Float64Array(64 * STRIDE);
  /** Where the next neighbour goes. */
  at = 0;
  /** Weighted sum of the depths. */
  sum = 0;
  /** Neighbours farther than this are left out, mm. */
  reach = 0;

  /** Forgets everything; `most` neighbours may follow. */
  clear(most: number): void {
    this.at = 0;
    this.sum = 0;
    if (most * STRIDE > this.values.length) this.values = new Float64Array(2 * most * STRIDE);
  }

  /** Keeps what has been written at {@link at}, if it is near enough. */
  keep(weight: number): void {
    const depth = this.values[this.at];
    if (depth < -this.reach) return;
    if (depth > TOUCHING) this.sum += depth * weight;
    this.values[this.at + 3] = weight;
    this.at += STRIDE;
  }
}
