import { regionArea } from '../geometry/ring.ts';
import { type Group, type StockKind, slicesOf } from './groups/group.ts';
import { arePriced, wholeCost } from './groups/group-problem.ts';
import type { StackWays } from './groups/stack-ways.ts';

/** How the moves of a search are shared among the groups of a batch: a twentieth saved of dear wood is worth more. */

/** Share of the moves of which all groups get as much, whatever their wood costs. */
const ALIKE = 0.25;

/** The share that each group gets, in their order; together they are 1. */
export function sharesOfMoves(stacks: readonly StackWays[]): number[] {
  const groups = stacks.map(({ ways: [[main]] }) => main);
  const priced = groups.every(({ pieces }) => arePriced(pieces));
  // Of many copies a layout takes more moves, though not so many more: the root of their number is between the two.
  const worths = groups.map((group) => costOfParts(group, priced) * Math.sqrt(copiesOf(group)));
  const all = worths.reduce((sum, worth) => sum + worth, 0);
  const even = 1 / groups.length;
  return worths.map((worth) => ALIKE * even + (1 - ALIKE) * (all > 0 ? worth / all : even));
}

function copiesOf({ demands, sets, stack }: Group): number {
  return sets * stack * demands.reduce((sum, { copiesPerSet }) => sum + copiesPerSet, 0);
}

/** What the wood in all parts of a group costs where it is cheapest; without prices its volume, mm3. */
function costOfParts({ demands, sets, stack, stock, thickness }: Group, priced: boolean): number {
  const ofSet = demands.reduce((sum, { region, copiesPerSet }) => sum + copiesPerSet * regionArea(region), 0);
  const area = ofSet * sets * stack;
  const usable = stock.filter((kind) => kind.usable.outline.length > 0);
  if (!priced || usable.length === 0) return area * thickness;
  return area * Math.min(...usable.map(costPerArea));
}

/** What a board counts for each mm2 of it; one that is resawn, of its slices. */
function costPerArea(kind: StockKind): number {
  return wholeCost(kind, true) / regionArea(kind.usable) / (slicesOf(kind) ?? 1);
}
