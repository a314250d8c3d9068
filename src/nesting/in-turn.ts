import type { Batch } from '../model/batch.ts';
import type { Group } from './groups/group.ts';
import { keepsPins, pinnedPiles, type StackWays } from './groups/stack-ways.ts';
import type { LaidGroup } from './laid/laid-group.ts';
import { leftOut, lossOf } from './laid/loss.ts';
import { type LayGroup, laySetsTogether } from './laid/sets-together.ts';
import { compareLosses, type Loss, sumOf } from './problem/compare-losses.ts';
import { type LaidParting, type Taking, takingOf } from './taking.ts';

/** Groups laid out one after the other, each on what the others have left. */

/** Lays out a group on what is not taken of the stock. */
export type LayWhole = (whole: Group, taken: ReadonlySet<string>, beside: Beside) => Promise<LaidParting>;

/** The other groups that are laid out. */
interface Others {
  readonly groups: readonly Taking[];
  /** Where the group itself belongs among them. */
  readonly place: number;
}

/** What is laid out beside a group, and stays. */
export interface Beside extends Others {
  /** Groups of the same way to saw in stacks. */
  readonly parts: readonly LaidParting[];
  /** True when no other group of the way comes after it. */
  readonly isLast: boolean;
}

/**
 * Lays out every group on what those before it have left. Boards of piles with a pinned copy are left to the groups that
 * it belongs to, unless others find no room without them.
 *
 * @param extent whether the groups that have not had their turn when the signal is aborted are left out
 */
export async function layEach(
  stacks: readonly StackWays[],
  signal: AbortSignal | undefined,
  lay: LayWhole,
  extent: 'every group' | 'until stopped',
): Promise<Taking[]> {
  const all: Taking[] = [];
  for (const [i, { ways }] of stacks.entries()) {
    if (extent === 'until stopped' && signal?.aborted) break;
    const beside = { groups: all, place: i };
    const piles = pinnedPiles(stacks.slice(i + 1));
    let own = await firstWithRoom(ways, beside, piles, signal, lay);
    if (piles.length > 0 && own.laid.unplaced.length > 0 && !signal?.aborted) {
      const wider = await firstWithRoom(ways, beside, [], signal, lay);
      if (compareLosses(leftOut([wider.laid]), leftOut([own.laid])) < 0) own = wider;
    }
    all.push(own);
  }
  return all;
}

/**
 * The groups, with those of which copies find no place gone on to boards that ask for more work. Only when all have had
 * their turn: these boards may be the very wood of another group.
 */
export async function goneOn(
  stacks: readonly StackWays[],
  own: readonly Taking[],
  signal: AbortSignal | undefined,
  lay: LayWhole,
): Promise<Taking[]> {
  const all = [...own];
  for (const [i, { laid }] of own.entries()) {
    const [first, ...others] = stacks[i].further;
    if (first === undefined || laid.unplaced.length === 0 || signal?.aborted) continue;
    const beside = { groups: all.toSpliced(i, 1), place: i };
    const wider = await firstWithRoom([first, ...others], beside, [], signal, lay);
    if (compareLosses(leftOut([wider.laid]), leftOut([laid])) < 0) all[i] = wider;
  }
  return all;
}

/** Lays out every group on what those before it have left, and then goes on to boards that ask for more work. */
export async function eachAndGoneOn(
  ...[stacks, signal, lay, extent]: Parameters<typeof layEach>
): Promise<Taking[]> {
  return goneOn(stacks, await layEach(stacks, signal, lay, extent), signal, lay);
}

/**
 * The first way to saw in stacks that has room for all copies, or else the one that leaves least out, on what the groups
 * beside it have left. No way is one that lacks the boards of a pile with a pinned copy, which would lie elsewhere in it.
 *
 * @param reserved names of boards that are not taken, though no group has them yet
 */
async function firstWithRoom(
  ways: StackWays['ways'],
  beside: Others,
  reserved: readonly string[],
  signal: AbortSignal | undefined,
  lay: LayWhole,
): Promise<Taking> {
  const gone = new Set([...reserved, ...beside.groups.flatMap(({ takes }) => [...takes])]);
  // A board with a pin is no other group's, so that boards one by one always keep theirs.
  const open = ways.filter(([main]) => keepsPins(main, gone));
  let best: (Taking & { readonly loss: Loss }) | undefined;
  for (const way of open) {
    let parts: readonly LaidParting[] = [];
    for (const whole of way) {
      const taken = new Set([...gone, ...takingOf(parts).takes]);
      const isLast = parts.length === way.length - 1;
      parts = [...parts, await lay(whole, taken, { ...beside, parts, isLast })];
    }
    const taking = takingOf(parts);
    const loss = sumOf(parts.map(({ group, found }) => lossOf(group, found)));
    if (best === undefined || compareLosses(loss, best.loss) < 0) best = { ...taking, loss };
    if (taking.laid.unplaced.length === 0 || signal?.aborted) break;
  }
  return best!;
}

/** Lays out a group, set by set where its sets stay together on one board. */
export function layGroup(batch: Batch, group: Group, lay: LayGroup): Promise<LaidGroup> {
  return batch.setsTogether === true ? laySetsTogether(batch, group, lay) : lay(group, 1);
}
