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
  const inBoxes = await eachAndGoneOn(stacks, signal, boxed(laying), 'every group');
  if (inBoxes.every(({ laid }) => laid.unplaced.length === 0)) tell(inBoxes, 'first layout in boxes');
  const own = await eachAndGoneOn(stacks, signal, quickly(laying), 'until stopped');
  const quick = signal?.aborted ? atTheStop(own, inBoxes) : own;
  tell(quick, 'first layout of everything');
  return quick;
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

/** A quick layout of every group, each on the boards that the ones before it have left. */
function quickEach(laying: Laying, stacks: readonly StackWays[]): Promise<Taking[]> {
  return layEach(stacks, laying.signal, quickly(laying), 'every group');
}

/**
 * The groups with lower stacks, where those leave less out: a stack that is as high as may be can take every board of a
 * wood and leave none for parts of that wood that are sawn by themselves or in other stacks. Told by quick layouts;
 * undefined when nothing is left out, or no lower stack helps.
 */
export async function lowerStacks(
  laying: Laying,
  all: readonly Taking[],
): Promise<readonly StackWays[] | undefined> {
  let best: { stacks: readonly StackWays[]; loss: Loss } = {
    stacks: laying.stacks,
    loss: leftOut(laidOf(all)),
  };
  for (const [i, stack] of laying.stacks.entries()) {
    const { ways } = stack;
    const wants = laying.stacks.some(
      (other, j) => j !== i && all[j].laid.unplaced.length > 0 && shareBoards(stack, other),
    );
    if (!wants) continue;
    for (let from = 1; from < ways.length && best.loss.some((value) => value > 0); from++) {
      if (laying.signal?.aborted) break;
      const [first, ...others] = ways.slice(from);
      const stacks = best.stacks.map((own, j) =>
        j === i ? { ...own, ways: [first, ...others] as const } : own,
      );
      const loss = leftOut(laidOf(await quickEach(laying, stacks)));
      if (compareLosses(loss, best.loss) < 0) best = { stacks, loss };
    }
  }
  return best.stacks === laying.stacks ? undefined : best.stacks;
}
