import { listOf, number, oneOf, optional, words } from '../issues/checks.ts';
import * as inWords from '../issues/counted.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import * as telling from '../issues/issue.ts';
import { issueCheck } from '../issues/issue-check.ts';
import * as inText from '../issues/lengths-in-text.ts';
import { FINITE } from '../issues/number-issue.ts';
import * as plain from '../issues/plain-text.ts';
import * as together from '../issues/told-together.ts';

/**
 * Issues and counts in words, for who hands in anything. The error class itself writes its message with these, so they
 * cannot ask before they write; here it is asked.
 */

const textUnit = oneOf(['mm', 'in', 'both']);
const countCheck = number(FINITE);

/**
 * One issue as a line of text: place, message, expected and received, remedy.
 *
 * @param unit unit of the lengths in it (default mm)
 * @throws FretlayError for what is no issue, and for another unit
 */
export function formatIssue(issue: telling.Issue, unit: inText.TextUnit = 'mm'): string {
  throwOnErrors([...issueCheck('issue', issue), ...textUnit('unit', unit)]);
  return telling.formatIssue(issue, unit);
}

/**
 * Issues by how bad they are, the worst first; in the order found among those that are equally bad.
 *
 * @throws FretlayError for what is no list of issues
 */
export function worstFirst(issues: readonly telling.Issue[]): telling.Issue[] {
  throwOnErrors(listOf(issueCheck)('issues', issues));
  return telling.worstFirst(issues);
}

/**
 * Issues for a person: what is said of more than three elements of a drawing in the same words is one, at the place of the
 * first, with the lines of the others.
 *
 * @throws FretlayError for what is no list of issues
 */
export function toldTogether(issues: readonly telling.Issue[]): telling.Issue[] {
  throwOnErrors(listOf(issueCheck)('issues', issues));
  return together.toldTogether(issues);
}

/**
 * A text that states lengths in mm, with them in the unit asked for: inches are decimal, to a thousandth.
 *
 * @throws FretlayError for what is no text, and for another unit
 */
export function lengthsInText(text: string, unit: inText.TextUnit): string {
  throwOnErrors([...words()('text', text), ...textUnit('unit', unit)]);
  return inText.lengthsInText(text, unit);
}

/**
 * A text in one line, without control characters and what would turn the text around it: names of jobs and drawings may hold
 * them, and would set the colours of a terminal or pass for a message of their own.
 *
 * @throws FretlayError for what is no text
 */
export function plainLine(text: string): string {
  throwOnErrors(words()('text', text));
  return plain.plainLine(text);
}

/**
 * A count with its word: `1 board`, `2 boards`; a plural other than with s is stated.
 *
 * @throws FretlayError for what is no number, and for words that are no text
 */
export function counted(count: number, one: string, many?: string): string {
  throwOnErrors([...countCheck('count', count), ...words()('one', one), ...optional(words())('many', many)]);
  return inWords.counted(count, one, many);
}
