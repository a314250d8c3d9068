/** Four whole numbers of 32 bits. */
export type RandomState = readonly [number, number, number, number];

/**
 * A small seeded generator of random numbers (xorshift128, Marsaglia 2003), so that the same seed gives the same
 * search on every machine. Only whole-number operations are used.
 */
export class Random {
  private a: number;
  private b: number;
  private c: number;
  private d: number;

  /** @param seed a whole number of 32 bits; seeds that differ give sequences that have nothing in common */
  constructor(seed: number) {
    this.a = (seed | 0) ^ 0x9e3779b9;
    this.b = 0x243f6a88;
    this.c = 0xb7e15162;
    this.d = 0x85ebca6b;
    for (let i = 0; i < 20; i++) this.unit();
  }

  /** What the numbers to come hang on: put back, they come once more. */
  get state(): RandomState {
    return [this.a, this.b, this.c, this.d];
  }

  set state([a, b, c, d]: RandomState) {
    this.a = a;
    this.b = b;
    this.c = c;
    this.d = d;
  }

  /** A number from 0 (inclusive) to 1 (exclusive). */
  unit(): number {
    let t = this.d;
    const s = this.a;
    this.d = this.c;
    this.c = this.b;
    this.b = s;
    t ^= t << 11;
    t ^= t >>> 8;
    this.a = t ^ s ^ (s >>> 19);
    return (this.a >>> 0) / 4294967296;
  }

  /** A number from `low` to `high`. */
  between(low: number, high: number): number {
    return low + (high - low) * this.unit();
  }

  /** A whole number from 0 to `count` - 1. */
  below(count: number): number {
    return Math.min(count - 1, Math.floor(this.unit() * count));
  }

  /** Shuffles the first `length` entries in place (Fisher and Yates). */
  shuffle(order: Int32Array, length: number): void {
    for (let i = length - 1; i > 0; i--) {
      const j = this.below(i + 1);
      const kept = order[i];
      order[i] = order[j];
      order[j] = kept;
    }
  }
}
