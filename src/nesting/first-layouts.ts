import type { LayOutOptions } from '../model/laying-out.ts';
import type { Arrangement } from './arrangement/arrangement.ts';
import type { Group } from './groups/group.ts';
import { type StackWays, shareBoards } from './groups/stack-ways.ts';
import { eachAndGoneOn, type LayWhole, layEach, layGroup } from './in-turn.ts';
import type { LaidGroup } from './laid/laid-group.ts';
import { leftOut } from './laid/loss.ts';
import type { LayGroup } from './laid/sets-together.ts';
import type { Laying } from './laying.ts';
import { compareLosses, type Loss } from './problem/compare-losses.ts';
import { layInBoxes, layQuickly } from './search-group.ts';
import { atTheStop, laidOf, lowered, type Taking } from './taking.ts';

/** Layouts that take moments: what a search begins with, and what tells in which order and stacks the groups are searched. */

/**
 * A quick layout of every group, as the search would lay it out. Before any of them comes one of everything in boxes, for
 * unlike outlines of one wood alone may take seconds; it is told where it holds all copies.
 */
export async function firstLayouts(
  laying: Laying,
  onProgress: LayOutOptions['onProgress'],
): Promise<readonly Taking[]> {
  const { stacks, signal } = laying;
  const tell = (all: readonly Taking[], message: string) =>
    onProgress?.({ done: 0, message, best: laying.layoutOf(laidOf(all)) });
  const inBoxes = await leavingLeastOut(laying, stacks, boxed(laying), 'every group');
  if (inBoxes.every(({ laid }) => laid.unplaced.length === 0)) tell(inBoxes, 'first layout in boxes');
  const own = await leavingLeastOut(laying, stacks, quickly(laying), 'until stopped');
  const quick = signal?.aborted ? atTheStop(own, inBoxes) : own;
  tell(quick, 'first layout of everything');
  return quick;
}

/**
 * A layout of every group, in lower stacks where those leave less out: the search itself comes to these at its end only,
 * and it may be stopped long before.
 */
export async function leavingLeastOut(
  laying: Laying,
  stacks: readonly StackWays[],
  lay: LayWhole,
  extent: 'every group' | 'until stopped',
): Promise<readonly Taking[]> {
  const all = await eachAndGoneOn(stacks, laying.signal, lay, extent);
  if (all.length < stacks.length) return all;
  const lower = await lowerStacks(laying, stacks, all, lay);
  return lower === undefined || laying.signal?.aborted ? all : lower.laid;
}

function boxed(laying: Laying): LayWhole {
  return async (whole, taken) => {
    const group = laying.firstParting(whole, taken);
    const lay: LayGroup = (part) => layInBoxes(laying.batch, part, laying);
    return lowered(group, await layGroup(laying.batch, group, lay));
  };
}

/** Lays a group out at once, as the search would lay it out. */
export function quickly(laying: Laying): LayWhole {
  return onBestParting(laying, (part, start) => layQuickly(laying.batch, part, laying, start));
}

/**
 * Lays a group out on its boards as they are parted best.
 *
 * @param lay lays out the group, or some sets of it, from an arrangement to go on from when there is one
 */
export function onBestParting(
  laying: Laying,
  lay: (part: Group, start: Arrangement | undefined) => Promise<LaidGroup>,
): LayWhole {
  return async (whole, taken) => {
    const [{ group, start }] = await laying.partings(whole, taken);
    const layPart: LayGroup = (part) => lay(part, part === group ? start : undefined);
    return lowered(group, await layGroup(laying.batch, group, layPart));
  };
}

/** Groups with lower stacks, and how they are laid out. */
export interface LowerStacks {
  readonly stacks: readonly StackWays[];
  readonly laid: readonly Taking[];
}

/**
 * The groups with lower stacks, where those leave less out: a stack that is as high as may be can take every board of a
 * wood and leave none for parts of that wood that are sawn by themselves or in other stacks. Undefined when nothing is
 * left out, or no lower stack helps.
 *
 * @param all the groups as they are laid out
 * @param lay tells by a layout what lower stacks leave out
 */
export async function lowerStacks(
  { signal }: Laying,
  given: readonly StackWays[],
  all: readonly Taking[],
  lay: LayWhole,
): Promise<LowerStacks | undefined> {
  let best: LowerStacks & { readonly loss: Loss } = { stacks: given, laid: all, loss: leftOut(laidOf(all)) };
  for (const [i, stack] of given.entries()) {
    const { ways } = stack;
    const wants = given.some(
      (other, j) => j !== i && all[j].laid.unplaced.length > 0 && shareBoards(stack, other),
    );
    if (!wants) continue;
    for (let from = 1; from < ways.length && best.loss.some((value) => value > 0); from++) {
      if (signal?.aborted) break;
      const [first, ...others] = ways.slice(from);
      const stacks = best.stacks.map((own, j) =>
        j === i ? { ...own, ways: [first, ...others] as const } : own,
      );
      // Each on the boards that the ones before it have left.
      const laid = await layEach(stacks, signal, lay, 'every group');
      const loss = leftOut(laidOf(laid));
      if (compareLosses(loss, best.loss) < 0) best = { stacks, laid, loss };
    }
  }
  return best.stacks === given ? undefined : best;
}
