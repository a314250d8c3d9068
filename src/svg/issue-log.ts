import { FretlayError } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import { describeElement, type SvgElement } from './element.ts';

/** The parts of an issue that the reader fills in beside kind, severity and message. */
type Details = Pick<Issue, 'expected' | 'received' | 'remedy'>;

/** What to do about a file without a word in it. */
export const EMPTY: Details = { remedy: 'Export the drawing as SVG from the drawing program once more.' };

/** Longest piece of the file an issue repeats. */
const LONGEST_QUOTE = 60;

/** The issues of one reading, each with file, line and element filled in. */
export class IssueLog {
  readonly issues: Issue[] = [];
  readonly file: string;
  /** What has been said of an element already: one used a thousand times is reported once. */
  private readonly said = new Map<SvgElement, Set<string>>();

  constructor(file: string) {
    this.file = file;
  }

  /** Tells of something that may spoil the cut, at an element or about the whole file; the reading goes on. */
  warn(kind: string, message: string, element?: SvgElement, details?: Details): void {
    this.add({ kind, severity: 'warning', message, ...details }, element);
  }

  /** Tells what was done with the file, or a hint at what may be meant: nothing is wrong by itself. */
  note(kind: string, message: string, element: SvgElement, details?: Details): void {
    this.add({ kind, severity: 'note', message, ...details }, element);
  }

  /** Tells of an error and stops the reading. */
  fail(kind: string, message: string, element?: SvgElement, details?: Details): never {
    this.add({ kind, severity: 'error', message, ...details }, element);
    throw new FretlayError(this.issues);
  }

  /** The same of the same element only once: a `use` reads one element again for every copy it draws. */
  private add(issue: Omit<Issue, 'where'>, element: SvgElement | undefined): void {
    if (element !== undefined && this.isRepeated(element, issue.kind + issue.message)) return;
    const where =
      element === undefined
        ? { file: this.file }
        : { file: this.file, line: element.line, element: describeElement(element) };
    this.issues.push({ ...issue, where });
  }

  private isRepeated(element: SvgElement, what: string): boolean {
    const said = this.said.get(element);
    if (said === undefined) this.said.set(element, new Set([what]));
    else if (said.has(what)) return true;
    else said.add(what);
    return false;
  }
}

/** A piece of the file for a message, cut to a readable length. */
export function quote(text: string): string {
  const short = text.length > LONGEST_QUOTE ? `${text.slice(0, LONGEST_QUOTE)}...` : text;
  return `"${short}"`;
}
