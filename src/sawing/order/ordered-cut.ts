import type { Cut } from '../../model/cut-plan.ts';
import type { UnorderedCut } from '../part-cuts.ts';

/** A cut with its place in the order, the gate it is ordered by, and what is said about it. */
export interface OrderedCut {
  readonly cut: UnorderedCut;
  readonly gate: number;
  readonly entry: Cut['entry'];
  readonly reason: string;
  readonly partFree: boolean;
}
