import type { DepthField } from '../no-fit/depth-field.ts';
import type { Steps } from '../running/steps.ts';
import type { Hazard } from './container.ts';
import { type Pair, PairTable } from './pair-table.ts';
import type { NestingProblem } from './problem.ts';
import type { FinerShapes } from './shape.ts';

/**
 * Depth fields in finer outlines for the pairs that are told to be neighbours, in those of the search for all others: two
 * hundred parts make tens of thousands of pairs, of which some hundreds ever come near one another once a layout has
 * settled. A field in coarser outlines asks for more room than a pair needs, never for less.
 */
export class FinerPairs extends PairTable {
  private readonly coarser: PairTable;
  private readonly count: number;
  /** Pairs of orientations that are neighbours, and orientations that copies have. */
  private readonly near = new Set<number>();
  private readonly placed = new Set<number>();

  constructor({ pairs, gap, margin }: NestingProblem, { shapes, orientations }: FinerShapes) {
    super(shapes, orientations, gap, margin);
    this.coarser = pairs;
    this.count = orientations.length;
  }

  /** Takes finer outlines for two orientations from now on, and for each of them along the edges of boards. */
  refine(fixed: number, moving: number): void {
    this.near.add(fixed * this.count + moving).add(moving * this.count + fixed);
    this.placed.add(this.look(fixed)).add(this.look(moving));
  }

  protected override *makePair(fixed: number, moving: number): Steps<Pair> {
    const isNear = this.near.has(fixed * this.count + moving);
    return isNear ? yield* super.makePair(fixed, moving) : yield* this.coarser.pairSteps(fixed, moving);
  }

  protected override *makeWall(hazard: Hazard, orientation: number): Steps<DepthField | null> {
    const isLying = this.placed.has(orientation);
    return isLying
      ? yield* super.makeWall(hazard, orientation)
      : yield* this.coarser.hazardSteps(hazard, orientation);
  }
}
