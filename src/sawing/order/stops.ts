import type { Point } from '../../geometry/shapes.ts';

/** One way to make a cut: where the blade starts and where it ends. */
export interface Gate {
  readonly from: Point;
  readonly to: Point;
  /** Index of the gate that runs the other way; its own for a closed cut. */
  readonly reverse: number;
}

/** A cut as the ordering sees it: the gates it may be made through. */
export interface Stop {
  readonly gates: readonly Gate[];
}

/** A stop in an order, and the gate taken. */
export interface Visit {
  readonly stop: number;
  readonly gate: number;
}

/** How far the board is moved between the cuts of an order, beginning at `start`, mm. */
export function travelOf(stops: readonly Stop[], visits: readonly Visit[], start: Point): number {
  let [x, y] = start;
  let travel = 0;
  for (const { stop, gate } of visits) {
    const { from, to } = stops[stop].gates[gate];
    travel += Math.hypot(from[0] - x, from[1] - y);
    [x, y] = to;
  }
  return travel;
}
