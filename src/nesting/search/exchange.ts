import { Arrangement, type Field } from '../arrangement/arrangement.ts';
import type { NestingProblem } from '../problem/problem.ts';
import type { Random } from '../running/random.ts';
import type { Mover } from './mover.ts';
import type { Overlaps } from './overlaps.ts';

/**
 * Two copies moved at once: one takes the place of another, which goes where it then overlaps least. Where everything is
 * full a copy that has to leave finds no room by itself, and the weights alone drive it out only after many sweeps.
 */

/** Least and greatest area of a copy whose place is taken, as multiples of the area of the copy that takes it. */
const LEAST_AREA = 0.6;
const GREATEST_AREA = 3;

/** Samples that overlap more than so many times what they have to come below are not followed down. */
const PROMISING = 2;

/** Copies looked at for one that may be exchanged. */
const CHOICES = 10;

/** See the top of the file. */
export class Exchanges {
  private readonly problem: NestingProblem;
  private readonly arrangement: Arrangement;
  private readonly overlaps: Overlaps;
  private readonly mover: Mover;
  private readonly random: Random;
  /** Where the two lay before. */
  private readonly kept = new Arrangement(2);

  constructor(
    problem: NestingProblem,
    arrangement: Arrangement,
    overlaps: Overlaps,
    mover: Mover,
    random: Random,
  ) {
    this.problem = problem;
    this.arrangement = arrangement;
    this.overlaps = overlaps;
    this.mover = mover;
    this.random = random;
  }

  /** A copy at random of another shape, of about the size of copy `i` or larger; -1 when none was met. */
  partnerOf(i: number): number {
    const { arrangement, random } = this;
    const { shapeOf, shapes } = this.problem;
    for (let n = 0; n < CHOICES; n++) {
      const j = random.below(arrangement.count);
      if (shapeOf[j] === shapeOf[i] || arrangement.container[j] < 0) continue;
      const ratio = shapes[shapeOf[j]].area / shapes[shapeOf[i]].area;
      if (ratio > LEAST_AREA && ratio < GREATEST_AREA) return j;
    }
    return -1;
  }

  /**
   * Puts copy `i` near the place of copy `j`, and that where it then overlaps least, first of all near the place of `i`.
   * False, and nothing moved, unless both together then overlap less.
   */
  exchange(i: number, j: number, field: Field): boolean {
    const { arrangement, overlaps, mover } = this;
    const { x, y, container } = arrangement;
    const ofBoth = overlaps.depth[i * overlaps.count + j] * overlaps.weightOf(i, j);
    const before = overlaps.weightedOfCopy(i) + overlaps.weightedOfCopy(j) - ofBoth;
    this.kept.layAs(0, arrangement, i);
    this.kept.layAs(1, arrangement, j);
    const toX = (overlaps.left[j] + overlaps.right[j] - overlaps.left[i] - overlaps.right[i]) / 2;
    const toY = (overlaps.top[j] + overlaps.bottom[j] - overlaps.top[i] - overlaps.bottom[i]) / 2;
    const from = container[i];
    const to = container[j];
    x[i] += toX;
    y[i] += toY;
    container[i] = to;
    container[j] = -1;
    const taken = mover.placeNear(i, field, before, PROMISING * before);
    let isBetter = false;
    if (taken < before) {
      overlaps.measure(i);
      x[j] -= toX;
      y[j] -= toY;
      container[j] = from;
      const left = before - taken;
      isBetter = mover.placeAnywhere(j, field, left, PROMISING * left) < left;
    }
    if (!isBetter) {
      arrangement.layAs(i, this.kept, 0);
      arrangement.layAs(j, this.kept, 1);
      container[i] = from;
      container[j] = to;
      overlaps.measure(i);
    }
    overlaps.measure(j);
    return isBetter;
  }
}
