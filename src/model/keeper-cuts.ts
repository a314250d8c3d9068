import type { Line } from '../geometry/shapes.ts';
import type { LaidBoard } from './layout.ts';

/** The straight cuts that part the keepers of a board from it: what frees two of them is one cut. */
export function keeperCuts({ offcuts = [] }: Pick<LaidBoard, 'offcuts'>): Line[] {
  const cuts = offcuts.flatMap(({ lines }) => lines);
  return [...new Map(cuts.map((line) => [JSON.stringify(line), line])).values()];
}
