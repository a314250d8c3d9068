import type { Issue } from '../issues/issue.ts';
import { type NumberLimits, numberIssue } from '../issues/number-issue.ts';
import { MOST_EFFORT, MOST_MINUTES, MOST_SEED } from '../model/laying-out.ts';

/** Between which values the numbers of a search make sense: thousands of moves, the seed, minutes of the clock. */
export const SEARCH_LIMITS = {
  effort: { least: 0, most: MOST_EFFORT },
  seed: { least: 0, most: MOST_SEED, whole: true },
  minutes: { least: 0, most: MOST_MINUTES },
} as const satisfies Record<string, NumberLimits>;

/** A number of the search by its name. */
export type SearchNumber = keyof typeof SEARCH_LIMITS;

/** What is wrong with a number of the search that a person typed; undefined when nothing is. */
export function searchNumberIssue(name: SearchNumber, value: number): Issue | undefined {
  return numberIssue(name, value, SEARCH_LIMITS[name]);
}
