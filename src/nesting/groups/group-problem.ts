import { regionArea } from '../../geometry/ring.ts';
import { type Box, boundsOf, boxArea, type Region } from '../../geometry/shapes.ts';
import type { Batch, Demand } from '../../model/batch.ts';
import type { Container } from '../problem/container.ts';
import { allowedLies, freeStep, type Lie } from '../problem/orientations.ts';
import { containerFrom, type ProblemSpec } from '../problem/problem-spec.ts';
import { boxFits, boxOf, marginOf, roomiestBoxes } from './board-margin.ts';
import { type DemandsAlike, demandsAlike, outlineOf, perSetOf } from './demands-alike.ts';
import {
  begunBoards,
  boardNameOf,
  type Group,
  gapOf,
  isFilledFirst,
  type StockKind,
  type StockPiece,
  slicesOf,
} from './group.ts';
import type { PinnedCopy } from './pinned.ts';

/** From a group of demands and boards to the plain problem the engine solves. */

/**
 * The problem of a group: a shape for all demands that are alike, with their copies one after the other.
 *
 * @param alike the demands as they are told apart, when not as the search does it
 */
export function groupSpec(batch: Batch, group: Group, alike = demandsAlike(group)): ProblemSpec {
  const regions = alike.map(outlineOf);
  const step = freeStep(regions.filter((_, i) => alike[i][0].rules.grain === 'free'));
  const shapes = alike.map((demands, i) => {
    const region = regions[i];
    return {
      region,
      lies: liesOf(batch, group, { ...demands[0], region }, step),
      stands: demands[0].rules.restEdge,
      copies: copiesOf(group, demands),
      perSet: perSetOf(demands),
      pinned: pinnedCount(group, demands),
    };
  });
  return { shapes, containers: containersOf(batch, group), gap: gapOf(batch), margin: marginOf(batch) };
}

/** Degrees between the angles tried for a part that fits no board at a listed one. */
const FINE_STEP = 0.5;

/**
 * The lies a part is listed in: those its rules allow, with a further one for a board on which its box fits in none of
 * them, and where it fits no board in any, as that of a long part may, the middle of the angles between in which it does.
 *
 * @param step degrees between the angles where the grain is free
 */
export function liesOf(batch: Batch, { pieces }: Group, demand: Demand, step?: number): Lie[] {
  const onTop = pieces.some(({ kind }) => kind.edges.straightTop !== undefined);
  const allowed = allowedLies(demand.rules, step, onTop);
  const turns = allowed.some(({ twist }) => twist !== undefined);
  if (!turns || pieces.length === 0) return allowed;
  const usables = new Set(pieces.map(({ usable }) => usable));
  const fitsOn = (part: Box, board: Box) => boxFits(batch.edgeMargin, demand.rules, part, board);
  const lies = [...allowed, ...forOtherBoards(demand, allowed, usables, fitsOn)];
  const boards = roomiestBoxes(usables);
  const fits = (lie: Lie) => {
    const part = boxOf(demand, lie);
    return boards.some((board) => fitsOn(part, board));
  };
  if (lies.some(fits)) return lies;
  const oneEach = [false, true].flatMap((over) => lies.find(({ turnedOver }) => turnedOver === over) ?? []);
  return [...lies, ...oneEach.flatMap((lie) => betweenListed(lie, fits))];
}

/**
 * Where few angles are listed, as for many parts, those of the usual ones that hold a part on a board on which it fits in
 * none of the few: a stick that is drawn upright, on a narrow board beside a wide one. For each such board the one in the
 * smallest box.
 */
