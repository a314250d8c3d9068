import { regionArea } from '../geometry/ring.ts';
import type { Batch, Demand } from '../model/batch.ts';
import type { Board } from '../model/stock.ts';
import type { Group, StockPiece } from './groups.ts';
import { allowedLies } from './orientations.ts';
import type { Container } from './problem.ts';
import { containerFrom, type ProblemSpec } from './problem-spec.ts';

/** From a group of demands and boards to the plain problem the engine solves. */

/** The problem of a group: copies in the order demand by demand. */
export function groupSpec(batch: Batch, group: Group): ProblemSpec {
  const shapes = group.demands.map((demand) => ({
    region: demand.region,
    lies: allowedLies(demand.rules),
    onEdge: demand.rules.restEdge,
    copies: copiesOf(batch, demand),
    perSet: Math.max(1, Math.floor(demand.copiesPerSet)),
  }));
  const gap = batch.kerf + batch.clearance + 2 * batch.outlineTolerance;
  const margin = batch.edgeMargin + batch.outlineTolerance;
  return { shapes, containers: containersOf(group.pieces), gap, margin };
}

/** Copies of a demand in the whole batch. */
export function copiesOf(batch: Batch, demand: Demand): number {
  return Math.max(0, Math.floor(batch.sets) * Math.floor(demand.copiesPerSet));
}

/** Containers of the boards; pieces of one kind share their hazards and with them all depth fields. */
function containersOf(pieces: readonly StockPiece[]): Container[] {
  const priced = pieces.every(({ board }) => board.price !== undefined);
  const ofKind = new Map<Board, Container>();
  for (const { board, usable } of pieces) {
    if (ofKind.has(board)) continue;
    const cost = priced ? board.price! : regionArea(usable);
    ofKind.set(board, containerFrom(usable, cost, ofKind.size));
  }
  return pieces.map(({ board }) => ofKind.get(board)!);
}
