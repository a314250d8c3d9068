import { FretlayError } from '../issues/fretlay-error.ts';
import type { Issue, IssuePlace } from '../issues/issue.ts';
import { numberIssue, SOME_LENGTH } from '../issues/number-issue.ts';
import { type ReadPatternOptions, readPattern } from './read-pattern.ts';

/**
 * Reads a pattern, and tells what is wrong with a stated size where it is stated: the drawing does not hold it.
 *
 * @param placeOf where a field of the options, such as `finishedSize.length`, was written by the person
 */
export function readPatternStated(
  svgText: string,
  options: ReadPatternOptions,
  placeOf: (field: string) => IssuePlace,
): ReturnType<typeof readPattern> {
  const placed = (issue: Issue): Issue => {
    const field = issue.where?.field;
    // What should be the text of the drawing is stated nowhere but in the call.
    return field === undefined || field === 'svgText' ? issue : { ...issue, where: placeOf(field) };
  };
  try {
    const { pattern, issues } = readPattern(svgText, options);
    return { pattern, issues: issues.map(placed) };
  } catch (error) {
    throw error instanceof FretlayError ? new FretlayError(error.issues.map(placed)) : error;
  }
}

/** True for a length that a finished side may have, mm. */
export function isFinishedLength(mm: number): boolean {
  return numberIssue('length', mm, SOME_LENGTH) === undefined;
}

/** Where a job has a field of its pattern. */
export function inJob(file: string): (field: string) => IssuePlace {
  return (field) => ({ file, field: `pattern.${field}` });
}