function forOtherBoards(
  demand: Demand,
  allowed: readonly Lie[],
  usables: Iterable<Region>,
  fitsOn: (part: Box, board: Box) => boolean,
): Lie[] {
  const others = allowedLies(demand.rules)
    .filter((lie) => !allowed.some((one) => one.degrees === lie.degrees && one.turnedOver === lie.turnedOver))
    .map((lie) => ({ lie, box: boxOf(demand, lie) }))
    .sort((a, b) => boxArea(a.box) - boxArea(b.box));
  if (others.length === 0) return [];
  const boxes = allowed.map((lie) => boxOf(demand, lie));
  const added = new Set<Lie>();
  for (const usable of usables) {
    const board = boundsOf(usable.outline);
    if (boxes.some((box) => fitsOn(box, board))) continue;
    const other = others.find(({ box }) => fitsOn(box, board));
    if (other === undefined) continue;
    added.add(other.lie);
    boxes.push(other.box);
  }
  return [...added];
}

/** The middle of the first stretch of angles that a lie stands for in which something holds; none where it never does. */
function betweenListed(lie: Lie, fits: (lie: Lie) => boolean): Lie[] {
  const [least, most] = lie.twist ?? [0, 0];
  const turned = (by: number): Lie => ({
    ...lie,
    degrees: lie.degrees + by,
    twist: [least - by, most - by],
  });
  const angles = Array.from(
    { length: Math.floor((most - least) / FINE_STEP) + 1 },
    (_, i) => least + i * FINE_STEP,
  );
  const first = angles.findIndex((by) => fits(turned(by)));
  if (first < 0) return [];
  const beyond = angles.findIndex((by, i) => i > first && !fits(turned(by)));
  const last = beyond < 0 ? angles.length - 1 : beyond - 1;
  return [turned((angles[first] + angles[last]) / 2)];
}

/** Number of copies of alike demands to find a place for in a group, pinned ones left out: in a stack each stands for several. */
export function copiesOf(group: Group, alike: DemandsAlike): number {
  return Math.max(0, Math.floor(group.sets) * perSetOf(alike) - pinnedCount(group, alike));
}

function pinnedCount(group: Group, alike: DemandsAlike): number {
  return alike.reduce((sum, demand) => sum + pinnedOf(group, demand).length, 0);
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
export function containersOf(batch: Batch, { pieces, stock }: Group): Container[] {
  const gap = gapOf(batch);
  const margin = marginOf(batch);
  const priced = arePriced(pieces);
  const ofKind = new Map<Region, Container>();
  for (const piece of pieces) {
    if (ofKind.has(piece.usable)) continue;
    const occupied = piece.pinned.map(({ region }) => ({ region, frame: false, distance: gap }));
    const surroundings = { occupied, margin, ...piece.kind.edges };
    ofKind.set(piece.usable, containerFrom(piece.usable, costOf(piece, priced), ofKind.size, surroundings));
  }
  const names = pieces.map(boardNameOf);
  const boards = [...new Set(names)];
  // A board that carries something anyway costs no more when the rest of it is used.
  const begun = begunBoards(pieces);
  return pieces.map(({ usable }, k) => {
    const container = ofKind.get(usable)!;
    const cost = begun.has(names[k]) ? 0 : container.cost;
    const board = boards.indexOf(names[k]);
    return { ...container, cost, board, ...(isFilledFirst(pieces[k].kind, stock) ? { first: true } : {}) };
  });
}

/** True when every piece says what taking it costs: else all count by their area. */
export function arePriced(pieces: readonly StockPiece[]): boolean {
  return pieces.every(({ board }) => (board.takingCost ?? board.price) !== undefined);
}

/** What taking a whole board of a kind counts: money, or its usable area in mm2 where not every board has a price. */
export function wholeCost({ board, usable }: StockKind, priced: boolean): number {
  return priced ? (board.takingCost ?? board.price!) : regionArea(usable);
}

/** What taking the boards of a piece counts, all their sections together; a slice counts its share of the price of a board. */
function costOf({ kind, units }: StockPiece, priced: boolean): number {
  return (wholeCost(kind, priced) * units.length) / (slicesOf(kind) ?? 1);
}
