import type { Batch } from '../model/batch.ts';
import type { Layout } from '../model/layout.ts';
import { takenNames } from '../stock/used-boards.ts';
import type { Group } from './groups/group.ts';
import type { LaidAlready } from './groups/groups.ts';
import type { StackWays } from './groups/stack-ways.ts';
import { KnownByBoards } from './known-by-boards.ts';
import { assembled } from './laid/assembled.ts';
import type { LaidGroup } from './laid/laid-group.ts';
import type { LayingTerms } from './laying-terms.ts';
import type { ProblemBuilder } from './problem/problem-spec.ts';
import { Pulse } from './running/pulse.ts';
import { firstParting, wellParted } from './sections/choose-parting.ts';
import type { Parted } from './sections/tried-parting.ts';

/** A batch being laid out: what the quick layouts and the searches of all its groups have in common. */
export class Laying {
  readonly batch: Batch;
  /** In the order in which they are laid out. */
  stacks: readonly StackWays[];
  readonly builder: ProblemBuilder;
  readonly signal: AbortSignal | undefined;
  readonly brief: boolean;
  readonly #already: LaidAlready;
  /** Names of the boards that are taken before any group has its turn. */
  readonly #gone: readonly string[];
  readonly #parted = new KnownByBoards<readonly Parted[]>();

  constructor(
    batch: Batch,
    stacks: readonly StackWays[],
    builder: ProblemBuilder,
    signal: AbortSignal | undefined,
    { already, brief }: LayingTerms,
  ) {
    this.batch = batch;
    this.stacks = stacks;
    this.builder = builder;
    this.signal = signal;
    this.#already = already;
    this.brief = brief;
    this.#gone = takenNames(already.boards);
  }

  /** The layout file of the groups laid out so far, beside what was laid out already. */
  layoutOf(laid: readonly LaidGroup[]): Layout {
    return assembled(this.batch, [{ boards: this.#already.boards, unplaced: [] }, ...laid]);
  }

  /**
   * Partings of a group on what is not taken of the stock. Found once: the search asks for the group that the quick
   * layout has asked for, mostly with the same boards taken.
   */
  partings(group: Group, taken: ReadonlySet<string>): Promise<readonly Parted[]> {
    const { batch, builder, signal } = this;
    return this.#parted.get(group, taken, () =>
      wellParted(batch, group, {
        taken: this.#goneWith(taken),
        builder,
        pulse: new Pulse(signal),
        brief: this.brief,
      }),
    );
  }

  /** A group on what is not taken of the stock, its boards parted in the first way there is. */
  firstParting(group: Group, taken: ReadonlySet<string>): Group {
    return firstParting(this.batch, group, this.#goneWith(taken));
  }

  #goneWith(taken: ReadonlySet<string>): Set<string> {
    return new Set([...this.#gone, ...taken]);
  }
}
