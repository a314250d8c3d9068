import { lengthsInText, type TextUnit } from './lengths-in-text.ts';
import { plainLine } from './plain-text.ts';

/** What went wrong or looks wrong, as data: every reading and planning step hands these back with its result. */

/** How bad it is: an error stops the step, a warning needs a person's eye, a note tells what was done. */
export type Severity = 'error' | 'warning' | 'note';

/** Where an issue lies. Every field that is known is filled in. */
export interface IssuePlace {
  /** File name as the caller gave it. */
  readonly file?: string;
  /** Line and column in that file, counted from 1. */
  readonly line?: number;
  /** Counted from 1. */
  readonly column?: number;
  /** The element, such as `<text id="title">`. */
  readonly element?: string;
  /** Field of a JSON file, such as `boards[2].size`. */
  readonly field?: string;
  readonly layer?: string;
  readonly part?: string;
  readonly board?: string;
  /** Point in mm in the frame of the drawing or board. */
  readonly at?: readonly [x: number, y: number];
}

/** One thing that went wrong or looks wrong. */
export interface Issue {
  /** A fixed word for the kind, for programs: `text-left-out`, `kerf-negative`, ... */
  readonly kind: string;
  readonly severity: Severity;
  /** What is the matter, in one sentence for a person, without the place. */
  readonly message: string;
  readonly expected?: string;
  readonly received?: string;
  /** What to do about it. */
  readonly remedy?: string;
  readonly where?: IssuePlace;
}

const SEVERITIES: readonly Severity[] = ['error', 'warning', 'note'];

/** Issues by how bad they are, the worst first; in the order found among those that are equally bad. */
export function worstFirst(issues: readonly Issue[]): Issue[] {
  return SEVERITIES.flatMap((severity) => issues.filter((issue) => issue.severity === severity));
}

/**
 * One issue as a line of text: place, message, expected and received, remedy. Control characters of names are left out.
 *
 * @param unit unit of the lengths in it (default mm)
 */
export function formatIssue(issue: Issue, unit: TextUnit = 'mm'): string {
  return plainLine(lengthsInText(lineOf(issue), unit));
}

function lineOf(issue: Issue): string {
  const facts = [
    issue.expected === undefined ? '' : `expected ${issue.expected}`,
    issue.received === undefined ? '' : `found ${issue.received}`,
  ].filter(Boolean);
  const place = formatPlace(issue.where);
  return [
    place === '' ? '' : `${place}: `,
    issue.message,
    facts.length > 0 ? ` (${facts.join(', ')})` : '',
    issue.remedy === undefined ? '' : `${isEnded(issue.message, facts) ? '' : '.'} ${issue.remedy}`,
  ].join('');
}

/** True for a sentence that is a question or has its full stop, with nothing in brackets behind it. */
function isEnded(message: string, facts: readonly string[]): boolean {
  return facts.length === 0 && /[.?!]$/.test(message);
}

function formatPlace(where: IssuePlace | undefined): string {
  if (where === undefined) return '';
  const line =
    where.line === undefined ? '' : `:${where.line}${where.column === undefined ? '' : `:${where.column}`}`;
  return [
    where.file === undefined ? '' : `${where.file}${line}`,
    where.field ?? '',
    where.element ?? '',
    where.layer === undefined ? '' : `layer "${where.layer}"`,
    where.part === undefined ? '' : `part "${where.part}"`,
    where.board === undefined ? '' : `board "${where.board}"`,
    where.at === undefined ? '' : `at ${where.at[0].toFixed(1)}, ${where.at[1].toFixed(1)} mm`,
  ]
    .filter(Boolean)
    .join(', ');
}
