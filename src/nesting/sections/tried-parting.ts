import type { Arrangement } from '../arrangement/arrangement.ts';
import { better, type Score } from '../arrangement/score.ts';
import type { Group } from '../groups/group.ts';
import type { ProblemBuilder } from '../problem/problem-spec.ts';
import type { Pulse } from '../running/pulse.ts';

/** Ways to part the boards of a group, as they are tried. */

/** A group with its boards parted one way, and a quick layout to go on from. */
export interface Parted {
  readonly group: Group;
  /** Undefined for boards that stay whole. */
  readonly start: Arrangement | undefined;
}

/** A parting that was tried, with how well its quick layout does. */
export interface TriedParting extends Parted {
  readonly start: Arrangement;
  readonly score: Score;
}

/** What all tries for one group have in common. */
export interface PartingTrials {
  /** Names of the boards that other groups have taken. */
  readonly taken: ReadonlySet<string>;
  /** One for all tries: they differ in their containers alone, so the fields between parts are made once. */
  readonly builder: ProblemBuilder;
  readonly pulse: Pulse;
  /** Whether few ways are enough: no search goes on from any. */
  readonly brief: boolean;
}

/** The tries with the best layouts first; in the order they were made among those that do alike. */
export function bestFirst(tried: readonly TriedParting[]): TriedParting[] {
  const before = (a: TriedParting, b: TriedParting) =>
    Number(better(b.score, a.score)) - Number(better(a.score, b.score));
  return [...tried].sort(before);
}
