import type { Container } from './container.ts';
import type { PairTable } from './pair-table.ts';
import type { FinerShapes, Orientation, Shape } from './shape.ts';

/**
 * One nesting problem: shapes with their orientations, the copies to place, and the containers to place them in.
 * Boards of one species and thickness make one problem; a strip is a container whose length may shrink.
 */
export interface NestingProblem {
  readonly shapes: readonly Shape[];
  readonly orientations: readonly Orientation[];
  /** Shape of every copy to place. */
  readonly shapeOf: Int32Array;
  /** Number of copies of every shape in one set. */
  readonly perSet: readonly number[];
  /** Number of copies of every shape that lie where they are pinned: the first ones of the sets, none of them to be placed. */
  readonly pinned: readonly number[];
  readonly containers: readonly Container[];
  /** Distance to keep between shapes, mm. */
  readonly gap: number;
  /** Distance to keep to outlines and defects, mm. */
  readonly margin: number;
  /** Depth fields of pairs, built when first asked for. */
  readonly pairs: PairTable;
  /** The shapes in outlines of more vertices, from most to fewest, where those of all pairs cost too much; else none. */
  readonly finer: readonly FinerShapes[];
}
