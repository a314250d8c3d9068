import type { LaidAlready } from './groups/groups.ts';

/** On which terms a batch is laid out. */
export interface LayingTerms {
  /** Demands of the batch that are laid out and stay as they lie: the others do without their boards. */
  readonly already: LaidAlready;
  /**
   * Whether a layout of small effort is enough, as to see what other boards would come to: the groups in the order of the batch,
   * few ways to part their boards, and no answer before that one.
   */
  readonly brief: boolean;
}
