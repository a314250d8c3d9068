import type { Demand } from '../model/batch.ts';
import { highestStack } from './groups/group.ts';
import { type StackWays, shareBoards } from './groups/stack-ways.ts';
import type { Taking } from './taking.ts';

/** Groups to lay out together without stacks. */
export interface IdleStacks {
  /** Their places among all groups. */
  readonly places: ReadonlySet<number>;
  /** Whether a stack of them came about, which is only worth giving up for copies that else find no place. */
  readonly areMade: boolean;
  /** What is asked for of them, no longer in stacks that gain nothing. */
  readonly demands: readonly Demand[];
}

/**
 * Stacks that gain nothing: what lies on single boards after all, or keeps boards from parts of its wood that find no place. In
 * stacks they take no board that others lie on, which may be half empty; without, they share the boards of those.
 *
 * @param all the groups as they are laid out, in their order
 * @return undefined when there is no such stack, or no other group could share its boards
 */
export function idleStacks(stacks: readonly StackWays[], all: readonly Taking[]): IdleStacks | undefined {
  const places = new Set<number>();
  const idle = new Set<number>();
  let areMade = false;
  for (const [i, own] of stacks.entries()) {
    if (highestStack(demandsOf(own)[0]) === 1) continue;
    const sharing = [...stacks.keys()].filter((j) => j !== i && shareBoards(own, stacks[j]));
    const isSingle = all[i].laid.boards.every(({ copies }) => copies === 1);
    const isShort = [i, ...sharing].some((j) => all[j].laid.unplaced.length > 0);
    if (sharing.length === 0 || !(isSingle || isShort)) continue;
    idle.add(i);
    if (!isSingle) areMade = true;
    for (const j of [i, ...sharing]) places.add(j);
  }
  if (idle.size === 0) return undefined;
  const demands = [...places]
    .sort((a, b) => a - b)
    .flatMap((i) => demandsOf(stacks[i]).map((demand) => (idle.has(i) ? { ...demand, stack: 1 } : demand)));
  return { places, areMade, demands };
}

function demandsOf({ ways: [[{ demands }]] }: StackWays): readonly Demand[] {
  return demands;
}
