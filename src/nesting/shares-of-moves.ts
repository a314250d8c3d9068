import { regionArea } from '../geometry/ring.ts';
import { type Group, type StockPiece, slicesOf } from './groups/group.ts';
import type { StackWays } from './groups/stack-ways.ts';

/** How the moves of a search are shared among the groups of a batch: a twentieth saved of dear wood is worth more. */

/** Share of the moves of which all groups get as much, whatever their wood costs. */
const ALIKE = 0.25;

/** The share that each group gets, in their order; together they are 1, or 0 where no group has a board. */
export function sharesOfMoves(stacks: readonly StackWays[]): number[] {
  const groups = stacks.map(({ ways: [[main]] }) => main);
  const onBoards = groups.filter(({ pieces }) => pieces.length > 0);
  const isPriced = onBoards.every(({ pieces }) => pieces.every(({ board }) => board.price !== undefined));
  const worths = onBoards.map((group) => costOfParts(group, isPriced) * Math.sqrt(copiesToPlace(group)));
  const all = worths.reduce((sum, worth) => sum + worth, 0);
  const even = 1 / onBoards.length;
  const shares = worths.map((worth) => ALIKE * even + (1 - ALIKE) * (all > 0 ? worth / all : even));
  return groups.map((group) => shares[onBoards.indexOf(group)] ?? 0);
}

/**
 * Of many copies a layout takes more moves, though not so many more: the root of this number is between the two. In a
 * stack one stands for several.
 */
function copiesToPlace({ demands, sets }: Group): number {
  return sets * demands.reduce((sum, { copiesPerSet }) => sum + copiesPerSet, 0);
}

/**
 * What the wood in all parts of a group costs, by what an area of its boards costs on average; without prices its volume,
 * mm3. Prices, and not what taking a board counts, which may go by its age or its area.
 */
function costOfParts({ demands, sets, stack, pieces, thickness }: Group, isPriced: boolean): number {
  const ofSet = demands.reduce((sum, { region, copiesPerSet }) => sum + copiesPerSet * regionArea(region), 0);
  const area = ofSet * sets * stack;
  if (!isPriced) return area * thickness;
  const areas = pieces.map(({ usable }) => regionArea(usable));
  const room = areas.reduce((sum, one) => sum + one, 0);
  const cost = pieces.reduce((sum, piece, k) => sum + areas[k] * pricePerArea(piece), 0);
  return room > 0 ? (area * cost) / room : 0;
}

/** Price of each mm2 of a board; of one that is resawn, of each of its slices. */
function pricePerArea({ board, kind }: StockPiece): number {
  return board.price! / regionArea(kind.usable) / (slicesOf(kind) ?? 1);
}
