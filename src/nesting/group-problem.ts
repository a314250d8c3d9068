import { regionArea } from '../geometry/ring.ts';
import type { Region } from '../geometry/shapes.ts';
import type { Batch, Demand } from '../model/batch.ts';
import { begunBoards, boardNameOf, type Group, type StockKind, type StockPiece, slicesOf } from './groups.ts';
import { allowedLies, freeStep } from './orientations.ts';
import type { PinnedCopy } from './pinned.ts';
import type { Container } from './problem.ts';
import { containerFrom, type ProblemSpec } from './problem-spec.ts';

/** From a group of demands and boards to the plain problem the engine solves. */

/** The problem of a group: copies in the order demand by demand. */
export function groupSpec(batch: Batch, group: Group): ProblemSpec {
  const step = freeStep(group.demands.filter(({ rules }) => rules.grain === 'free').length);
  const shapes = group.demands.map((demand) => ({
    region: demand.region,
    lies: allowedLies(demand.rules, step),
    onEdge: demand.rules.restEdge,
    copies: copiesOf(group, demand),
    perSet: Math.max(1, Math.floor(demand.copiesPerSet)),
  }));
  const gap = batch.kerf + batch.clearance + 2 * batch.outlineTolerance;
  const margin = batch.edgeMargin + batch.outlineTolerance;
  return { shapes, containers: containersOf(group.pieces, gap), gap, margin };
}

/** Copies of a demand to find a place for in a group, pinned ones left out: in a stack each stands for several. */
export function copiesOf(group: Group, demand: Demand): number {
  const pinned = pinnedOf(group, demand).length;
  return Math.max(0, Math.floor(group.sets) * Math.floor(demand.copiesPerSet) - pinned);
}

/** The pinned copies of a demand, with the number of the piece they lie on. */
export function pinnedOf(
  { pieces }: Group,
  demand: Demand,
): { readonly copy: PinnedCopy; readonly on: number }[] {
  return pieces.flatMap(({ pinned }, on) =>
    pinned.filter((copy) => copy.demand === demand).map((copy) => ({ copy, on })),
  );
}

/** Containers of the pieces of stock; pieces of one kind share their hazards and with them all depth fields. */
function containersOf(pieces: readonly StockPiece[], gap: number): Container[] {
  const priced = arePriced(pieces);
  const ofKind = new Map<Region, Container>();
  for (const piece of pieces) {
    if (ofKind.has(piece.usable)) continue;
    const occupied = piece.pinned.map(({ region }) => ({ region, frame: false, distance: gap }));
    ofKind.set(piece.usable, containerFrom(piece.usable, costOf(piece, priced), ofKind.size, occupied));
  }
  const names = pieces.map(boardNameOf);
  const boards = [...new Set(names)];
  // A board that carries something anyway costs no more when the rest of it is used.
  const begun = begunBoards(pieces);
  return pieces.map(({ usable }, k) => {
    const container = ofKind.get(usable)!;
    const cost = begun.has(names[k]) ? 0 : container.cost;
    const board = boards.indexOf(names[k]);
    return { ...container, cost, board, ...(pieces[k].board.takenFirst ? { first: true } : {}) };
  });
}

/** True when every piece says what taking it costs: else all count by their area. */
export function arePriced(pieces: readonly StockPiece[]): boolean {
  return pieces.every(({ board }) => (board.takingCost ?? board.price) !== undefined);
}

/** What taking a whole board of a kind counts. */
export function wholeCost({ board, usable }: StockKind, priced: boolean): number {
  return priced ? (board.takingCost ?? board.price!) : regionArea(usable);
}

/** What taking the boards of a piece counts, all their sections together; a slice counts its share of a board. */
function costOf({ kind, units }: StockPiece, priced: boolean): number {
  return (wholeCost(kind, priced) * units.length) / (slicesOf(kind) ?? 1);
}
